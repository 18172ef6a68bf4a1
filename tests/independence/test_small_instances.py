"""The same optimum three ways: this planner, HiGHS on the same matrix, and, for toys, every combination there is."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace
from itertools import product

import pytest
from ortools.sat.python import cp_model

from planner.domain.address import Address
from planner.problem.from_files import estimate_and_problem
from planner.problem.model import Problem
from planner.rules.registry import gather_rows
from planner.rules.rule import Row
from planner.solve.bands import solve_bands
from planner.solve.cp_model import build_model, solver
from planner.solve.shortfalls import units_missed
from planner.solve.variable_ranges import variable_ranges
from tests.independence.drawn import drawn
from tests.independence.highs import OPTIMAL, solve_with_highs

# Drawn athletes with a block and a shortfall: an optimum of nothing would say little.
WITH_A_SHORTFALL = (306, 317, 354, 362, 366, pytest.param(399, marks=pytest.mark.long))
TIME_LIMIT_s = 600.0  # by the clock, so far more than any of them takes
TOYS = range(12)
TOY_VARIABLES, TOY_ROWS = 6, 9
BUDGET = 16.0


@pytest.mark.parametrize("seed", WITH_A_SHORTFALL)
def test_a_drawn_block_is_as_good_as_the_second_solver_finds(seed: int) -> None:
    _, problem = estimate_and_problem(drawn(seed).inputs)
    found = solve_bands(problem, BUDGET)
    answer = solve_with_highs(problem, gather_rows(problem), time_limit_s=TIME_LIMIT_s)
    assert answer.status == OPTIMAL and answer.objective is not None
    assert 0 < found.bound <= round(answer.objective) <= found.objective
    if found.objective <= found.bound:
        assert found.objective == round(answer.objective)


def _toy(seed: int) -> tuple[Problem, list[Row]]:
    """A few variables of a real problem under drawn rows, hard and soft; the first value drawn keeps the hard ones."""
    draw = random.Random(seed)
    problem = estimate_and_problem(drawn(301).inputs)[1]
    ranges = variable_ranges(problem)
    keys = draw.sample([key for key, (low, high) in ranges.items() if 0 < high - low <= 4], TOY_VARIABLES)
    kept = {key: draw.randint(*ranges[key]) for key in keys}
    rows = []
    for number in range(TOY_ROWS):
        terms = tuple((draw.choice([-3, -2, -1, 1, 2, 3]), key) for key in draw.sample(keys, 3))
        total = sum(c * kept[key] for c, key in terms)
        if number % 3 == 0:
            rows.append(
                Row("toy", Address(of=f"hard {number}"), terms, total - draw.randint(0, 2), total + draw.randint(0, 2))
            )
        else:
            aim = draw.randint(-6, 12)
            rows.append(
                Row("toy", Address(of=f"soft {number}"), terms, aim, aim + draw.randint(0, 1), draw.randint(1, 9))
            )
    return problem, rows


def _by_brute_force(problem: Problem, rows: Sequence[Row]) -> int:
    """The least priced shortfall of all combinations that keep the hard rows."""
    ranges = variable_ranges(problem)
    keys = sorted({key for row in rows for _, key in row.terms}, key=str)
    least = None
    for values in product(*(range(ranges[key][0], ranges[key][1] + 1) for key in keys)):
        chosen = dict(zip(keys, values, strict=True))
        if not any(units_missed(row, chosen) for row in rows if not row.price):
            cost = sum(row.price * units_missed(row, chosen) for row in rows if row.price)
            least = cost if least is None else min(least, cost)
    assert least is not None
    return least


@pytest.mark.parametrize("seed", TOYS)
def test_a_toy_has_one_optimum_three_ways(seed: int) -> None:
    problem, rows = _toy(seed)
    built = build_model(problem, rows)
    built.model.minimize(built.penalty())
    solved = solver(BUDGET)
    assert solved.solve(built.model) == cp_model.OPTIMAL
    answer = solve_with_highs(problem, rows, time_limit_s=TIME_LIMIT_s)
    assert answer.objective is not None
    assert round(solved.objective_value) == round(answer.objective) == _by_brute_force(problem, rows)


def test_a_toy_that_cannot_hold_is_refused_by_both() -> None:
    problem, rows = _toy(0)
    hard = next(row for row in rows if not row.price)
    against = [hard, replace(hard, at=Address(of="against"), low=(hard.high or 0) + 1, high=None)]
    assert solver(BUDGET).solve(build_model(problem, against).model) == cp_model.INFEASIBLE
    assert solve_with_highs(problem, against, time_limit_s=TIME_LIMIT_s).objective is None
