"""The reader as a whole: every check is tried, says where it is from, and is independent of rules and solver."""

from __future__ import annotations

import ast
from pathlib import Path

from tests.coach import test_day_and_page_checks, test_jump_checks, test_strength_checks
from tests.coach.all_checks import all_checks

HERE = Path(__file__).parent
TESTED = (test_strength_checks, test_jump_checks, test_day_and_page_checks)
OURS_ALONE = ("planner.rules", "planner.problem", "planner.solve", "planner.audit", "planner.jobs")


def test_every_check_has_a_block_that_it_finds_at_fault_and_one_that_it_leaves_alone():
    tried = [case.check.id for module in TESTED for case in module.CASES]
    assert sorted(tried) == sorted(check.id for check in all_checks())


def test_every_point_is_held_by_a_check():
    assert {check.point for check in all_checks() if check.must} == {str(number) for number in range(1, 13)}
    assert any(not check.must for check in all_checks())


def test_checks_say_what_they_strike_out_and_where_their_figures_come_from():
    for check in all_checks():
        assert check.strikes and check.source, check.id


def test_the_reader_shares_no_code_with_rules_problem_and_solver():
    for path in [*HERE.glob("*.py"), *(HERE / "checks").glob("*.py")]:
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            names = [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            names += [one.name for one in node.names] if isinstance(node, ast.Import) else []
            assert not [name for name in names if name.startswith(OURS_ALONE)], path
