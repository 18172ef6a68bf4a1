"""Rows become a CP-SAT model."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from planner.domain.block import Stage
from planner.problem.model import Problem
from planner.problem.variable import Term, Values, Variable
from planner.rules.rule import Row
from planner.solve.interruptible import InterruptibleSolver
from planner.solve.relax import reach
from planner.solve.variable_ranges import variable_ranges

SEED = 0
# Cuts from every linear row, not only from some: short sessions are found, or ruled out, in a tenth of the time.
ALL_LINEAR = 2


@dataclass
class BlockModel:
    """A CP-SAT model with its variables by key, and each soft row's slacks with their prices."""

    model: cp_model.CpModel
    variables: dict[Variable, cp_model.IntVar]
    ranges: dict[Variable, tuple[int, int]]
    penalties: list[tuple[int, cp_model.IntVar]] = field(default_factory=list)

    def penalty(self) -> cp_model.LinearExprT:
        prices = [price for price, _ in self.penalties]
        return cp_model.LinearExpr.weighted_sum([slack for _, slack in self.penalties], prices)


def build_model(
    problem: Problem, rows: Iterable[Row], *, soft: bool = True, ranges: dict[Variable, tuple[int, int]] | None = None
) -> BlockModel:
    """Variables, hard rows as constraints, and soft rows with a slack each way (left out if ``soft`` is false).

    ``ranges``: the variables, if not all of the problem's; the rows must have no others.
    """
    model = cp_model.CpModel()
    ranges = variable_ranges(problem) if ranges is None else ranges
    variables = {key: model.new_int_var(low, high, key.name) for key, (low, high) in ranges.items()}
    built = BlockModel(model, variables, ranges)
    for row in rows:
        if row.price == 0 and row.terms:
            add_hard(model, variables, row)
        elif row.price == 0 and not holds_at(row, 0):
            model.add_bool_or([])  # an empty sum that must not be zero: never true
        elif row.price and soft:
            _add_soft(built, row)
    return built


def holds_at(row: Row, total: int) -> bool:
    return (row.low is None or total >= row.low) and (row.high is None or total <= row.high)


def weighted(variables: Mapping[Variable, cp_model.IntVar], terms: Sequence[Term]) -> cp_model.LinearExprT:
    return cp_model.LinearExpr.weighted_sum([variables[key] for _, key in terms], [c for c, _ in terms])


def add_hard(model: cp_model.CpModel, variables: Mapping[Variable, cp_model.IntVar], row: Row) -> None:
    low = cp_model.INT_MIN if row.low is None else row.low
    high = cp_model.INT_MAX if row.high is None else row.high
    model.add_linear_constraint(weighted(variables, row.terms), low, high)


def _add_soft(built: BlockModel, row: Row) -> None:
    """The row with a slack for each way that it can be missed."""
    least, most = reach(row.terms, built.ranges)
    expression = weighted(built.variables, row.terms) if row.terms else 0
    if row.low is not None and least < row.low:
        short = built.model.new_int_var(0, row.low - least, f"{row.name}/short")
        built.penalties.append((row.price, short))
        built.model.add(expression + short >= row.low)
    if row.high is not None and most > row.high:
        over = built.model.new_int_var(0, most - row.high, f"{row.name}/over")
        built.penalties.append((row.price, over))
        built.model.add(expression - over <= row.high)


def solver(deterministic_time: float, *, from_below: bool = False, in_turns: bool = False) -> cp_model.CpSolver:
    """One worker, a fixed seed and a deterministic budget: the same input gives the same block on any machine.

    ``from_below``: look for the least shortfall by raising a bound, not by improving blocks. ``in_turns``: the same
    without linear relaxations, in turns with looking near the best block so far; one worker takes them in fixed order.
    """
    found = InterruptibleSolver()
    found.parameters.num_workers = 1
    found.parameters.random_seed = SEED
    found.parameters.linearization_level = ALL_LINEAR
    found.parameters.max_deterministic_time = deterministic_time
    found.parameters.optimize_with_core = from_below
    if in_turns:
        found.parameters.interleave_search = True
        found.parameters.subsolvers.append("core")
    return found


def spent(solved: cp_model.CpSolver) -> float:
    """The deterministic time that a solve took."""
    return float(solved.response_proto.deterministic_time)


def found_any(status: cp_model.CpSolverStatus) -> bool:
    return status in (cp_model.OPTIMAL, cp_model.FEASIBLE)


def stage_of(name: str, solved: cp_model.CpSolver, status: cp_model.CpSolverStatus, unit: str, per: int = 1) -> Stage:
    """The report on a solve that found something; ``per``: how many of the objective's whole numbers make a unit."""
    return Stage(
        name=name,
        status="optimal" if status == cp_model.OPTIMAL else "feasible",
        objective=round(solved.objective_value / per),
        bound=round(solved.best_objective_bound / per),
        unit=unit,
    )


def values_of(built: BlockModel, solved: cp_model.CpSolver) -> Values:
    return {key: solved.value(variable) for key, variable in built.variables.items()}


def add_hint(built: BlockModel, values: Mapping[Variable, int]) -> None:
    for key, value in values.items():
        built.model.add_hint(built.variables[key], value)
