"""Start times of one day, proved; or the resource that is over where there are none."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from ortools.sat.python import cp_model

from planner.domain.training_squad import Station
from planner.solve.budgets import FEWEST_LEFT_OUT, OVERFLOWS, START_TIMES
from planner.solve.cp_model import SEED
from planner.solve.interruptible import InterruptibleSolver
from planner.starts.day_rows import DayModel, SquadDay, Start, StartsRow, Variable, add_rack_rows, clock, day_model
from planner.starts.first_fit import FirstFit
from planner.starts.shared_racks import racks_opened

MOST_ROUNDS = 40  # of adding rows for racks whose loads do not go together
LEAST_ROUND = 0.5  # deterministic seconds; less finds nothing
_ROUNDING = 1e-6


@dataclass(frozen=True)
class Overflow:
    """Too little of a resource, from a step to another (not included): ``wanted`` at its worst and ``there`` then."""

    hall: str
    resource: str
    first: int
    end: int
    wanted: int
    there: int

    def __str__(self) -> str:
        when = f"{clock(self.first)}–{clock(self.end)}"
        return f"{self.hall}, {self.resource} {when}: {self.wanted} wanted, {self.there} there"


@dataclass(frozen=True)
class StartPlan:
    """``starts``: a start for each athlete, or () where there is none; then ``overflows`` say what is over.

    ``status``: whether that is proved. ``cost`` and ``bound`` as the squad's rules price them.
    """

    status: Literal["optimal", "feasible", "impossible", "unknown"]
    starts: tuple[Start, ...] = ()
    cost: int = 0
    bound: int = 0
    overflows: tuple[Overflow, ...] = ()
    model: DayModel = field(default_factory=DayModel, compare=False, repr=False)


def plan_day(of: SquadDay) -> StartPlan:
    """The cheapest starts with the cards' own orders of items; where there are none, with other orders too."""
    found = _plan(of, day_model(of), START_TIMES)
    if not found.starts and any(len(session.orders) > 1 for session in of.sessions):
        found = _plan(of, day_model(of, other_orders=True), START_TIMES)
    return found


def plan_without_some(of: SquadDay) -> StartPlan:
    """The starts with the fewest athletes left out, in any order of items; the fewest where it is optimal."""
    return _plan(of, day_model(of, other_orders=True, leave_out=True), FEWEST_LEFT_OUT)


def _plan(of: SquadDay, model: DayModel, budget: float) -> StartPlan:
    """Loads that share a rack are looked at where a plan puts some together that are too far apart.

    Each round has half of what is left of the budget. Starts that break only the loads are mended by moving athletes.
    """
    if any(not row.terms for row in model.rows):
        return StartPlan("impossible", model=model)
    fit = FirstFit(of, model)
    best, bound, left = fit.place(), 0, budget
    for _ in range(MOST_ROUNDS):
        found, spent = _solve(model, fit.point(best) if best else {}, left / 2)
        if found.status == "impossible":
            return replace(found, overflows=_overflows(model))
        bound, left = max(bound, found.bound), left - spent
        wrong = _racks_over(of, model, found.starts)
        mended = fit.place(found.starts) if wrong else found.starts
        best = min((one for one in (mended, best) if one), key=fit.cost, default=())
        if best and fit.cost(best) <= bound:
            return StartPlan("optimal", best, bound, bound, (), model)
        if left < LEAST_ROUND:
            break
        for hall, station, step in wrong:
            add_rack_rows(model, hall, station, step, of.rules.shared_loads.spread)
    if not best:
        return StartPlan("unknown", model=model)
    return StartPlan("feasible", best, fit.cost(best), bound, (), model)


def _racks_over(of: SquadDay, model: DayModel, starts: Sequence[Start]) -> list[tuple[str, Station, int]]:
    """Stations and steps whose loads need more racks than there are."""
    chosen = set(starts)
    stations = {(hall.name, station.name): station for hall in of.squad.halls for station in hall.stations}
    found = []
    for (hall, name, step), there in sorted(model.loads.items()):
        station = stations[(hall, name)]
        loads = [load for load, start in there if start in chosen]
        if (
            station.loads_alike
            and len(racks_opened(loads, station.share, of.rules.shared_loads.spread)) > station.number
        ):
            found.append((hall, station, step))
    return found


