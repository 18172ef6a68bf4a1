"""A target's day that the block misses and a test day that is too short are told on their lines, with what would do."""

from __future__ import annotations

import datetime

from planner.domain.findings import Finding
from planner.jobs.closing_test import closing_test
from planner.jobs.sources import Wanted, read_sources
from tests.cli.conftest import athlete, change

ADULT = "adult-one-leg-jumper"
START = datetime.date(2025, 9, 8)  # the eight weeks end on 1 November, four on 4 October


def findings(coach, by: str) -> list[Finding]:
    change(athlete(coach, ADULT), "by: 2025-11-01", f"by: {by}")
    sources = read_sources(Wanted(str(athlete(coach, ADULT))))
    return closing_test(sources, sources.estimate_and_problem(START)[1])


def test_a_block_that_ends_on_the_day_or_before_is_in_time(coach) -> None:
    assert findings(coach, "2025-11-01") == []


def test_a_shorter_template_is_named(coach) -> None:
    (finding,) = findings(coach, "2025-10-31")
    assert finding.level == "warning" and "2025-11-01" in finding.message
    assert "in-season-four-week" in finding.hint and "twelve-week" not in finding.hint
    assert finding.source_line.strip().startswith("by: 2025-10-31")


def test_where_none_ends_in_time_that_is_said(coach) -> None:
    (finding,) = findings(coach, "2025-09-20")
    assert "--template" not in finding.hint and "later day" in finding.hint


def test_a_day_too_short_for_its_test_is_told_on_its_line(coach) -> None:
    change(athlete(coach, ADULT), "{day: sat, minutes: 90}", "{day: sat, minutes: 44}")
    (finding,) = findings(coach, "2025-11-01")
    assert (finding.code, finding.level) == ("test-day-short", "warning")
    assert "takes 45 min" in finding.message and "has 44 min" in finding.message
    assert "day: sat" in finding.source_line
    change(athlete(coach, ADULT), "{day: sat, minutes: 44}", "{day: sat, minutes: 45}")
    sources = read_sources(Wanted(str(athlete(coach, ADULT))))
    assert closing_test(sources, sources.estimate_and_problem(START)[1]) == []
