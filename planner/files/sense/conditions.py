"""What a movement needs: a reference lift that has a maximum, a condition that some athlete can meet."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.findings import Finding
from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.prerequisite import parse_requirement
from planner.domain.terms import LEVELS
from planner.files.document import Loaded


def condition_findings(library: Library, loaded: Loaded[Library]) -> Iterator[Finding]:
    needs = {m.id: [parse_requirement(text).lift for text in m.requires] for m in library}
    for movement in library:
        yield from _reference(movement, library, loaded)
        for index, lift in enumerate(needs[movement.id]):
            yield from _requirement(movement, index, library[lift], needs, loaded)


def _reference(movement: Movement, library: Library, loaded: Loaded[Library]) -> Iterator[Finding]:
    of = movement.dose.of
    if of is not None and not has_maximum(library[of]):
        message = f"'{movement.id}' is dosed in percent of '{of}', which has no maximum: {_why_none(library[of])}"
        yield loaded.finding((movement.id, "dose", "of"), "reference-without-maximum", message, "name a loaded lift")


def _requirement(
    movement: Movement, index: int, lift: Movement, needs: dict[str, list[str]], loaded: Loaded[Library]
) -> Iterator[Finding]:
    path = (movement.id, "requires", index)
    if not has_maximum(lift):
        message = f"'{movement.id}' asks for a maximum in '{lift.id}', which has none: {_why_none(lift)}"
        yield loaded.finding(path, "condition-nobody-meets", message, "name a loaded lift")
    elif movement.id == lift.id or movement.id in _needed_for(lift.id, needs):
        message = f"'{movement.id}' asks for '{lift.id}' first, and '{lift.id}' for '{movement.id}'"
        if movement.id == lift.id:
            message = f"'{movement.id}' asks for itself first, so nobody can begin with it"
        yield loaded.finding(path, "condition-nobody-meets", message, "delete one of the two conditions")
    elif LEVELS.index(lift.level) > LEVELS.index(movement.level):
        message = f"'{movement.id}' is {movement.level} and asks first for '{lift.id}', which is {lift.level}"
        hint = "raise its level, or ask for an easier lift"
        yield loaded.finding(path, "condition-above-level", message, hint, level="warning")


def has_maximum(lift: Movement) -> bool:
    """Whether a test of it can give a one-repetition maximum."""
    return lift.kind == "lift" and lift.dose.load != "none"


def _why_none(lift: Movement) -> str:
    return "it is dosed without a load" if lift.kind == "lift" else f"it is a {lift.kind}"


def _needed_for(start: str, needs: dict[str, list[str]]) -> set[str]:
    """All lifts that ``start`` asks for, and those that they ask for."""
    found: set[str] = set()
    waiting = list(needs[start])
    while waiting:
        at = waiting.pop()
        if at not in found:
            found.add(at)
            waiting += needs[at]
    return found
