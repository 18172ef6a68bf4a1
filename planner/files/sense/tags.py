"""Tags compared with the family's: one unlike all the others is a slip of the pen, or needs a reason."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import cast

from planner.domain.findings import Finding
from planner.domain.library_review import TagDistance
from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.terms import JOINTS, QUALITIES
from planner.files.document import Loaded


def tag_findings(library: Library, loaded: Loaded[Library], limits: TagDistance) -> Iterator[Finding]:
    """Notes on tags that no relative on the same legs comes near; silent where ``source`` says why."""
    families: dict[str, list[Movement]] = {}
    for movement in library:
        families.setdefault(f"{library.families[movement.id]}/{movement.legs}", []).append(movement)
    for members in families.values():
        for movement in members:
            relatives = [other for other in members if other is not movement]
            if len(relatives) >= limits.least_relatives:
                yield from _apart(movement, relatives, "qualities", QUALITIES, limits, loaded)
                yield from _apart(movement, relatives, "stress", JOINTS, limits, loaded)


def _apart(
    movement: Movement,
    relatives: list[Movement],
    field: str,
    words: tuple[str, ...],
    limits: TagDistance,
    loaded: Loaded[Library],
) -> Iterator[Finding]:
    for word in words:
        own, theirs = _tag(movement, field, word), sorted({_tag(other, field, word) for other in relatives})
        if min(abs(own - tag) for tag in theirs) < limits.steps_apart or word in movement.source:
            continue
        among = " or ".join(map(str, theirs))
        family = ", ".join(other.id for other in relatives[:3])
        message = f"'{movement.id}' is tagged {word}: {own}; the others of its family have {among} ({family})"
        hint = f"check it; if it is meant, say why in source, and name {word} there"
        path = (movement.id, field, word) if own else (movement.id, field)
        yield loaded.finding(path, "tag-apart", message, hint, level="note")


def _tag(movement: Movement, field: str, word: str) -> int:
    return cast("Mapping[str, int]", getattr(movement, field)).get(word, 0)
