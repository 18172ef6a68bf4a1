"""A smaller library to look in first. It may say yes for the whole library (a shortfall of nothing is the best there
is, whatever was left out); it never says no."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable

from planner.domain.movement import Movement
from planner.domain.terms import LEVELS
from planner.problem.model import Problem
from planner.rules.base import ClosingRule
from planner.rules.registry import all_rules
from planner.solve.preferences import movement_cost

Cost = Callable[[Problem, Movement], float]


def shortlist(problem: Problem, most_alike: int, most: int, *, quickest: bool = False) -> Problem:
    """The same problem with so many, of movements that are alike, as fit the athlete best; and every pinned one.

    Alike: one family, one part, the same patterns and tier, dosed by the same wave. What the athlete has outgrown among
    lifts gives way to what is at the athlete's own level. ``most``: how many it may come to; a library with many
    families for the same work gives the best of them, so that a larger library is no larger question. ``quickest``:
    best are those whose sets take least time, for days that are short of minutes.
    """
    cost = _seconds_a_set if quickest else movement_cost
    groups: dict[tuple[object, ...], list[Movement]] = {}
    for movement in _at_their_level(problem, _open_movements(problem)):
        groups.setdefault(_kind_of_work(problem, movement), []).append(movement)
    same_work: dict[tuple[object, ...], list[Movement]] = {}
    for (_, *work), members in groups.items():
        same_work.setdefault(tuple(work), []).extend(_best_first(problem, members, cost)[:most_alike])
    ranked = [
        (rank, cost(problem, movement), movement.id)
        for members in same_work.values()
        for rank, movement in enumerate(_best_first(problem, members, cost))
    ]
    pinned = {pin.movement for pin in problem.athlete.pins}
    return only(problem, pinned | {movement for _, _, movement in sorted(ranked)[:most]})


def _best_first(problem: Problem, movements: list[Movement], cost: Cost) -> list[Movement]:
    return sorted(
        movements, key=lambda movement: (cost(problem, movement), movement_cost(problem, movement), movement.id)
    )


def _seconds_a_set(_: Problem, movement: Movement) -> float:
    """Work of all sides and rest of one set, about."""
    return (1 if movement.legs == "both" else 2) * (movement.dose.set_time + movement.dose.rest)


def open_library(problem: Problem) -> Problem:
    """The problem with the movements that no rule closes to this athlete, and the pinned: the same blocks, sooner."""
    pinned = {pin.movement for pin in problem.athlete.pins}
    return only(problem, pinned | {movement.id for movement in _open_movements(problem)})


def only(problem: Problem, kept: set[str]) -> Problem:
    """The problem with no other movements than these; the closing test stays."""
    return dataclasses.replace(
        problem,
        movements=tuple(m for m in problem.movements if m.id in kept),
        entries={
            key: tuple(e for e in entries if e.movement.id in kept or e.movement.id == problem.retest.id)
            for key, entries in problem.entries.items()
        },
        memo={},
    )


def _open_movements(problem: Problem) -> list[Movement]:
    closing = [rule for rule in all_rules() if isinstance(rule, ClosingRule)]
    return [m for m in problem.movements if all(rule.reason(problem, m) is None for rule in closing)]


def _kind_of_work(problem: Problem, movement: Movement) -> tuple[object, ...]:
    tier = movement.jump.tier if movement.jump else None
    return problem.library.families[movement.id], movement.part, movement.patterns, tier, movement.dose.scheme


def _at_their_level(problem: Problem, movements: list[Movement]) -> list[Movement]:
    """Of each kind of lift, those as near to the athlete's level as there are; jumps and sprints of any level."""
    own = LEVELS.index("novice" if problem.youth else problem.athlete.level)
    nearest: dict[tuple[object, ...], int] = {}
    for movement in movements:
        kind, away = _kind_of_work(problem, movement), abs(LEVELS.index(movement.level) - own)
        nearest[kind] = min(nearest.get(kind, away), away)
    return [
        m
        for m in movements
        if m.kind not in ("lift", "hold") or abs(LEVELS.index(m.level) - own) == nearest[_kind_of_work(problem, m)]
    ]
