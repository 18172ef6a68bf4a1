"""A smaller library to search first. Its yes holds for the whole library (no block beats one without a shortfall); its
no does not."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import cycle
from typing import Any

from planner.domain.movement import Movement
from planner.domain.terms import LEVELS
from planner.problem.model import Problem
from planner.problem.variable import Values
from planner.rules.registry import all_rules
from planner.rules.rule import ClosingRule
from planner.solve.preferences import movement_cost

Cost = Callable[[Problem, Movement], Any]  # anything that sorts: the least is the best
MOST_STRESS = 3  # the tag whose contacts have their own cap


def shortlist(problem: Problem, most_alike: int, most: int, *, quickest: bool = False) -> Problem:
    """The same problem with the best ``most_alike`` of each group of similar movements, and every pinned one.

    Similar: one family, one part, the same patterns and tier, dosed by the same wave. Lifts that the athlete has
    outgrown give way to those of the athlete's own level. ``most``: movements in all, the best of each kind of work
    first, so that a larger library is not a larger question. ``quickest``: the best are those with the shortest sets.
    """
    cost = _seconds_a_set if quickest else movement_cost
    groups: dict[tuple[object, ...], list[Movement]] = {}
    for movement in _at_their_level(problem, _open_movements(problem)):
        groups.setdefault(_kind_of_work(problem, movement), []).append(movement)
    same_work: dict[tuple[object, ...], list[Movement]] = {}
    for (_, *work), members in groups.items():
        same_work.setdefault(tuple(work), []).extend(_best_first(problem, members, cost)[:most_alike])
    return _best_of_each(problem, [_best_first(problem, members, cost) for members in same_work.values()], cost, most)


def narrowed(problem: Problem, values: Values, most_alike: int, most: int) -> tuple[Problem, Values]:
    """The movements that a block uses and the best of the others, with the block's values for these.

    Enough to choose from when the bands are settled: over a whole library a better choice is seldom found in time.
    """
    used = {key.at.movement for key, value in values.items() if value and key.at.movement is not None}
    kept = used | {movement.id for movement in shortlist(problem, most_alike, most).movements}
    there = {*kept, problem.retest.id, None}
    return only(problem, kept), {key: value for key, value in values.items() if key.at.movement in there}


def mixed(problem: Problem, most: int, costs: Sequence[Cost]) -> Problem:
    """The same problem with ``most`` movements, of each kind of work the best by each cost in turn, one of a family.

    Every pinned one is in too. For a library with many families for the same work, where one cost would be one-sided.
    """
    same_work: dict[tuple[object, ...], list[Movement]] = {}
    for movement in _at_their_level(problem, _open_movements(problem)):
        same_work.setdefault(_kind_of_work(problem, movement)[1:], []).append(movement)
    in_turn = [_by_turns(problem, members, costs) for members in same_work.values()]
    return _best_of_each(problem, in_turn, movement_cost, most)


def _best_of_each(problem: Problem, kinds: Iterable[Iterable[Movement]], cost: Cost, most: int) -> Problem:
    """The first of every kind of work, then the second, and so on; among equals the cheapest."""
    ranked = [(rank, cost(problem, m), m.id) for members in kinds for rank, m in enumerate(members)]
    return only(problem, _pinned(problem) | {movement for _, _, movement in sorted(ranked)[:most]})


def _by_turns(problem: Problem, members: list[Movement], costs: Sequence[Cost]) -> Iterator[Movement]:
    """The best by each cost in turn, one of each family."""
    families = problem.library.families
    orders = cycle([_best_first(problem, members, cost) for cost in costs])
    left = {families[movement.id] for movement in members}
    while left:
        best = next(movement for movement in next(orders) if families[movement.id] in left)
        left.remove(families[best.id])
        yield best


def _best_first(problem: Problem, movements: list[Movement], cost: Cost) -> list[Movement]:
    return sorted(
        movements, key=lambda movement: (cost(problem, movement), movement_cost(problem, movement), movement.id)
    )


def _seconds_a_set(_: Problem, movement: Movement) -> float:
    """Roughly, work on all sides and rest of one set."""
    return (1 if movement.legs == "both" else 2) * (movement.dose.set_time + movement.dose.rest)


def _liked_and_mild(problem: Problem, movement: Movement) -> tuple[float, ...]:
    return movement_cost(problem, movement), *_mild_and_quick(problem, movement)


def _mild_and_quick(problem: Problem, movement: Movement) -> tuple[float, ...]:
    return _counts_as_most_stressful(movement), _seconds_a_set(problem, movement)


def _mild_and_doing_most(problem: Problem, movement: Movement) -> tuple[float, ...]:
    """The best are those that train most at once, so that the same sets fill more bands."""
    by_tag = (0, *problem.template.counting.quality_quarters)
    quarters = sum(by_tag[tag] for tag in movement.qualities.values())
    return _counts_as_most_stressful(movement), -quarters, _seconds_a_set(problem, movement)


def _counts_as_most_stressful(movement: Movement) -> bool:
    return movement.jump is not None and MOST_STRESS in movement.stress.values()


def _spared_and_liked(problem: Problem, movement: Movement) -> tuple[float, ...]:
    return _on_what_hurts(problem, movement), *_liked_and_mild(problem, movement)


def _spared_and_quick(problem: Problem, movement: Movement) -> tuple[float, ...]:
    return _on_what_hurts(problem, movement), *_mild_and_quick(problem, movement)


def _on_what_hurts(problem: Problem, movement: Movement) -> int:
    """Stress on joints in pain, whose lowered ceilings leave little room for it."""
    hurting = {state.joint for state in problem.athlete.joints if state.pain}
    by_tag = (0, *problem.template.counting.stress_weights)
    return sum(by_tag[tag] for joint, tag in movement.stress.items() if joint in hurting)


# Mixtures that suffice for most athletes.
MILD_AND_DOING_MOST: tuple[Cost, ...] = (_liked_and_mild, _mild_and_doing_most)
SPARING: tuple[Cost, ...] = (_spared_and_liked, _spared_and_quick)
OF_ALL_SORTS: tuple[Cost, ...] = (movement_cost, _mild_and_quick, _mild_and_doing_most)


def open_library(problem: Problem) -> Problem:
    """The problem without the movements that rules close to this athlete, unless pinned: the same blocks, sooner."""
    return only(problem, _pinned(problem) | {movement.id for movement in _open_movements(problem)})


def only(problem: Problem, kept: set[str]) -> Problem:
    """The problem with only these movements, those that were done, and the closing test."""
    kept = kept | {key.at.movement or "" for key, value in problem.past.items() if value}
    return dataclasses.replace(
        problem,
        movements=tuple(m for m in problem.movements if m.id in kept),
        entries={
            key: tuple(e for e in entries if e.movement.id in kept or e.movement.id == problem.retest.id)
            for key, entries in problem.entries.items()
        },
    )


def _pinned(problem: Problem) -> set[str]:
    return {pin.movement for pin in problem.athlete.pins}


def _open_movements(problem: Problem) -> list[Movement]:
    closing = [rule for rule in all_rules() if isinstance(rule, ClosingRule)]
    return [m for m in problem.movements if all(rule.reason(problem, m) is None for rule in closing)]


def _kind_of_work(problem: Problem, movement: Movement) -> tuple[object, ...]:
    tier = movement.jump.tier if movement.jump else None
    return problem.library.families[movement.id], movement.part, movement.patterns, tier, movement.dose.scheme


def _at_their_level(problem: Problem, movements: list[Movement]) -> list[Movement]:
    """Of each kind of lift, those nearest to the athlete's level; jumps and sprints of any level."""
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
