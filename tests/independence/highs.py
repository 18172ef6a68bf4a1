"""The same rows for an independent solver: HiGHS through scipy.optimize.milp, one thread, no gap allowed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix

from planner.problem.model import Problem
from planner.rules.rule import Row
from planner.solve.variable_ranges import variable_ranges

OPTIMAL, LIMIT, INFEASIBLE = 0, 1, 2
FEASIBLE = OPTIMAL  # of a question without a cost


@dataclass(frozen=True)
class Matrix:
    """cost @ x to minimise, low <= A x <= high, x within bounds and whole; a slack each way for every soft row."""

    cost: np.ndarray
    constraint: LinearConstraint
    bounds: Bounds


def matrix(problem: Problem, rows: Sequence[Row]) -> Matrix:
    ranges = variable_ranges(problem)
    column = {key: index for index, key in enumerate(ranges)}
    lows, highs = [low for low, _ in ranges.values()], [high for _, high in ranges.values()]
    costs: list[float] = [0.0] * len(ranges)
    entries: list[tuple[int, int, float]] = []
    row_lows, row_highs = [], []
    for number, row in enumerate(rows):
        entries += [(number, column[key], float(coefficient)) for coefficient, key in row.terms]
        if row.price:
            for sign in (1.0, -1.0):
                entries.append((number, len(costs), sign))
                costs.append(float(row.price))
                lows.append(0)
                highs.append(10**6)
        row_lows.append(-np.inf if row.low is None else row.low)
        row_highs.append(np.inf if row.high is None else row.high)
    where = ([r for r, _, _ in entries], [c for _, c, _ in entries])
    table = csr_matrix(([v for _, _, v in entries], where), shape=(len(rows), len(costs)))
    return Matrix(np.array(costs), LinearConstraint(table, row_lows, row_highs), Bounds(lows, highs))


@dataclass(frozen=True)
class Answer:
    status: int  # OPTIMAL, LIMIT or INFEASIBLE
    objective: float | None


def solve_with_highs(problem: Problem, rows: Sequence[Row], *, time_limit_s: float) -> Answer:
    made = matrix(problem, rows)
    found = milp(
        made.cost,
        constraints=made.constraint,
        integrality=np.ones(len(made.cost)),
        bounds=made.bounds,
        options={"time_limit": time_limit_s, "mip_rel_gap": 0.0},
    )
    return Answer(int(found.status), None if found.fun is None else float(found.fun))


def can_hold(problem: Problem, rows: Sequence[Row], *, time_limit_s: float) -> int:
    """Whether these rows, all hard, can hold together: FEASIBLE, INFEASIBLE, or LIMIT where the time was too short."""
    made = matrix(problem, [replace(row, price=0) for row in rows])
    found = milp(
        np.zeros(len(made.cost)),
        constraints=made.constraint,
        integrality=np.ones(len(made.cost)),
        bounds=made.bounds,
        options={"time_limit": time_limit_s},
    )
    return FEASIBLE if found.x is not None else int(found.status)
