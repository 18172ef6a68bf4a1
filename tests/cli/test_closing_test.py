"""A target's day that the block misses and a test kept short by its day are told on their lines, with what would do."""

from __future__ import annotations

import datetime
from dataclasses import replace

import pytest

from planner.domain.findings import Finding
from planner.jobs.closing_test import closing_test
from planner.jobs.sources import Wanted, read_sources
from planner.problem.model import Problem
from planner.rules.rule import Row
from planner.rules.session_minutes import SessionMinutes
from planner.solve.extract import extract_weeks
from planner.solve.variable_ranges import variable_ranges
from tests.cli.conftest import athlete, change
from tests.solve.demos import problem

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


def test_a_test_that_its_day_keeps_short_is_told_on_its_line(coach) -> None:
    change(athlete(coach, ADULT), "{day: sat, minutes: 90}", "{day: sat, minutes: 44}")
    (finding,) = findings(coach, "2025-11-01")
    assert (finding.code, finding.level) == ("test-day-short", "note")
    assert "has the day's 44 min instead of 45" in finding.message
    assert "day: sat" in finding.source_line
    for minutes in (45, LEAST - 1):  # enough; too little for any block
        set_minutes = f"{{day: sat, minutes: {minutes}}}"
        change(athlete(coach, ADULT), finding.source_line.strip().removeprefix("- "), set_minutes)
        sources = read_sources(Wanted(str(athlete(coach, ADULT))))
        assert closing_test(sources, sources.estimate_and_problem(START)[1]) == []
        finding = replace(finding, source_line=set_minutes)


LEAST = 24  # whole minutes: 10 of warm-up, the template's five jumps of 10 s with 150 s of rest


def on_saturday(minutes: int) -> Problem:
    """The adult demo, whose test is on a Saturday."""
    days = [{"day": day, "minutes": 90} for day in ("mon", "tue", "thu")]
    return problem("adult", {"training": {"days": [*days, {"day": "sat", "minutes": minutes}]}})


def test_rows(planned: Problem) -> list[Row]:
    at = (planned.last_week, planned.test_slot)
    return [row for row in SessionMinutes().rows(planned) if (row.at.week, row.at.slot) == at]


test_rows.__test__ = False  # type: ignore[attr-defined]  # not a pytest test


@pytest.mark.parametrize(("there", "takes"), [(90, 45), (45, 45), (44, 44), (LEAST, LEAST)])
def test_the_test_takes_no_more_than_its_day_has(there: int, takes: int) -> None:
    planned = on_saturday(there)
    assert test_rows(planned) == []
    nothing_else = {key: low for key, (low, _) in variable_ranges(planned).items()}
    assert extract_weeks(planned, nothing_else)[-1].sessions[-1].minutes == takes


def test_a_day_too_short_for_warm_up_and_jumps_is_refused_with_the_minutes_that_do() -> None:
    planned = on_saturday(LEAST - 2)
    (row,) = test_rows(planned)
    lows = {key: low for key, (low, _) in variable_ranges(planned).items()}
    over_s = sum(times * lows[key] for times, key in row.terms) - (row.high or 0)
    (loosening,) = SessionMinutes().loosenings(planned, row)
    assert -(-over_s // loosening.size) == 2
