"""The next-best movement in a place, and what it would have cost: liking, sets and contacts missed, or a rule."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import Literal

from ortools.sat.python import cp_model

from planner.domain.block import Block
from planner.domain.movement import Movement
from planner.problem.model import Problem
from planner.problem.variable import Values, Variable, in_key
from planner.rules.base import ClosingRule, Row
from planner.rules.registry import all_rules
from planner.solve.budgets import NEXT_BEST_BUDGET
from planner.solve.cp_model import build_model, solver, values_of
from planner.solve.from_block import block_values, chosen_in, movements_of
from planner.solve.matrix import gather_rows
from planner.solve.preferences import movement_cost, repeat_points
from planner.solve.shortlist import only
from planner.solve.stages import units_missed


@dataclass(frozen=True)
class Alternative:
    """Another movement in the same place.

    ``points``: by how many the template's preferences like it less. ``fits``: every band would still be met; None: not
    answered in time. ``missed``: else the soft rows that fall short, with the units; none where a hard rule forbids it.
    """

    movement: Movement
    points: int
    fits: bool | None
    missed: tuple[tuple[Row, int], ...] = ()


def next_best(block: Block, problem: Problem, week: int, slot: int, movement: Movement) -> Alternative | None:
    """Of open movements of the same part and pattern that have sets this week, the best liked; None: there is none."""
    phase = problem.phase_of(week)
    weeks = [w for w in block.weeks if problem.phase_of(w.number) == phase]
    there = {i.movement for w in weeks for s in w.sessions for i in s.items}
    dosed = [e.movement for e in problem.entries[week, slot] if e.dosage.high_sets and e.barred is None]
    rivals = [m for m in dosed if m.id not in there and same_place(m, movement) and not closed_by(problem, m)]
    if not rivals:
        return None
    chosen = chosen_in(block, problem)
    best = min(rivals, key=lambda m: (_points_more(problem, chosen, phase, slot, movement, m), m.id))
    return instead(block, problem, phase, slot, movement, best)


def instead(block: Block, problem: Problem, phase: str, slot: int, movement: Movement, rival: Movement) -> Alternative:
    """The rival in the movement's place, all else free among the block's own movements."""
    points = _points_more(problem, chosen_in(block, problem), phase, slot, movement, rival)
    wider = only(problem, (movements_of(block) | {rival.id}) & set(problem.library.movements))
    values = block_values(block, wider)
    rows = gather_rows(wider)
    fixed = {in_key(phase, slot, rival.id): 1, in_key(phase, slot, movement.id): 0}
    met = [dataclasses.replace(row, price=0) if not units_missed(row, values) else row for row in rows]
    fits = _solved(wider, met, fixed)
    if fits is not False:
        return Alternative(rival, points, None if fits is None else True)
    least = _solved(wider, rows, fixed)
    if least is None or least is False:
        return Alternative(rival, points, least)
    missed = tuple((row, units) for row in rows if row.price and (units := units_missed(row, least)))
    return Alternative(rival, points, False, missed)


def _points_more(
    problem: Problem, chosen: frozenset[Variable], phase: str, slot: int, movement: Movement, rival: Movement
) -> int:
    """What the rival in the movement's place costs more by the template's preferences, variety between phases too."""
    swapped = chosen - {in_key(phase, slot, movement.id)} | {in_key(phase, slot, rival.id)}
    repeats = (repeat_points(problem, swapped, m) - repeat_points(problem, chosen, m) for m in (movement, rival))
    return movement_cost(problem, rival) - movement_cost(problem, movement) + sum(repeats)


def closed_by(problem: Problem, movement: Movement) -> list[tuple[str, str]]:
    """(rule id, reason) of every rule that closes the movement to this athlete."""
    found = []
    for rule in all_rules():
        if isinstance(rule, ClosingRule):
            reason = rule.reason(problem, movement)
            if reason is not None:
                found.append((rule.id, reason))
    return found


def same_place(rival: Movement, movement: Movement) -> bool:
    """Whether the rival could stand for the movement: same part, a pattern shared, same tier."""
    tier = movement.jump.tier if movement.jump else None
    rival_tier = rival.jump.tier if rival.jump else None
    shares = bool(set(rival.patterns) & set(movement.patterns)) or not movement.patterns
    return rival.part == movement.part and shares and rival_tier == tier


def _solved(problem: Problem, rows: list[Row], fixed: Values) -> Values | Literal[False] | None:
    """Values that miss the soft rows by as little as the budget finds; False: there are none; None: not known."""
    built = build_model(problem, rows)
    for key, value in fixed.items():
        if key not in built.variables:
            return False
        built.model.add(built.variables[key] == value)
    if built.penalties:
        built.model.minimize(built.penalty())
    solved = solver(NEXT_BEST_BUDGET)
    status = solved.solve(built.model)
    if status == cp_model.INFEASIBLE:
        return False
    return values_of(built, solved) if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None
