"""Easier and harder: chains that end, agree with each other, and rise in level."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.findings import Finding
from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.terms import LEVELS
from planner.files.document import Loaded


def chain_findings(library: Library, loaded: Loaded[Library]) -> Iterator[Finding]:
    above = _harder_than(library)
    for movement in library:
        for field, neighbour in (("easier", movement.easier), ("harder", movement.harder)):
            if neighbour is not None:
                yield from _circle(library, movement, field, loaded)
                yield from _level(library.movements[neighbour], movement, field, loaded)
        yield from _contradiction(movement, above, library, loaded)


def _circle(library: Library, movement: Movement, field: str, loaded: Loaded[Library]) -> Iterator[Finding]:
    loop = _loop(library, movement.id, field)
    if loop and min(loop) == movement.id:
        chain = " -> ".join([*loop, loop[0]])
        message = f"'{field}' goes round in a circle: {chain}"
        yield loaded.finding((movement.id, field), "neighbour-loop", message, "break it at one of them")


def _level(other: Movement, movement: Movement, field: str, loaded: Loaded[Library]) -> Iterator[Finding]:
    gap = LEVELS.index(other.level) - LEVELS.index(movement.level)
    if (gap > 0 and field == "easier") or (gap < 0 and field == "harder"):
        message = f"the {field} '{other.id}' is {other.level}, and '{movement.id}' is {movement.level}"
        yield loaded.finding((movement.id, field), "neighbour-level", message, "check both levels", level="warning")


def _contradiction(
    movement: Movement, above: dict[str, list[str]], library: Library, loaded: Loaded[Library]
) -> Iterator[Finding]:
    """The easier neighbour must not be reached again on the way up."""
    easier = movement.easier
    if easier is None or _loop(library, movement.id, "easier"):
        return
    way = _way(movement.id, easier, above)
    circles = any(_loop(library, step, field) for step in way for field in ("easier", "harder"))
    if way and not circles:  # a circle has its own finding
        message = f"'{easier}' is given as easier than '{movement.id}', but the way up leads to it: {' -> '.join(way)}"
        at, other = (movement.id, "easier"), str(loaded.place((way[-2], "harder")))
        yield loaded.finding(at, "neighbours-disagree", message, "say which of the two is harder", other=other)


def _harder_than(library: Library) -> dict[str, list[str]]:
    """For each movement the ones said to be harder, by its own ``harder`` or by their ``easier``."""
    above: dict[str, list[str]] = {movement.id: [] for movement in library}
    for movement in library:
        if movement.harder is not None:
            above[movement.id].append(movement.harder)
        if movement.easier is not None:
            above[movement.easier].append(movement.id)
    return above


def _way(start: str, goal: str, above: dict[str, list[str]]) -> list[str]:
    """The ids from ``start`` up to ``goal``, both named; empty if none leads there."""
    came_from = {start: ""}
    waiting = [start]
    while waiting:
        at = waiting.pop(0)
        for following in above[at]:
            if following not in came_from:
                came_from[following] = at
                waiting.append(following)
    if goal not in came_from:
        return []
    way = [goal]
    while way[-1] != start:
        way.append(came_from[way[-1]])
    return way[::-1]


def _loop(library: Library, start: str, field: str) -> list[str]:
    """The ids of the circle that ``start`` is on, following ``field``; empty if there is none."""
    chain, at = [start], start
    while True:
        following = getattr(library.movements[at], field)
        if following is None or following in chain[1:]:
            return []
        if following == start:
            return chain
        chain.append(following)
        at = following
