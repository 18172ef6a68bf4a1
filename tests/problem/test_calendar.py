"""Dates: training days in any week, sport that recurs or stands once, days away."""

from __future__ import annotations

import datetime

import pytest

from planner.domain.address import NOWHERE, Address
from planner.domain.base import LAST_DATE
from planner.domain.block import Routine
from planner.domain.findings import UserError
from planner.domain.terms import DAYS
from planner.problem.block_calendar import calendar_of
from planner.problem.ceilings import sport_stress_units
from planner.problem.model import STRESS_UNITS_PER_POINT
from planner.problem.revised import Since
from planner.problem.training_days import SportDay, first_start, routine, sport_days
from tests.solve.demos import athlete, problem, template

MONDAY = datetime.date(2025, 9, 8)
STARTS = [MONDAY + datetime.timedelta(days=offset) for offset in range(7)]
PLAYER, ADULT = "in-season-player", "adult-one-leg-jumper"


@pytest.mark.parametrize("start", STARTS, ids=lambda date: f"{date:%a}")
def test_training_days_stand_in_order_of_date_whatever_weekday_a_week_begins_on(start: datetime.date) -> None:
    slots = routine(athlete(ADULT), start)
    dates = calendar_of(athlete(ADULT), template("eight-week"), start).dates
    assert sorted(slot.day for slot in slots) == sorted(["mon", "tue", "thu", "sat"])
    for week in range(1, 9):
        of_week = [dates[week, slot.number] for slot in slots]
        assert of_week == sorted(of_week)
        assert all(0 <= (date - start).days - 7 * (week - 1) < 7 for date in of_week)
        assert [DAYS[date.weekday()] for date in of_week] == [slot.day for slot in slots]


def test_own_work_is_kept_free() -> None:
    assert [slot.gym_minutes for slot in routine(athlete(PLAYER), MONDAY)] == [65, 65]


def test_the_block_starts_on_the_first_training_day_after_the_latest_test() -> None:
    latest = max(test.date for test in athlete(PLAYER).tests)
    assert latest == datetime.date(2025, 9, 3)
    assert first_start(athlete(PLAYER)) == MONDAY  # Wednesday the 3rd is the test's own day
    earlier = athlete(PLAYER, {"training": {"days": [{"day": "thu", "minutes": 60}, {"day": "sun", "minutes": 60}]}})
    assert first_start(earlier) == datetime.date(2025, 9, 4)


def test_recurring_sport_falls_on_its_weekday_and_dated_sport_once() -> None:
    dated = {"date": datetime.date(2025, 9, 17), "minutes": 60, "contacts": 30, "hardness": "hard"}
    days = sport_days(athlete(PLAYER, {"matches": [dated]}), MONDAY, 4)
    assert {DAYS[date.weekday()] for date, day in days.items() if not day.match} == {"tue", "thu"}
    assert [date for date, day in days.items() if day.match] == [datetime.date(2025, 9, 17)]
    assert days[datetime.date(2025, 9, 17)] == SportDay(60, 30, 60, match=True, hard=True)


def test_a_practice_counts_as_hard_only_when_marked_and_a_match_always() -> None:
    practices = [{"day": "tue", "minutes": 90}, {"day": "wed", "minutes": 90, "hardness": "hard"}]
    matches = [{"day": "sat", "minutes": 60, "hardness": "light"}]
    days = sport_days(athlete(PLAYER, {"practices": practices, "matches": matches}), MONDAY, 1)
    hard = {DAYS[date.weekday()] for date, day in days.items() if day.hard}
    assert hard == {"wed", "sat"}


def test_practices_fall_out_on_days_away_and_matches_are_travelled_to() -> None:
    tuesday, saturday = datetime.date(2025, 9, 9), datetime.date(2025, 9, 13)
    days = sport_days(athlete(PLAYER, {"training": {"away": [tuesday, saturday]}}), MONDAY, 4)
    assert tuesday not in days and days[saturday].match


def test_a_practice_and_a_match_on_one_date_add_up() -> None:
    fixtures = {"practices": [{"day": "sat", "minutes": 45, "contacts": 20}]}
    day = sport_days(athlete(PLAYER, fixtures), MONDAY, 1)[datetime.date(2025, 9, 13)]
    assert (day.minutes, day.match_minutes, day.contacts) == (120, 75, 100)
    # Eight points an hour at the knee: 45 minutes of practice, 75 of a match at 1.25.
    points = 8 * (45 + 1.25 * 75) / 60
    units = sport_stress_units(day, template("in-season-four-week").sport_stress)
    assert units["patellar-knee"] == points * STRESS_UNITS_PER_POINT


