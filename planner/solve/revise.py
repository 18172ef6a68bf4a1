"""The rest of a running block: first the least shortfall that its past allows, then the fewest changes."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence

from planner.domain.block import Block, Proof, Stage
from planner.domain.template_prices import RevisePrices
from planner.problem.model import Problem
from planner.problem.variable import Values, Variable
from planner.rules.registry import gather_rows
from planner.rules.rule import Row
from planner.solve.bands import FoundPlan, NoBlock, Progress, solve_bands
from planner.solve.budgets import DEFAULT_BUDGET, FIRST_REST_SHARE, REST_SHARE
from planner.solve.cp_model import add_hint, build_model, found_any, solver, spent, stage_of, values_of
from planner.solve.from_block import movements_of
from planner.solve.past import planned_values
from planner.solve.prefer import as_hard
from planner.solve.price_of_changes import price_of_changes
from planner.solve.shortfalls import shortfalls
from planner.solve.shortlist import only, open_library
from planner.solve.stages import Solution

UNIT = "points of change"


def solve_rest(
    problem: Problem,
    block: Block,
    prices: RevisePrices,
    budget: float = DEFAULT_BUDGET,
    progress: Progress = lambda _: None,
) -> Solution:
    """The rest of ``block`` with the least shortfall that its past allows, and among those with the fewest changes.

    Both over the whole library. ``problem`` knows what was done. Where the past and the rules cannot hold together,
    the rules that count the past give way, as little as can be. Raises NoBlock or BudgetSpent.
    """
    kept = {movement.id for movement in open_library(problem).movements} | movements_of(block)
    rest = only(problem, kept & set(problem.library.movements))
    progress("looking for the fewest changes")
    every_band = [dataclasses.replace(row, price=0) for row in gather_rows(rest)]
    found = _fewest_changes(rest, every_band, block, prices, FIRST_REST_SHARE * budget)
    if found is not None:
        values, changes, time = found
        bands = FoundPlan(rest, values, (), time).stage
        return Solution(rest, values, (), Proof(status="optimal", scope="library", stages=(bands, changes)), time)
    best = _least_shortfall(rest, block, budget, progress)
    progress("looking for the fewest changes")
    allowed = {row.key: units for row, units in best.missed}
    held = [as_hard(row, allowed.get(row.key, 0)) for row in gather_rows(best.problem)]
    found = _fewest_changes(best.problem, held, block, prices, REST_SHARE * budget, start=best.values)
    bands = best.stage
    values, changes, time = found or (best.values, Stage(name="changes", status="skipped", unit=UNIT), 0.0)
    missed = shortfalls(gather_rows(best.problem), values)
    proof = Proof(status="optimal" if best.proved else "feasible", scope="library", stages=(bands, changes))
    return Solution(best.problem, values, missed, proof, round(best.spent + time, 3))


def _least_shortfall(rest: Problem, block: Block, budget: float, progress: Progress) -> FoundPlan:
    """Raises NoBlock where the rules cannot hold together even if those that count the past give way."""
    progress("weighing aims that cannot all be met")
    found = _least_from(rest, block, budget)
    if found is not None:
        return found
    try:
        return solve_bands(rest, budget, progress)
    except NoBlock:
        gives = dataclasses.replace(rest, past_gives=True)
        progress("asking what the past forces")
        return _least_from(gives, block, budget) or solve_bands(gives, budget, progress)


def _least_from(problem: Problem, block: Block, budget: float) -> FoundPlan | None:
    """The block that misses least, looked for from the one in use on; None where none was found."""
    rows = gather_rows(problem)
    built = build_model(problem, rows)
    add_hint(built, planned_values(problem, block))
    built.model.minimize(built.penalty())
    solved = solver(REST_SHARE * budget)
    status = solved.solve(built.model)
    if not found_any(status):
        return None
    values, bound = values_of(built, solved), round(solved.best_objective_bound)
    return FoundPlan(problem, values, shortfalls(rows, values), spent(solved), bound)


def _fewest_changes(
    problem: Problem,
    rows: Sequence[Row],
    block: Block,
    prices: RevisePrices,
    budget: float,
    start: Mapping[Variable, int] | None = None,
) -> tuple[Values, Stage, float] | None:
    built = build_model(problem, rows)
    old = planned_values(problem, block)
    add_hint(built, old if start is None else start)
    built.model.minimize(price_of_changes(built, old, problem, prices))
    solved = solver(budget)
    status = solved.solve(built.model)
    if not found_any(status):
        return None
    stage = stage_of("changes", solved, status, UNIT, per=prices.contacts)
    return values_of(built, solved), stage, round(spent(solved), 3)
