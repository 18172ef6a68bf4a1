"""The next-best movement in a place, and what it would cost: points of preference, ranges missed, or a hard rule."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import Literal

from planner.domain.block import Block
from planner.domain.movement import Movement
from planner.problem.model import Problem
from planner.problem.variable import Values, Variable, in_key
from planner.rules.registry import all_rules, gather_rows
from planner.rules.rule import ClosingRule, Row
from planner.solve.budgets import NEXT_BEST_BUDGET
from planner.solve.from_block import block_values, chosen_in, movements_of
from planner.solve.preferences import cost_parts, repeat_points
from planner.solve.shortfalls import shortfalls, units_missed
from planner.solve.shortlist import only


@dataclass(frozen=True)
class Alternative:
    """Another movement in the same place.

    ``points``: how much lower the template's preferences rank it, ``because`` of what, the weightiest first. ``fits``:
    whether every weekly range would still be met; None if the budget ran out. ``missed``: if not, the soft rows missed,
    with units; none if a hard rule forbids it.
    """

    movement: Movement
    points: int
    because: tuple[str, ...]
    fits: bool | None
    missed: tuple[tuple[Row, int], ...] = ()


def next_best(block: Block, problem: Problem, week: int, slot: int, movement: Movement) -> Alternative | None:
    """The preferred one of the open movements of the same part and pattern that have sets this week, if any."""
    phase = problem.phase_of(week)
    weeks = [w for w in block.weeks if problem.phase_of(w.number) == phase]
    there = {i.movement for w in weeks for s in w.sessions for i in s.items}
    dosed = [e.movement for e in problem.entries[week, slot] if e.dosage.high_sets and e.barred is None]
    rivals = [m for m in dosed if m.id not in there and same_place(m, movement) and not closed_by(problem, m)]
    if not rivals:
        return None
    chosen = chosen_in(block, problem)
    best = min(rivals, key=lambda m: (sum(_points_more(problem, chosen, phase, slot, movement, m).values()), m.id))
    return instead(block, problem, phase, slot, movement, best)


def instead(block: Block, problem: Problem, phase: str, slot: int, movement: Movement, rival: Movement) -> Alternative:
    """The rival in the movement's place, with everything else free among the block's own movements."""
    more = _points_more(problem, chosen_in(block, problem), phase, slot, movement, rival)
    points = sum(more.values())
    because = tuple(sorted((why for why, one in more.items() if one > 0), key=lambda why: -more[why]))
    wider = only(problem, (movements_of(block) | {rival.id}) & set(problem.library.movements))
    values = block_values(block, wider)
    rows = gather_rows(wider)
    fixed = {in_key(phase, slot, rival.id): 1, in_key(phase, slot, movement.id): 0}
    met = [dataclasses.replace(row, price=0) if not units_missed(row, values) else row for row in rows]
    fits = _solved(wider, met, fixed)
    if fits is not False:
        return Alternative(rival, points, because, None if fits is None else True)
    least = _solved(wider, rows, fixed)
    if least is None or least is False:
        return Alternative(rival, points, because, least)
    return Alternative(rival, points, because, False, shortfalls(rows, least))


def _points_more(
    problem: Problem, chosen: frozenset[Variable], phase: str, slot: int, movement: Movement, rival: Movement
) -> dict[str, int]:
    """What the rival costs more than the movement by the template's preferences, variety between phases included."""
    swapped = chosen - {in_key(phase, slot, movement.id)} | {in_key(phase, slot, rival.id)}
    repeats = (repeat_points(problem, swapped, m) - repeat_points(problem, chosen, m) for m in (movement, rival))
    before = cost_parts(problem, movement)
    more = {why: points - before[why] for why, points in cost_parts(problem, rival).items()}
    return more | {"the block has it on more days already": sum(repeats)}


def closed_by(problem: Problem, movement: Movement) -> list[tuple[str, str]]:
    """(rule id, reason) of every rule that closes the movement to this athlete."""
    closing = ((rule.id, rule.reason(problem, movement)) for rule in all_rules() if isinstance(rule, ClosingRule))
    return [(rule, reason) for rule, reason in closing if reason is not None]


def same_place(rival: Movement, movement: Movement) -> bool:
    """Whether the rival could replace the movement: same part, a shared pattern, same tier."""
    tier = movement.jump.tier if movement.jump else None
    rival_tier = rival.jump.tier if rival.jump else None
    shares = bool(set(rival.patterns) & set(movement.patterns)) or not movement.patterns
    return rival.part == movement.part and shares and rival_tier == tier


def _solved(problem: Problem, rows: list[Row], fixed: Values) -> Values | Literal[False] | None:
    """Values that miss the soft rows as little as the budget allows; False: there are none; None: not known."""
    from ortools.sat.python import cp_model  # here, as the rest of what ``why`` tells needs no solver

    from planner.solve.cp_model import build_model, found_any, solver, values_of

    built = build_model(problem, rows)
    for key, value in fixed.items():
        if key not in built.variables:
            return False
        built.model.add(built.variables[key] == value)
    if built.penalties:
        built.model.minimize(built.penalty())
    solved = solver(NEXT_BEST_BUDGET)
    status = solved.solve(built.model)
    if found_any(status):
        return values_of(built, solved)
    return False if status == cp_model.INFEASIBLE else None