def test_an_away_date_bars_every_movement_and_the_last_free_day_holds_the_test() -> None:
    planned = problem("in-season", {"training": {"away": [datetime.date(2025, 9, 17), datetime.date(2025, 10, 1)]}})
    assert planned.away == {(2, 2), (4, 2)}
    assert all(entry.barred == "away" for entry in planned.entries[2, 2])
    assert planned.test_slot == 1 and planned.is_test_day(4, 1)
    assert planned.training_days(4) == [1]


def test_a_match_bars_all_but_a_primer_on_its_day_and_the_day_before() -> None:
    planned = problem("in-season", {"matches": [{"date": datetime.date(2025, 9, 11), "minutes": 60}]})
    open_ = {entry.movement.part for entry in planned.entries[1, 2] if entry.barred is None}
    assert open_ == {"landing"}
    assert all(e.movement.jump and e.movement.jump.tier == "low" for e in planned.entries[1, 2] if e.barred is None)
    assert all(entry.barred is None for entry in planned.entries[2, 2])


def test_age_is_whole_years_on_the_day() -> None:
    born = athlete(ADULT, {"birth_date": datetime.date(2008, 2, 29)})
    assert born.age_years(datetime.date(2026, 2, 28)) == 17
    assert born.age_years(datetime.date(2026, 3, 1)) == 18


@pytest.mark.parametrize(("start", "words"), [("1990-01-01", "not born yet"), ("2120-01-01", "years old")])
def test_no_block_is_asked_for_at_an_age_that_nobody_trains_at(start: str, words: str) -> None:
    with pytest.raises(UserError) as refused:
        problem("adult", start=datetime.date.fromisoformat(start))
    (finding,) = refused.value.findings
    assert finding.code == "age" and words in finding.message and "--start" in finding.hint


def test_a_block_that_ends_after_the_last_date_of_a_file_is_refused() -> None:
    last_start = LAST_DATE - datetime.timedelta(weeks=8)
    born = {"birth_date": datetime.date(2180, 1, 1)}
    assert problem("adult", born, start=last_start).test_date <= LAST_DATE
    with pytest.raises(UserError) as refused:
        problem("adult", born, start=last_start + datetime.timedelta(days=1))
    (finding,) = refused.value.findings
    assert finding.code == "too-late" and "--start" in finding.hint


def test_landings_of_sport_are_counted_in_the_week_of_the_block_that_they_fall_in() -> None:
    """Of the weeks from Monday to Sunday; the days around the block are in none."""
    days = [(-1, 1), (0, 10), (6, 20), (7, 40), (27, 80), (28, 160)]
    matches = [{"date": MONDAY + datetime.timedelta(days=at), "minutes": 60, "contacts": n} for at, n in days]
    found = calendar_of(
        athlete(PLAYER, {"matches": matches, "practices": []}), template("in-season-four-week"), MONDAY
    ).sport_contacts()
    assert found == {1: 30, 2: 40, 3: 0, 4: 80}


def test_days_away_take_their_share_of_a_week_and_nothing_is_free_after_the_test() -> None:
    away = [MONDAY + datetime.timedelta(days=at) for at in (7, 9, 14)]
    days = calendar_of(athlete(PLAYER, {"training": {"away": away}}), template("in-season-four-week"), MONDAY)
    assert [days.day_share(week) for week in (1, 2, 3, 4)] == [1.0, 0.0, 0.5, 1.0]
    assert [days.working_days(week) for week in (1, 2, 3, 4)] == [[1, 2], [], [2], [1]]
    assert (days.last_week, days.test_slot) == (4, 2)


def test_sport_is_known_a_week_around_the_block() -> None:
    """Of four weeks from Monday the 8th: the 1st to the Monday a week after the end."""
    days = [{"day": day, "minutes": 60} for day in DAYS]
    found = sport_days(athlete(PLAYER, {"practices": days, "matches": []}), MONDAY, 4)
    assert (min(found), max(found)) == (datetime.date(2025, 9, 1), datetime.date(2025, 10, 13))
    assert len(found) == 43


def test_what_is_over_of_a_running_block_is_told_of_its_days_weeks_and_phases() -> None:
    """From the second Wednesday on: the Monday before it is over, its week is not."""
    routine_of_it = Routine(since=MONDAY, days=("mon", "wed"))
    since = Since(datetime.date(2025, 9, 17), (routine_of_it,), {}, frozenset())
    days = calendar_of(athlete(PLAYER), template("in-season-four-week"), MONDAY, since=since)
    assert days.first_week == 2
    assert [days.is_over(Address(week=week)) for week in (1, 2)] == [True, False]
    assert [days.is_over(Address(week=2, slot=slot)) for slot in (1, 2)] == [True, False]
    assert days.is_over(Address(week=1, slot=2))
    assert [days.is_over(Address(phase=phase.id)) for phase in days.phases] == [True, False, False, False]
    assert not days.is_over(NOWHERE) and not days.is_over(Address(movement="pogo"))
