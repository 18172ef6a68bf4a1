"""What the library says as a whole: each movement has the fields its kind needs, and easier means easier."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.findings import Finding
from planner.domain.library_review import LibraryReview
from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.files.document import Loaded
from planner.files.sense.chains import chain_findings
from planner.files.sense.conditions import condition_findings
from planner.files.sense.tags import tag_findings


def movement_sense(loaded: Loaded[Library]) -> list[Finding]:
    """What each movement says by itself, whatever it is named among."""
    return [finding for movement in loaded.value or () for finding in _movement(movement, loaded)]


def library_sense(loaded: Loaded[Library], review: LibraryReview) -> list[Finding]:
    """What the movements say together, against what the review asks. Every name in them must be known."""
    library = loaded.require()
    findings = [*chain_findings(library, loaded), *condition_findings(library, loaded)]
    return [*findings, *tag_findings(library, loaded, review.tags)]


def _movement(movement: Movement, loaded: Loaded[Library]) -> Iterator[Finding]:
    here, kind = movement.id, movement.kind
    if kind == "jump" and movement.jump is None:
        message = f"'{here}' is a jump without a 'jump' field"
        hint = "add jump with direction, approach and tier, so that its contacts count"
        yield loaded.finding((here, "kind"), "jump-without-jump", message, hint)
    if movement.jump is None and kind != "jump":
        yield from _uncounted(movement, loaded)
    if movement.jump is not None and kind not in ("jump", "skill"):
        message = f"'{here}' is of kind {kind}; only a jump or a skill has contacts"
        yield loaded.finding((here, "jump"), "jump-of-no-jump", message, "change the kind, or delete jump", on_key=True)
    if kind == "sprint" and movement.sprint is None:
        message = f"'{here}' is a sprint without a 'sprint' field"
        yield loaded.finding((here, "kind"), "sprint-without-sprint", message, "add sprint with sort and distance")
    if movement.sprint is not None and kind != "sprint":
        message = f"'{here}' is of kind {kind}; only a sprint has a 'sprint' field"
        yield loaded.finding(
            (here, "sprint"), "sprint-of-no-sprint", message, "change the kind, or delete sprint", on_key=True
        )
    if movement.jump is not None and movement.jump.rebound and movement.jump.drop is None:
        message = f"'{here}' rebounds without a drop"
        yield loaded.finding((here, "jump", "rebound"), "rebound-without-drop", message, "add drop, or delete rebound")
    yield from _dose(movement, loaded)


def _uncounted(movement: Movement, loaded: Loaded[Library]) -> Iterator[Finding]:
    """A movement that leaves the ground, by its part or patterns, but whose contacts would not count."""
    leaping = [pattern for pattern in movement.patterns if pattern in ("vertical-jump", "horizontal-jump")]
    if leaping or movement.part in ("jump", "approach-jump"):
        what = f"pattern {leaping[0]}" if leaping else f"part {movement.part}"
        field = ("patterns", movement.patterns.index(leaping[0])) if leaping else ("part",)
        message = f"'{movement.id}' has the {what} but no 'jump' field, so its contacts would not count"
        hint = "make it kind: jump with direction, approach and tier, or change its part or patterns"
        yield loaded.finding((movement.id, *field), "contacts-uncounted", message, hint)


def _dose(movement: Movement, loaded: Loaded[Library]) -> Iterator[Finding]:
    here, dose = movement.id, movement.dose
    if dose.load == "percent" and dose.of is None:
        message = f"'{here}' is dosed in percent but names no reference lift"
        yield loaded.finding((here, "dose", "load"), "percent-of-nothing", message, f"add of, such as of: {here}")
    if dose.load != "percent" and dose.of is not None:
        message = f"'{here}' names a reference lift but is not dosed in percent"
        yield loaded.finding(
            (here, "dose", "of"), "reference-unused", message, "write load: percent, or delete of", level="warning"
        )
