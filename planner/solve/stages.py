"""The stages of solving: bands first, proved; then preferences, within a deterministic budget."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from ortools.sat.python import cp_model

from planner.domain.block import Proof, Stage
from planner.problem.model import Problem
from planner.rules.base import Row
from planner.solve.cp_model import BlockModel, add_hint, build_model, solver, values_of
from planner.solve.matrix import gather_rows
from planner.solve.preferences import HUNDREDTHS, centre_rows, choice_terms, stress_terms
from planner.solve.shortlist import shortlist

# Deterministic time (about seconds): the whole budget is part of the input, never the clock.
DEFAULT_BUDGET = 60.0
SHORTLISTS = (1, 2)  # of movements that are alike, so many; then the whole library
SHORTLIST_SHARE = 0.15
MOVEMENT_SHARE = 0.06
SETS_SHARE = 0.03
Progress = Callable[[str], None]


@dataclass(frozen=True)
class Solution:
    """Values of every variable, the shortfalls of soft rows (row, units short or over), and the proof."""

    problem: Problem
    values: dict[str, int]
    missed: tuple[tuple[Row, int], ...]
    proof: Proof
    deterministic_time: float


class NoBlock(Exception):
    """The hard rules cannot all hold. ``rows`` are those of the whole library."""

    def __init__(self, problem: Problem, rows: Sequence[Row]) -> None:
        super().__init__("no block keeps every hard rule")
        self.problem, self.rows = problem, rows


class BudgetSpent(Exception):
    """Neither a block nor a proof that there is none, within the budget."""


def solve(problem: Problem, budget: float = DEFAULT_BUDGET, progress: Progress = lambda _: None) -> Solution:
    """The best block by its bands, proved where the budget allows. Raises NoBlock or BudgetSpent."""
    for most_alike in SHORTLISTS:
        smaller = shortlist(problem, most_alike)
        progress(f"looking among {len(smaller.movements)} of {len(problem.movements)} movements")
        found = _meets_all_bands(smaller, SHORTLIST_SHARE * budget)
        if found is not None:
            return _prefer(found, (), budget, progress)
    progress("looking in the whole library")
    return _whole_library(problem, budget, progress)


def _meets_all_bands(problem: Problem, budget: float) -> tuple[Problem, dict[str, int], float] | None:
    """A block of this library with no shortfall at all: then nothing outside it can do better. None says nothing."""
    built = build_model(problem, [dataclasses.replace(row, price=0) for row in gather_rows(problem)])
    solved = solver(budget)
    status = solved.solve(built.model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return problem, values_of(built, solved), _spent(solved)


def _whole_library(problem: Problem, budget: float, progress: Progress) -> Solution:
    rows = gather_rows(problem)
    built = build_model(problem, rows)
    built.model.minimize(built.penalty())
    solved = solver(budget)
    status = solved.solve(built.model)
    if status == cp_model.INFEASIBLE:
        raise NoBlock(problem, rows)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        raise BudgetSpent
    values = values_of(built, solved)
    missed = shortfalls(rows, values)
    bound = round(solved.best_objective_bound)
    return _prefer((problem, values, _spent(solved)), missed, budget, progress, bound=bound)


def _prefer(
    found: tuple[Problem, dict[str, int], float],
    missed: tuple[tuple[Row, int], ...],
    budget: float,
    progress: Progress,
    bound: int = 0,
) -> Solution:
    problem, values, spent = found
    objective = sum(row.price * units for row, units in missed)
    first = Stage(
        name="bands",
        status="optimal" if objective == bound else "feasible",
        objective=objective,
        bound=bound,
        unit="priced shortfall",
    )
    progress("choosing the movements a coach would rather have")
    allowed = {(row.rule, row.scope): units for row, units in missed}
    rows = [_as_hard(row, allowed.get((row.rule, row.scope), 0)) for row in gather_rows(problem)]
    values, movements, more = _prefer_movements(problem, rows, values, MOVEMENT_SHARE * budget)
    progress("settling the sets")
    values, sets, still_more = _prefer_sets(problem, rows, values, SETS_SHARE * budget)
    proof = Proof(status=first.status, scope="library", stages=(first, movements, sets))
    return Solution(problem, values, missed, proof, round(spent + more + still_more, 3))


def _prefer_movements(
    problem: Problem, rows: Sequence[Row], values: dict[str, int], budget: float
) -> tuple[dict[str, int], Stage, float]:
    """Stage 2a: fewer and fitter movements, sessions in their usual order; no shortfall made worse."""
    built = build_model(problem, rows)
    add_hint(built, values)
    built.model.minimize(_weighted(built, choice_terms(problem)))
    return _improved(built, values, "movements", budget, 1)


def _prefer_sets(
    problem: Problem, rows: Sequence[Row], values: dict[str, int], budget: float
) -> tuple[dict[str, int], Stage, float]:
    """Stage 2b: with the movements settled, sets in the middle of their bands and less joint stress."""
    built = build_model(problem, [*rows, *centre_rows(problem)])
    for key, value in values.items():
        if key.startswith(("in/", "takes/")):
            built.model.add(built.variables[key] == value)
    add_hint(built, values)
    built.model.minimize(_weighted(built, stress_terms(problem)) + built.penalty())
    return _improved(built, values, "sets", budget, HUNDREDTHS)


def _improved(
    built: BlockModel, values: dict[str, int], name: str, budget: float, units_per_point: int
) -> tuple[dict[str, int], Stage, float]:
    """The better values, or the old ones where the budget found none; never called optimal unless proved."""
    solved = solver(budget)
    status = solved.solve(built.model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return values, Stage(name=name, status="skipped", unit="points"), _spent(solved)
    stage = Stage(
        name=name,
        status="optimal" if status == cp_model.OPTIMAL else "feasible",
        objective=round(solved.objective_value / units_per_point),
        bound=round(solved.best_objective_bound / units_per_point),
        unit="points",
    )
    return values_of(built, solved), stage, _spent(solved)


def _as_hard(row: Row, allowance: int) -> Row:
    if row.price == 0:
        return row
    low = None if row.low is None else row.low - allowance
    high = None if row.high is None else row.high + allowance
    return dataclasses.replace(row, price=0, low=low, high=high)


def _weighted(built: BlockModel, terms: Sequence[tuple[int, str]]) -> cp_model.LinearExprT:
    return cp_model.LinearExpr.weighted_sum([built.variables[k] for _, k in terms], [c for c, _ in terms])


def shortfalls(rows: Sequence[Row], values: dict[str, int]) -> tuple[tuple[Row, int], ...]:
    """Soft rows that the values miss, with the units missed."""
    found = []
    for row in rows:
        if row.price:
            total = sum(c * values[k] for c, k in row.terms)
            short = max((row.low or 0) - total, total - row.high if row.high is not None else 0, 0)
            if short:
                found.append((row, short))
    return tuple(found)


def _spent(solved: cp_model.CpSolver) -> float:
    return float(solved.response_proto.deterministic_time)
