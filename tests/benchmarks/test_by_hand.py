"""The block filled in by hand is a fair one to compare with: nothing closed to the athlete, no session over time."""

from __future__ import annotations

import pytest

from planner.problem.from_files import estimate_and_problem
from planner.rules.registry import all_rules
from planner.rules.rule import ClosingRule
from planner.solve.variable_ranges import variable_ranges
from tests.benchmarks.by_hand import by_hand
from tests.benchmarks.hand_against_proved import as_block, broken
from tests.benchmarks.people import Lines, adult
from tests.independence.drawn import inputs

KEPT = {rule.id for rule in all_rules() if isinstance(rule, ClosingRule)} | {
    "continuity",
    "dates",
    "one-of-family",
    "session-minutes",
    "session-order",
}


@pytest.mark.parametrize("lines", [adult(), adult(level="novice"), adult(landing="not-yet")])
def test_the_block_by_hand_keeps_what_a_coach_sees_on_the_page(lines: Lines) -> None:
    result, problem = estimate_and_problem(inputs(lines, "eight-week"))
    values = by_hand(problem)
    ranges = variable_ranges(problem)
    assert all(ranges[key][0] <= value <= ranges[key][1] for key, value in values.items())
    assert not KEPT & set(broken(problem, as_block(problem, values, result.gap)))
