"""A smaller library to look in first. It may say yes for the whole library (a shortfall of nothing is the best there
is, whatever was left out); it never says no."""

from __future__ import annotations

import dataclasses

from planner.problem.model import Problem
from planner.rules.base import ClosingRule
from planner.rules.registry import all_rules
from planner.solve.preferences import movement_cost

MOST_OF_A_FAMILY = 2


def shortlist(problem: Problem, most_of_a_family: int = MOST_OF_A_FAMILY) -> Problem:
    """The same problem with, of each family, role and tier, only the open movements that fit the athlete best."""
    open_ids = _open_movements(problem)
    pinned = {pin.movement for pin in problem.athlete.pins}
    groups: dict[tuple[object, ...], list[str]] = {}
    for movement in problem.movements:
        if movement.id in open_ids:
            tier = movement.jump.tier if movement.jump else None
            key = (problem.library.families[movement.id], movement.part, movement.patterns, tier, movement.dose.scheme)
            groups.setdefault(key, []).append(movement.id)
    by_id = {movement.id: movement for movement in problem.movements}
    kept = set(pinned)
    for members in groups.values():
        kept |= set(sorted(members, key=lambda m: (movement_cost(problem, by_id[m]), m))[:most_of_a_family])
    return only(problem, kept)


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


def _open_movements(problem: Problem) -> set[str]:
    closing = [rule for rule in all_rules() if isinstance(rule, ClosingRule)]
    return {m.id for m in problem.movements if all(rule.reason(problem, m) is None for rule in closing)}
