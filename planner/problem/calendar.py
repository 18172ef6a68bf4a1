"""Dates: which training day falls on which date, and what sport stands on each date."""

from __future__ import annotations

import datetime
import math

from planner.domain.athlete import Athlete, Fixture
from planner.domain.template import SportStress
from planner.domain.terms import DAYS, Joint
from planner.problem.model import STRESS_UNITS_PER_POINT, Slot, SportDay

ONE_DAY = datetime.timedelta(days=1)


def first_start(athlete: Athlete) -> datetime.date:
    """The first training day after the latest test: the start of a block where the coach names none."""
    training_days = {DAYS.index(day.day) for day in athlete.training.days}
    date = max(test.date for test in athlete.tests) + ONE_DAY
    while date.weekday() not in training_days:
        date += ONE_DAY
    return date


def routine(athlete: Athlete, start: datetime.date) -> tuple[Slot, ...]:
    """The training days in order of date within a block week, which begins on the weekday of ``start``."""
    days = sorted(athlete.training.days, key=lambda day: (DAYS.index(day.day) - start.weekday()) % 7)
    return tuple(Slot(i, day.day, day.minutes - day.own_work_minutes) for i, day in enumerate(days, start=1))


def _falls_on(fixture: Fixture, date: datetime.date) -> bool:
    return fixture.date == date if fixture.date is not None else fixture.day == DAYS[date.weekday()]


def sport_days(athlete: Athlete, start: datetime.date, weeks: int) -> dict[datetime.date, SportDay]:
    """Practices and matches of every date of the block, the days around it included (rules look across its edges)."""
    away = set(athlete.training.away)
    found: dict[datetime.date, SportDay] = {}
    for offset in range(-7, 7 * weeks + 8):
        date = start + datetime.timedelta(days=offset)
        practices = [f for f in athlete.practices if _falls_on(f, date) and date not in away]
        matches = [f for f in athlete.matches if _falls_on(f, date)]
        if practices or matches:
            found[date] = SportDay(
                minutes=sum(f.minutes for f in (*practices, *matches)),
                contacts=sum(f.contacts for f in (*practices, *matches)),
                match_minutes=sum(f.minutes for f in matches),
                match=bool(matches),
                hard=bool(matches) or any(f.hardness == "hard" for f in practices),
            )
    return found


def sport_stress_units(day: SportDay, sport: SportStress) -> dict[Joint, int]:
    """Joint stress of a date's sport, a leg, in stress units; a match minute counts ``match_factor`` times.

    Rounded up: rounded down, a block at its ceiling would be over it by the audit's count.
    """
    weighted_minutes = (day.minutes - day.match_minutes) + day.match_minutes * sport.match_factor
    return {
        joint: math.ceil(round(points * weighted_minutes * STRESS_UNITS_PER_POINT / 60, 6))
        for joint, points in sport.per_hour.items()
    }
