"""Stage 2: with the bands settled, the movements and sets that a coach would prefer, as far as the budget goes."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from ortools.sat.python import cp_model

from planner.domain.block import Stage
from planner.problem.model import Problem
from planner.problem.variable import Values
from planner.rules.registry import gather_rows
from planner.rules.rule import Row, RowKey
from planner.solve.budgets import (
    CHOICE_PIECE,
    CHOICE_PIECES_SHARE,
    CLOSING_SHARE,
    DEFAULT_BUDGET,
    FAR,
    FAR_SHARE,
    FITTING_SHARE,
    IN_TURNS_SHARE,
    SETTLE_SHARE,
    SPREADING_SHARE,
)
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
    found = _prefer_movements(problem, rows, values, budget)
    progress("settling the sets")
    values, sets, second = _prefer_sets(problem, rows, found.values, SETTLE_SHARE * budget)
    return values, (found.stage, sets), found.spent + second


@dataclass(frozen=True)
class _Choices:
    """The best choices so far with their points, if known; no choices have fewer than ``bound``; the time spent."""

    values: Values
    points: float | None = None
    bound: float = float("-inf")
    spent: float = 0.0

    @property
    def proved(self) -> bool:
        return self.points is not None and self.points <= self.bound

    @property
    def to_weigh_anew(self) -> _Choices:
        """The same among more rows that only add points: the bound holds, the points are not known."""
        return dataclasses.replace(self, points=None)

    @property
    def stage(self) -> Stage:
        if self.points is None:
            return Stage(name="movements", status="skipped", unit="points")
        bound = None if self.bound == float("-inf") else round(self.bound)
        status: Literal["optimal", "feasible"] = "optimal" if self.proved else "feasible"
        return Stage(name="movements", status=status, objective=round(self.points), bound=bound, unit="points")


def _prefer_movements(problem: Problem, rows: Sequence[Row], values: Values, budget: float) -> _Choices:
    """Stage 2a: fewer and fitter movements, some new in each phase, sessions in order; no greater shortfall.

    The spread of minutes makes each choice depend on all others of its week, so it comes second: from a block whose
    movements fit, it is soon better; from any block at all, a search may spend its time far off.
    """
    fitting = [*rows, *variety_rows(problem), *main_lift_rows(problem)]
    alone = _choice_model(problem, fitting)
    spread = list(spread_rows(problem, 1))
    whole = _choice_model(problem, [*fitting, *spread]) if spread else alone
    found = _searched(alone, _Choices(values), solver(FITTING_SHARE * budget))
    if not found.proved:
        return _long_preferred(problem, alone, whole, values, found, budget)
    if not spread:
        return found
    found = _searched(whole, found.to_weigh_anew, solver(SPREADING_SHARE * budget))
    return found if found.proved else _in_pieces(problem, whole, found, CHOICE_PIECES_SHARE * budget)


def _long_preferred(
    problem: Problem, alone: BlockModel, whole: BlockModel, values: Values, found: _Choices, budget: float
) -> _Choices:
    """The same where a search with relaxations stands still, as it does in most blocks with many choices.

    ``found``: what that search made of ``values``. More than the usual budget always asks the far search too.
    """
    found = _searched(alone, found, solver(IN_TURNS_SHARE * budget, in_turns=True))
    far = found.points is None or found.points > FAR * max(found.bound, 0)
    if far or (budget > DEFAULT_BUDGET and not found.proved):
        found = _better(found, _searched(alone, _Choices(values), solver(FAR_SHARE * budget)))
    found = found if whole is alone else found.to_weigh_anew
    pieces = CHOICE_PIECES_SHARE * budget
    better = _in_pieces(problem, whole, found, pieces)
    if better.proved or better.spent - found.spent >= pieces:
        return better
    return _searched(whole, better, solver(CLOSING_SHARE * budget))


def _better(one: _Choices, other: _Choices) -> _Choices:
    """The choices with fewer points, ``one`` if they are alike, with the bound and the time of both searches."""
    fewer = other if other.points is not None and (one.points is None or other.points < one.points) else one
    return dataclasses.replace(fewer, bound=max(one.bound, other.bound), spent=one.spent + other.spent)


def _choice_model(problem: Problem, rows: Sequence[Row]) -> BlockModel:
    built = build_model(problem, rows)
    built.model.minimize(weighted(built.variables, choice_terms(problem)) + built.penalty())
    return built


def _searched(built: BlockModel, start: _Choices, solved: cp_model.CpSolver) -> _Choices:
    """Choices no worse than those to start from, and what the search says of the bound."""
    built.model.clear_hints()
    add_hint(built, start.values)
    status = solved.solve(built.model)
    time = start.spent + spent(solved)
    bound = max(start.bound, solved.best_objective_bound)
    if not found_any(status) or (start.points is not None and solved.objective_value > start.points):
        return dataclasses.replace(start, bound=bound, spent=time)
    return _Choices(values_of(built, solved), solved.objective_value, bound, time)


def _in_pieces(problem: Problem, built: BlockModel, start: _Choices, budget: float) -> _Choices:
    values, points, time = improved_in_pieces(problem, built, start.values, budget, start.bound, CHOICE_PIECE)
    return _Choices(values, points, start.bound, start.spent + time)


def _prefer_sets(problem: Problem, rows: Sequence[Row], values: Values, budget: float) -> tuple[Values, Stage, float]:
    """Stage 2b: with the movements settled, sets near the middle of their bands and less joint stress."""
    built = build_model(problem, [*rows, *centre_rows(problem), *spread_rows(problem, HUNDREDTHS)])
    for key, value in values.items():
        if key.chooses:
            built.model.add(built.variables[key] == value)
    add_hint(built, values)
    built.model.minimize(weighted(built.variables, stress_points(problem)) + built.penalty())
    solved = solver(budget)
    status = solved.solve(built.model)
    if not found_any(status):
        return values, Stage(name="sets", status="skipped", unit="points"), spent(solved)
    return values_of(built, solved), stage_of("sets", solved, status, "points", HUNDREDTHS), spent(solved)


def as_hard(row: Row, allowance: int) -> Row:
    if row.price == 0:
        return row
    low = None if row.low is None else row.low - allowance
    high = None if row.high is None else row.high + allowance
    return dataclasses.replace(row, price=0, low=low, high=high)
