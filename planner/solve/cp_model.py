"""Rows become a CP-SAT model; the only place where a rule meets the solver."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from planner.problem.model import Problem
from planner.problem.variable import Values, Variable
from planner.rules.base import Row
from planner.solve.interruptible import InterruptibleSolver
from planner.solve.relax import reach
from planner.solve.variable_ranges import variable_ranges

SEED = 0
# Cuts from every linear row, not only from some: short sessions are then found, or ruled out, in a tenth of the time.
ALL_LINEAR = 2


@dataclass
class BlockModel:
    """A CP-SAT model with its variables by key and the price of every soft row's shortfall."""

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
    """Variables, hard rows as constraints, and soft rows with a slack each way (left out where ``soft`` is false).

    ``ranges``: the variables where they are not all of the problem's; the rows then speak of no others.
    """
    model = cp_model.CpModel()
    ranges = variable_ranges(problem) if ranges is None else ranges
    variables = {key: model.new_int_var(low, high, key.name) for key, (low, high) in ranges.items()}
    built = BlockModel(model, variables, ranges)
    for row in rows:
        if row.price == 0:
            _add(built, row)
        elif soft:
            _add_soft(built, row)
    return built


def _expression(built: BlockModel, row: Row) -> cp_model.LinearExprT:
    keys = [key for _, key in row.terms]
    return cp_model.LinearExpr.weighted_sum([built.variables[k] for k in keys], [c for c, _ in row.terms])


def _add(built: BlockModel, row: Row) -> None:
    if not row.terms:
        if (row.low or 0) > 0 or (row.high is not None and row.high < 0):
            built.model.add_bool_or([])  # an empty sum that must not be zero: never true
        return
    low = cp_model.INT_MIN if row.low is None else row.low
    high = cp_model.INT_MAX if row.high is None else row.high
    built.model.add_linear_constraint(_expression(built, row), low, high)


def _add_soft(built: BlockModel, row: Row) -> None:
    """The row with a slack each way that it can be missed; a sum that cannot miss gets none."""
    least, most = reach(row.terms, built.ranges)
    expression = _expression(built, row) if row.terms else 0
    if row.low is not None and least < row.low:
        short = built.model.new_int_var(0, row.low - least, f"{row.name}/short")
        built.penalties.append((row.price, short))
        built.model.add(expression + short >= row.low)
    if row.high is not None and most > row.high:
        over = built.model.new_int_var(0, most - row.high, f"{row.name}/over")
        built.penalties.append((row.price, over))
        built.model.add(expression - over <= row.high)


def solver(deterministic_time: float, *, from_below: bool = False) -> cp_model.CpSolver:
    """One worker, a fixed seed and a deterministic budget: the same input gives the same block on any machine.

    ``from_below``: the least shortfall is sought by raising what is missed, not by lowering it.
    """
    found = InterruptibleSolver()
    found.parameters.num_workers = 1
    found.parameters.random_seed = SEED
    found.parameters.linearization_level = ALL_LINEAR
    found.parameters.max_deterministic_time = deterministic_time
    found.parameters.optimize_with_core = from_below
    return found


def spent(solved: cp_model.CpSolver) -> float:
    """Deterministic time that a solve took."""
    return float(solved.response_proto.deterministic_time)


def values_of(built: BlockModel, solved: cp_model.CpSolver) -> Values:
    return {key: solved.value(variable) for key, variable in built.variables.items()}


def add_hint(built: BlockModel, values: Mapping[Variable, int]) -> None:
    for key, value in values.items():
        built.model.add_hint(built.variables[key], value)
