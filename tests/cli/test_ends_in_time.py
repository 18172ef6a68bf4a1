"""A target's day that the block misses is told on its line, with a template that ends in time where there is one."""

from __future__ import annotations

import datetime

from planner.domain.findings import Finding
from planner.jobs.ends_in_time import ends_in_time
from planner.jobs.sources import Wanted, read_sources
from tests.cli.conftest import athlete, change

ADULT = "adult-one-leg-jumper"
START = datetime.date(2025, 9, 8)  # the eight weeks end on 1 November, four on 4 October


def findings(coach, by: str) -> list[Finding]:
    change(athlete(coach, ADULT), "by: 2025-11-01", f"by: {by}")
    sources = read_sources(Wanted(str(athlete(coach, ADULT))))
    return ends_in_time(sources, sources.estimate_and_problem(START)[1])


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