def _solve(model: DayModel, hint: Mapping[Variable, int], budget: float) -> tuple[StartPlan, float]:
    """From ``hint`` on, a point or {}; and the deterministic seconds that it took."""
    cp, variables = _cp_model(model)
    for row in model.rows:
        _add(cp, variables, row)
    for one, var in variables.items() if hint else ():
        cp.add_hint(var, hint.get(one, 0))
    cp.minimize(_weighted(variables, [(cost, one) for one, cost in model.costs.items() if cost]))
    solver = _solver(budget)
    solver.parameters.interleave_search = True  # its searches take turns: some days need one, some another
    status = solver.solve(cp)
    spent = solver.response_proto.deterministic_time
    if status == cp_model.INFEASIBLE:
        return StartPlan("impossible", model=model), spent
    bound = math.ceil(max(0.0, solver.best_objective_bound - _ROUNDING))
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return StartPlan("unknown", bound=bound, model=model), spent
    starts = tuple(one for one, var in variables.items() if isinstance(one, Start) and solver.value(var))
    proved: Literal["optimal", "feasible"] = "optimal" if status == cp_model.OPTIMAL else "feasible"
    return StartPlan(proved, starts, round(solver.objective_value), bound, (), model), spent


def _overflows(model: DayModel) -> tuple[Overflow, ...]:
    """Where the day would be over if every resource could be: the fewest athletes too many in all five minutes."""
    cp, variables = _cp_model(model)
    over: list[tuple[StartsRow, cp_model.IntVar]] = []
    for row in model.rows:
        if not row.resource:
            _add(cp, variables, row)
            continue
        slack = cp.new_int_var(0, len(row.terms), row.name)
        assert row.high is not None
        cp.add(_weighted(variables, row.terms) - slack <= row.high)
        over.append((row, slack))
    cp.minimize(cp_model.LinearExpr.sum([slack for _, slack in over]))
    solver = _solver(OVERFLOWS)
    if solver.solve(cp) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return ()
    missing = [(row, solver.value(slack)) for row, slack in over if solver.value(slack)]
    return tuple(_joined(missing))


def _joined(missing: Sequence[tuple[StartsRow, int]]) -> list[Overflow]:
    """Neighbouring steps of one resource as one overflow."""
    found: list[Overflow] = []
    for row, slack in sorted(missing, key=lambda one: (one[0].hall, one[0].resource, one[0].step)):
        one = Overflow(row.hall, row.resource, row.step, row.step + 1, row.there + slack, row.there)
        last = found[-1] if found else None
        if last and (last.hall, last.resource) == (one.hall, one.resource) and one.first <= last.end:
            worst = max(last, one, key=lambda each: each.wanted - each.there)
            found[-1] = Overflow(one.hall, one.resource, last.first, one.end, worst.wanted, worst.there)
        else:
            found.append(one)
    return found


def _cp_model(model: DayModel) -> tuple[cp_model.CpModel, dict[Variable, cp_model.IntVar]]:
    cp = cp_model.CpModel()
    return cp, {one: cp.new_int_var(0, most, "") for one, most in model.most.items()}


def _add(cp: cp_model.CpModel, variables: dict[Variable, cp_model.IntVar], row: StartsRow) -> None:
    low = cp_model.INT_MIN if row.low is None else row.low
    high = cp_model.INT_MAX if row.high is None else row.high
    cp.add_linear_constraint(_weighted(variables, row.terms), low, high)


def _weighted(
    variables: dict[Variable, cp_model.IntVar], terms: Sequence[tuple[int, Variable]]
) -> cp_model.LinearExprT:
    return cp_model.LinearExpr.weighted_sum([variables[one] for _, one in terms], [factor for factor, _ in terms])


def _solver(budget: float) -> InterruptibleSolver:
    solver = InterruptibleSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = SEED
    solver.parameters.max_deterministic_time = budget
    return solver
