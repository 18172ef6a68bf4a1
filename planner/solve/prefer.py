"""Stage 2: with the bands settled, the movements and sets that a coach would prefer, as far as the budget goes."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping, Sequence

from planner.domain.block import Stage
from planner.problem.model import Problem
from planner.problem.variable import Values
from planner.rules.registry import gather_rows
from planner.rules.rule import Row, RowKey
from planner.solve.budgets import CHOICE_PIECES_SHARE, CHOICE_SHARE, CHOICE_TURNS, FAR, SETTLE_SHARE
from planner.solve.cp_model import (
    BlockModel,
    add_hint,
    build_model,
    found_any,
    solver,
    spent,
    stage_of,
    values_of,
    weighted,
)
from planner.solve.pieces import improved_in_pieces
from planner.solve.preferences import HUNDREDTHS, centre_rows, choice_terms, main_lift_rows, stress_points, variety_rows
from planner.solve.spread import spread_rows


def prefer(
    problem: Problem, values: Values, allowed: Mapping[RowKey, int], budget: float, progress: Callable[[str], None]
) -> tuple[Values, tuple[Stage, Stage], float]:
    """Better values with no greater shortfall, the two stages' reports, and the deterministic time spent.

    ``allowed``: units that each soft row, by its key, may miss: what stage 1 left.
    """
    progress("choosing the movements a coach would prefer")
    rows = [as_hard(row, allowed.get(row.key, 0)) for row in gather_rows(problem)]
    values, movements, first = _prefer_movements(problem, rows, values, CHOICE_SHARE * budget)
    progress("settling the sets")
    values, sets, second = _prefer_sets(problem, rows, values, SETTLE_SHARE * budget)
    return values, (movements, sets), first + second


def _prefer_movements(
    problem: Problem, rows: Sequence[Row], values: Values, budget: float
) -> tuple[Values, Stage, float]:
    """Stage 2a: fewer and fitter movements, some new in each phase, sessions in order; no greater shortfall.

    The spread of minutes makes each choice depend on all others of its week, so it comes second: from a block whose
    movements fit, it is soon better; from any block at all, it may spend its time far off.
    """
    fitting = [*variety_rows(problem), *main_lift_rows(problem)]
    values, stage, first = _choose(problem, [*rows, *fitting], values, budget / CHOICE_TURNS)
    spread = list(spread_rows(problem, 1))
    if not spread:
        return values, stage, first
    values, stage, second = _choose(problem, [*rows, *fitting, *spread], values, budget / CHOICE_TURNS)
    return values, stage, first + second


def _choose(problem: Problem, rows: Sequence[Row], values: Values, budget: float) -> tuple[Values, Stage, float]:
    """The best choices that the budget finds; where they end far from the bound, better ones a piece at a time."""
    built = build_model(problem, rows)
    add_hint(built, values)
    built.model.minimize(weighted(built.variables, choice_terms(problem)) + built.penalty())
    values, stage, first = _improved(built, values, "movements", budget, 1)
    if stage.objective is None or stage.bound is None or stage.objective <= FAR * stage.bound:
        return values, stage, first
    values, reached, second = improved_in_pieces(
        problem, built, values, CHOICE_PIECES_SHARE * budget, FAR * stage.bound
    )
    if reached is not None:
        stage = stage.model_copy(update={"objective": round(reached)})
    return values, stage, first + second


def _prefer_sets(problem: Problem, rows: Sequence[Row], values: Values, budget: float) -> tuple[Values, Stage, float]:
    """Stage 2b: with the movements settled, sets near the middle of their bands and less joint stress."""
    built = build_model(problem, [*rows, *centre_rows(problem), *spread_rows(problem, HUNDREDTHS)])
    for key, value in values.items():
        if key.chooses:
            built.model.add(built.variables[key] == value)
    add_hint(built, values)
    built.model.minimize(weighted(built.variables, stress_points(problem)) + built.penalty())
    return _improved(built, values, "sets", budget, HUNDREDTHS)


def _improved(
    built: BlockModel, values: Values, name: str, budget: float, units_per_point: int
) -> tuple[Values, Stage, float]:
    """Better values, or the old ones if the budget found none; called optimal only if proved."""
    solved = solver(budget)
    status = solved.solve(built.model)
    if not found_any(status):
        return values, Stage(name=name, status="skipped", unit="points"), spent(solved)
    return values_of(built, solved), stage_of(name, solved, status, "points", units_per_point), spent(solved)


def as_hard(row: Row, allowance: int) -> Row:
    if row.price == 0:
        return row
    low = None if row.low is None else row.low - allowance
    high = None if row.high is None else row.high + allowance
    return dataclasses.replace(row, price=0, low=low, high=high)
