"""The rest of a running block: first the least shortfall that its past allows, then the fewest changes."""

from __future__ import annotations

import dataclasses

from ortools.sat.python import cp_model

from planner.domain.block import Block, Proof, Stage
from planner.problem.model import Problem
from planner.problem.variable import Values
from planner.rules.registry import gather_rows
from planner.solve.bands import solve_bands
from planner.solve.budgets import DEFAULT_BUDGET, FIRST_REST_SHARE, REST_BELOW_SHARE, REST_SHARE
from planner.solve.cp_model import add_hint, build_model, found_any, solver, spent, values_of
from planner.solve.fewest_changes import UNIT, WantedRest, fewest_changes, fewest_that_keep
from planner.solve.found_plan import FoundPlan, NoBlock, Progress
from planner.solve.from_block import movements_of
from planner.solve.past import planned_values
from planner.solve.shortfalls import shortfalls, units_missed
from planner.solve.shortlist import only, open_library
from planner.solve.stages import Solution


class TooManyCards(Exception):
    """No rest of the block within the limit of cards was found."""


def solve_rest(
    problem: Problem, wanted: WantedRest, budget: float = DEFAULT_BUDGET, progress: Progress = lambda _: None
) -> Solution:
    """The rest of the block with the least shortfall that its past allows, and among those with the fewest changes.

    Both over the whole library. ``problem`` knows what was done. Where the past and the rules cannot hold together,
    the rules that count the past give way, as little as can be. Raises NoBlock, BudgetSpent or TooManyCards.
    """
    kept = {movement.id for movement in open_library(problem).movements} | movements_of(wanted.block)
    rest = only(problem, kept & set(problem.library.movements))
    progress("looking for the fewest changes")
    every_band = [dataclasses.replace(row, price=0) for row in gather_rows(rest)]
    found = fewest_changes(rest, every_band, wanted, FIRST_REST_SHARE * budget)
    if found is not None:
        return _as_solution(
            FoundPlan(rest, found.values, (), 0.0), found.values, found.stage(wanted.prices), found.spent
        )
    best = _least_shortfall(rest, wanted, budget, progress)
    progress("looking for the fewest changes")
    found = fewest_that_keep(best, wanted, budget)
    if found is None:
        return _as_solution(best, best.values, Stage(name="changes", status="skipped", unit=UNIT), 0.0)
    return _as_solution(best, found.values, found.stage(wanted.prices), found.spent)


def same_sets(problem: Problem, block: Block) -> Solution | None:
    """The rest as it is, movements and sets; None where a hard rule that looks ahead does not hold in it."""
    rest = only(problem, movements_of(block) & set(problem.library.movements))
    values, rows = planned_values(rest, block), gather_rows(rest)
    if any(units_missed(row, values) for row in rows if not row.price):
        return None
    found = FoundPlan(rest, values, shortfalls(rows, values), 0.0)
    return _as_solution(found, values, Stage(name="changes", status="optimal", objective=0, bound=0, unit=UNIT), 0.0)


def _as_solution(best: FoundPlan, values: Values, changes: Stage, time: float) -> Solution:
    missed = shortfalls(gather_rows(best.problem), values)
    proof = Proof(status="optimal" if best.proved else "feasible", scope="library", stages=(best.stage, changes))
    return Solution(best.problem, values, missed, proof, round(best.spent + time, 3))


def _least_shortfall(rest: Problem, wanted: WantedRest, budget: float, progress: Progress) -> FoundPlan:
    """Raises NoBlock where the rules cannot hold together even if those that count the past give way."""
    progress("weighing aims that cannot all be met")
    gives = dataclasses.replace(rest, past_gives=True)
    found = _least_from(rest, wanted, budget)
    if found is not None:
        return found
    if wanted.most_cards is not None:
        any_cards = dataclasses.replace(wanted, most_cards=None)
        found = None if _least_from(rest, any_cards, budget) is not None else _least_from(gives, wanted, budget)
        if found is None:
            raise TooManyCards
        return found
    try:
        return solve_bands(rest, budget, progress)
    except NoBlock:
        progress("asking what the past forces")
        return _least_from(gives, wanted, budget) or solve_bands(gives, budget, progress)


def _least_from(problem: Problem, wanted: WantedRest, budget: float) -> FoundPlan | None:
    """The block that misses least, looked for from the one in use on; None where none was found.

    From below first: little is missed as a rule, and then that finds and proves it in one.
    """
    rows, old = gather_rows(problem), planned_values(problem, wanted.block)
    built = build_model(problem, rows)
    wanted.limit(built, old, problem)
    add_hint(built, old)
    built.model.minimize(built.penalty())
    time = 0.0
    for share, from_below in ((REST_BELOW_SHARE, True), (REST_SHARE, False)):
        solved = solver(share * budget, from_below=from_below)
        status = solved.solve(built.model)
        time += spent(solved)
        if found_any(status):
            values, bound = values_of(built, solved), round(solved.best_objective_bound)
            bound = bound if wanted.most_cards is None else 0  # with more cards less may be missed
            return FoundPlan(problem, values, shortfalls(rows, values), time, bound)
        if status == cp_model.INFEASIBLE:
            break
    return None
