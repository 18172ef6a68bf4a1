"""What the library says as a whole: each movement has the fields its kind needs, and easier means easier."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.findings import Finding
from planner.domain.library import Library
from planner.domain.movement import Movement
from planner.domain.terms import LEVELS
from planner.files.document import Loaded


def library_sense(loaded: Loaded[Library]) -> list[Finding]:
    library = loaded.value
    if library is None:
        return []
    found = [finding for movement in library for finding in _movement(movement, loaded)]
    return [*found, *_neighbours(library, loaded)]


def _movement(movement: Movement, loaded: Loaded[Library]) -> Iterator[Finding]:
    here, kind = movement.id, movement.kind
    if kind == "jump" and movement.jump is None:
        message = f"'{here}' is a jump and has no 'jump' field"
        hint = "add jump with direction, approach and tier, so that its contacts count"
        yield loaded.finding((here, "kind"), "jump-without-jump", message, hint)
    if movement.jump is not None and kind not in ("jump", "skill"):
        message = f"'{here}' is of kind {kind}; only a jump or a skill has contacts"
        yield loaded.finding((here, "jump"), "jump-of-no-jump", message, "change the kind, or delete jump", on_key=True)
    if kind == "sprint" and movement.sprint is None:
        message = f"'{here}' is a sprint and has no 'sprint' field"
        yield loaded.finding((here, "kind"), "sprint-without-sprint", message, "add sprint with sort and distance")
    if movement.sprint is not None and kind != "sprint":
        message = f"'{here}' is of kind {kind}, and a sprint stands here"
        yield loaded.finding(
            (here, "sprint"), "sprint-of-no-sprint", message, "change the kind, or delete sprint", on_key=True
        )
    if movement.jump is not None and movement.jump.rebound and movement.jump.drop is None:
        message = f"'{here}' rebounds, but from no drop"
        yield loaded.finding((here, "jump", "rebound"), "rebound-without-drop", message, "add drop, or delete rebound")
    yield from _dose(movement, loaded)


def _dose(movement: Movement, loaded: Loaded[Library]) -> Iterator[Finding]:
    here, dose = movement.id, movement.dose
    if dose.load == "percent" and dose.of is None:
        message = f"'{here}' is dosed in percent of a lift that is not named"
        yield loaded.finding((here, "dose", "load"), "percent-of-nothing", message, f"add of, such as of: {here}")
    if dose.load != "percent" and dose.of is not None:
        message = f"'{here}' names a reference lift and is not dosed in percent"
        yield loaded.finding(
            (here, "dose", "of"), "reference-unused", message, "write load: percent, or delete of", level="warning"
        )


def _neighbours(library: Library, loaded: Loaded[Library]) -> Iterator[Finding]:
    for movement in library:
        for field, neighbour in (("easier", movement.easier), ("harder", movement.harder)):
            if neighbour is None:
                continue
            loop = _loop(library, movement.id, field)
            if loop and min(loop) == movement.id:
                chain = " -> ".join([*loop, loop[0]])
                message = f"'{field}' goes round in a circle: {chain}"
                yield loaded.finding((movement.id, field), "neighbour-loop", message, "break it at one of them")
            other = library.movements[neighbour]
            gap = LEVELS.index(other.level) - LEVELS.index(movement.level)
            if (gap > 0 and field == "easier") or (gap < 0 and field == "harder"):
                message = f"the {field} '{neighbour}' is {other.level}, and '{movement.id}' is {movement.level}"
                hint = "check both levels"
                yield loaded.finding((movement.id, field), "neighbour-level", message, hint, level="warning")


def _loop(library: Library, start: str, field: str) -> list[str]:
    """The ids of the circle that ``start`` lies on, following ``field``; empty if it lies on none."""
    chain, at = [start], start
    while True:
        following = getattr(library.movements[at], field)
        if following is None or following in chain[1:]:
            return []
        if following == start:
            return chain
        chain.append(following)
        at = following
