"""The model takes a block that keeps the rules and refuses one that does not, its values fixed one by one."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from functools import cache

import pytest
from ortools.sat.python import cp_model

from planner.problem.model import Problem
from planner.rules.registry import all_rules, gather_rows, rule_by_id
from planner.rules.rule import Row
from planner.solve.cp_model import build_model, solver
from planner.solve.from_block import block_values
from tests.rules.as_values import as_values, out_of_range
from tests.rules.cases import AUDIT_ONLY, Case, all_cases
from tests.rules.kept_blocks import kept_block, kept_problem
from tests.solve.demos import DEMOS, solved

BUDGET = 4.0


def _accepts(planned: Problem, rows: Sequence[Row], values: Mapping[str, int]) -> bool:
    built = build_model(planned, rows, soft=False)
    for key, value in values.items():
        built.model.add(built.variables[key] == value)
    status = solver(BUDGET).solve(built.model)
    assert status in (cp_model.OPTIMAL, cp_model.FEASIBLE, cp_model.INFEASIBLE)
    return status != cp_model.INFEASIBLE


@pytest.mark.parametrize("demo", DEMOS)
def test_the_model_accepts_a_kept_block(demo: str) -> None:
    planned = kept_problem(demo)
    assert _accepts(planned, gather_rows(planned), as_values(kept_block(demo), planned).values)


@cache
def _in_range() -> list[Case]:
    """Every case that variables can say, within their ranges."""
    found = [case for case in all_cases() if case.in_rows and case.rule not in AUDIT_ONLY]
    return [c for c in found if not out_of_range(as_values(c.block(), c.problem()).values, c.problem())]


@pytest.mark.parametrize("case", _in_range(), ids=lambda case: f"{case.rule}: {case.name}")
def test_the_model_takes_the_passing_and_refuses_the_failing(case: Case) -> None:
    """Aims are held to be hard here: a block that misses one is not taken either."""
    planned, rule = case.problem(), rule_by_id(case.rule)
    assert rule is not None
    rows = [dataclasses.replace(row, price=0) for row in rule.rows(planned)]
    assert _accepts(planned, rows, as_values(case.block(), planned).values) is not case.fails


def test_every_rule_with_rows_has_both_kinds_among_those() -> None:
    for rule in all_rules():
        if rule.id not in AUDIT_ONLY:
            assert {case.fails for case in _in_range() if case.rule == rule.id} == {True, False}, rule.id


@pytest.mark.parametrize("demo", ["in-season", "youth"])
def test_a_solved_block_reads_back_as_the_values_it_came_from(demo: str) -> None:
    found = solved(demo)
    for back in (as_values(found.block, found.problem).values, block_values(found.block, found.problem)):
        for key, value in found.solution.values.items():
            # A day may be called hard though its work is not.
            assert key.kind == "hard" or back[key] == value, key
