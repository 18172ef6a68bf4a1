"""What more testing is worth, in a line for each test that leaves a coach unsure."""

from __future__ import annotations

from planner.domain.terms import QUALITY_NAMES
from planner.estimate.estimate_gap import GapResult
from planner.estimate.test_worth import TestWorth, worth_of_tests
from planner.units import counted


def worth_lines(result: GapResult) -> list[str]:
    """Cheapest first."""
    return [_line(one) for one in worth_of_tests(result.qualities, result.benchmarks)]


worth_lines.__test__ = False  # type: ignore[attr-defined]  # not a pytest test


def _line(one: TestWorth) -> str:
    test = one.judged.reading.name
    short = f"{QUALITY_NAMES[one.quality]}, {test}: short by {100 * one.judged.deficit:.0f} ± "
    short += f"{100 * one.judged.deficit_se:.0f} %"
    if not one.days:
        left = f"the curve and the target alone leave ± {100 * one.least_se:.0f} %"
        return f"{short}; no number of test days makes that sure: {left}."
    ways = f"{counted(one.days, 'day')} of {counted(one.trials, 'trial')}"
    return f"{short}; with {ways} it would be sure, about {one.minutes} min of testing in all."
