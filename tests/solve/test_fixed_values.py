"""The model takes a block that keeps the rules and refuses one that does not, its values fixed one by one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import pytest
from ortools.sat.python import cp_model

from planner.problem.model import Problem
from planner.rules.base import Row
from planner.rules.registry import rule_by_id
from planner.solve.cp_model import build_model, solver
from planner.solve.from_block import block_values
from planner.solve.matrix import gather_rows
from tests.rules.as_values import as_values, out_of_range
from tests.rules.cases import Case, all_cases
from tests.rules.kept_blocks import kept_block, shipped_problem
from tests.rules.test_rows_and_audit_agree import AUDIT_ONLY
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
    planned = shipped_problem(demo)
    assert _accepts(planned, gather_rows(planned), as_values(kept_block(demo), planned).values)


def _first_failing() -> list[Case]:
    """One case a rule: the first that fails, whose edits are within the variables and their ranges."""
    found: dict[str, Case] = {}
    for case in all_cases():
        rule = rule_by_id(case.rule)
        assert rule is not None
        if not (case.fails and case.in_rows and rule.hard) or case.rule in AUDIT_ONLY or case.rule in found:
            continue
        planned = case.problem()
        if not out_of_range(as_values(case.block(), planned).values, planned):
            found[case.rule] = case
    return list(found.values())


@pytest.mark.parametrize("case", _first_failing(), ids=lambda case: case.rule)
def test_the_model_refuses_a_block_that_breaks_the_rule(case: Case) -> None:
    planned, rule = case.problem(), rule_by_id(case.rule)
    assert rule is not None
    assert not _accepts(planned, list(rule.rows(planned)), as_values(case.block(), planned).values)


@pytest.mark.parametrize("demo", ["in-season", "youth"])
def test_a_solved_block_reads_back_as_the_values_it_came_from(demo: str) -> None:
    found = solved(demo)
    for back in (as_values(found.block, found.problem).values, block_values(found.block, found.problem)):
        for key, value in found.solution.values.items():
            # A day may be called hard though its work is not.
            assert key.startswith("hard/") or back[key] == value, key
