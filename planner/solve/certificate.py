"""Infeasibility proved by arithmetic: whole-number multiples of the rows add up to something no values can reach.

The multiples are the duals of a linear relaxation in floating point, rounded to whole numbers; their sum is then exact.
A sum that contradicts the ranges of the variables is a proof (Farkas 1902), wherever the multiples come from; one that
does not is inconclusive.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from ortools.linear_solver import pywraplp

from planner.problem.variable import Values, Variable
from planner.rules.rule import Row
from planner.solve.budgets import MOST_CERTIFIED_ROWS
from planner.solve.feasibility import simplified
from planner.solve.relax import Ranges, reach

SCALE = 10**7  # duals are rounded to one part in this


def certified(rows: Sequence[Row], ranges: Ranges) -> bool:
    """Whether the rows provably have no common solution, even in fractions."""
    simple = simplified(rows, ranges)
    if simple is None:
        return True  # one row alone cannot hold
    kept, bounds = simple
    if not kept or len(kept) > MOST_CERTIFIED_ROWS:
        return False
    multiples = _multiples(kept, bounds)
    return multiples is not None and contradicts(kept, bounds, multiples)


def contradicts(rows: Sequence[Row], ranges: Ranges, multiples: Sequence[int]) -> bool:
    """Whether the rows, each times its whole number, add up to a sum that no values in the ranges can reach.

    A positive multiple uses the row's low, a negative one its high.
    """
    total: Values = {}
    asked = 0
    for row, multiple in zip(rows, multiples, strict=True):
        limit = row.low if multiple > 0 else row.high
        if multiple == 0 or limit is None:
            continue
        asked += multiple * limit
        for coefficient, key in row.terms:
            total[key] = total.get(key, 0) + multiple * coefficient
    return reach([(c, key) for key, c in total.items()], ranges)[1] < asked


def _multiples(rows: Sequence[Row], ranges: Mapping[Variable, tuple[int, int]]) -> list[int] | None:
    """Rounded duals of "miss the rows as little as possible", each row scaled by its largest coefficient."""
    lp = pywraplp.Solver.CreateSolver("GLOP")
    variables: dict[Variable, pywraplp.Variable] = {}
    objective = lp.Objective()
    constraints = []
    for row in rows:
        made = lp.Constraint(
            -lp.infinity() if row.low is None else row.low, lp.infinity() if row.high is None else row.high
        )
        size = max(abs(coefficient) for coefficient, _ in row.terms)
        for coefficient, key in row.terms:
            if key not in variables:
                variables[key] = lp.NumVar(*ranges[key], key.name)
            made.SetCoefficient(variables[key], made.GetCoefficient(variables[key]) + coefficient)
        for sign, limit in ((1, row.low), (-1, row.high)):
            if limit is not None:
                slack = lp.NumVar(0, lp.infinity(), "")
                made.SetCoefficient(slack, sign)
                objective.SetCoefficient(slack, 1 / size)
        constraints.append(made)
    objective.SetMinimization()
    if lp.Solve() != pywraplp.Solver.OPTIMAL or objective.Value() <= 1 / SCALE:
        return None
    return [math.floor(SCALE * made.dual_value() + 0.5) for made in constraints]
