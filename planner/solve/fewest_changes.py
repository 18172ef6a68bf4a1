"""The fewest changes of a running block: priced, with what a list of few movements finds first."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ortools.sat.python import cp_model

from planner.domain.block import Block, Stage
from planner.domain.template_prices import RevisePrices
from planner.problem.model import Problem
from planner.problem.variable import Values, Variable
from planner.rules.registry import gather_rows
from planner.rules.rule import Row
from planner.solve.budgets import CHANGES_SHARE, FEW_CHANGES_SHARE
from planner.solve.cards_changed import limit_cards
from planner.solve.cp_model import BlockModel, add_hint, build_model, found_any, solver, spent, values_of
from planner.solve.found_plan import FoundPlan
from planner.solve.from_block import movements_of
from planner.solve.past import planned_values
from planner.solve.prefer import as_hard
from planner.solve.price_of_changes import price_of_changes
from planner.solve.shortlist import only

UNIT = "points of change"


@dataclass(frozen=True)
class WantedRest:
    """What the rest is looked for with: prices of changes, and the most cards to print again (None: any)."""

    block: Block
    prices: RevisePrices
    most_cards: int | None = None

    def limit(self, built: BlockModel, old: Mapping[Variable, int], problem: Problem) -> None:
        if self.most_cards is not None:
            limit_cards(built, old, problem, self.most_cards)


@dataclass(frozen=True)
class Fewest:
    """A block and its priced changes, in the objective's whole numbers.

    ``bound``: no block of this library has fewer.
    """

    values: Values
    changes: int
    bound: int
    spent: float

    def stage(self, prices: RevisePrices) -> Stage:
        return Stage(
            name="changes",
            status="optimal" if self.changes <= self.bound else "feasible",
            objective=round(self.changes / prices.contacts),
            bound=round(self.bound / prices.contacts),
            unit=UNIT,
        )


def fewest_changes(
    problem: Problem,
    rows: Sequence[Row],
    wanted: WantedRest,
    budget: float,
    start: Mapping[Variable, int] | None = None,
    than: Fewest | None = None,
) -> Fewest | None:
    """The block of this library with the fewest changes. None if none was found within the budget.

    ``than``: one of fewer movements, which is the answer unless there is one with fewer changes.
    """
    built, old = build_model(problem, rows), planned_values(problem, wanted.block)
    wanted.limit(built, old, problem)
    hint = old if start is None else start
    add_hint(built, {key: hint.get(key, 0) for key in built.variables})
    price = price_of_changes(built, old, problem, wanted.prices)
    if than is not None:
        built.model.add(price < than.changes)
    built.model.minimize(price)
    solved = solver(budget)
    status = solved.solve(built.model)
    time = spent(solved) + (than.spent if than else 0.0)
    if found_any(status):
        return Fewest(values_of(built, solved), round(solved.objective_value), round(solved.best_objective_bound), time)
    if than is None:
        return None
    ruled_out = status == cp_model.INFEASIBLE
    bound = than.changes if ruled_out else min(round(solved.best_objective_bound), than.changes)
    return Fewest(dict.fromkeys(built.variables, 0) | than.values, than.changes, bound, time)


def fewest_that_keep(best: FoundPlan, wanted: WantedRest, budget: float) -> Fewest | None:
    """The fewest changes with no more missed than in ``best``, first among its movements and those of the block in use.

    That short list is seldom far from the whole library, which then does better or proves it.
    """
    allowed = {row.key: units for row, units in best.missed}

    def held(problem: Problem) -> list[Row]:
        return [as_hard(row, allowed.get(row.key, 0)) for row in gather_rows(problem)]

    used = {key.at.movement for key, value in best.values.items() if value and key.at.movement is not None}
    few = only(best.problem, (used | movements_of(wanted.block)) & set(best.problem.library.movements))
    first = fewest_changes(few, held(few), wanted, FEW_CHANGES_SHARE * budget, start=best.values)
    start = best.values if first is None else first.values
    return fewest_changes(best.problem, held(best.problem), wanted, CHANGES_SHARE * budget, start=start, than=first)
