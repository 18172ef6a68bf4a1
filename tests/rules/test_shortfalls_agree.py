"""A soft rule's rows and its audit miss by the same: sums of the rows and amounts of the audit, over drawn blocks."""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction

import pytest

from planner.problem.model import Problem
from planner.rules.base import Row, Rule
from planner.rules.recount import count_block
from planner.rules.registry import all_rules
from planner.solve.extract import extract_weeks
from tests.rules.as_values import as_values
from tests.rules.kept_blocks import block_of
from tests.rules.mutations import drawn
from tests.rules.test_rows_and_audit_agree import SITUATIONS, _start

BLOCKS_EACH = 12
SOFT = [rule for rule in all_rules() if not rule.hard]
ROUNDING = 1e-6  # amounts of the audit are sums of quarters as floats


def _missed(row: Row, values: dict[str, int]) -> int:
    total = sum(coefficient * values[key] for coefficient, key in row.terms)
    below = row.low - total if row.low is not None else 0
    above = total - row.high if row.high is not None else 0
    return max(below, above, 0)


def _by_rows(rule: Rule, problem: Problem, values: dict[str, int]) -> Fraction:
    return Fraction(sum(_missed(row, values) for row in rule.rows(problem)), rule.row_units)


@pytest.mark.parametrize("situation", SITUATIONS)
def test_a_soft_rules_rows_and_audit_miss_by_the_same(situation: str) -> None:
    problem, values = _start(situation)
    missed: dict[str, int] = defaultdict(int)
    for seed in range(BLOCKS_EACH):
        block = block_of(extract_weeks(problem, drawn(problem, values, seed)))
        back = as_values(block, problem)
        assert not back.lost
        plan = count_block(block, problem)
        for rule in SOFT:
            by_rows = _by_rows(rule, problem, back.values)
            by_audit = sum(breach.amount for breach in rule.audit(plan))
            assert abs(float(by_rows) - by_audit) < ROUNDING, f"{rule.id}, seed {seed}: {by_rows} and {by_audit}"
            missed[rule.id] += bool(by_rows)
    assert sum(missed.values()) >= BLOCKS_EACH // 2, f"too few shortfalls to compare: {dict(missed)}"


def test_every_soft_rule_misses_in_some_drawn_block() -> None:
    """So that the comparison is not one of nought and nought."""
    still = {rule.id for rule in SOFT}
    for situation in SITUATIONS:
        problem, values = _start(situation)
        for seed in range(BLOCKS_EACH):
            back = as_values(block_of(extract_weeks(problem, drawn(problem, values, seed))), problem)
            still -= {rule.id for rule in SOFT if rule.id in still and _by_rows(rule, problem, back.values)}
            if not still:
                return
    assert not still
