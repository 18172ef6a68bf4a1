"""Training days, phases, and the sport on each date."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass

from planner.domain.athlete import Athlete, Fixture
from planner.domain.terms import DAYS, Day, Role
from planner.domain.training_log import OtherWork

ONE_DAY = datetime.timedelta(days=1)


@dataclass(frozen=True)
class Slot:
    """A training day of a weekly routine; numbers follow the dates of a block week, and go on in the next routine."""

    number: int
    day: Day
    gym_minutes: int  # without the athlete's own work


@dataclass(frozen=True)
class SportDay:
    """Practices and matches of one date."""

    minutes: int = 0
    contacts: int = 0
    match_minutes: int = 0
    match: bool = False
    hard: bool = False


@dataclass(frozen=True)
class Phase:
    """Weeks with the same movements: a phase of the template, or a piece of one that was cut.

    ``name`` is the template's; ``id`` is the piece's own. ``slots``: the training days of its weekly routine.
    """

    id: str
    name: str
    weeks: tuple[int, ...]
    roles: tuple[Role, ...]
    slots: tuple[int, ...]


def first_start(athlete: Athlete) -> datetime.date:
    """The first training day after the latest test, where a block starts unless the coach names a date."""
    training_days = {DAYS.index(day.day) for day in athlete.training.days}
    date = max(test.date for test in athlete.tests) + ONE_DAY
    while date.weekday() not in training_days:
        date += ONE_DAY
    return date


def routine(athlete: Athlete, start: datetime.date) -> tuple[Slot, ...]:
    """The training days in order within a block week, which begins on the weekday of ``start``."""
    days = sorted(athlete.training.days, key=lambda day: (DAYS.index(day.day) - start.weekday()) % 7)
    return tuple(Slot(i, day.day, day.minutes - day.own_work_minutes) for i, day in enumerate(days, start=1))


def _falls_on(fixture: Fixture, date: datetime.date) -> bool:
    return fixture.date == date if fixture.date is not None else fixture.day == DAYS[date.weekday()]


def sport_days(
    athlete: Athlete, start: datetime.date, weeks: int, extra: Sequence[OtherWork] = ()
) -> dict[datetime.date, SportDay]:
    """Practices and matches by date, from a week before the block to a week after, since rules look past its ends.

    ``extra``: other work that was done; it counts as a practice that is not hard.
    """
    away = set(athlete.training.away)
    found: dict[datetime.date, SportDay] = {}
    for offset in range(-7, 7 * weeks + 8):
        date = start + datetime.timedelta(days=offset)
        practices = [f for f in athlete.practices if _falls_on(f, date) and date not in away]
        matches = [f for f in athlete.matches if _falls_on(f, date)]
        others = [work for work in extra if work.date == date]
        if practices or matches or others:
            found[date] = SportDay(
                minutes=sum(f.minutes for f in (*practices, *matches)) + sum(work.minutes for work in others),
                contacts=sum(f.contacts for f in (*practices, *matches)) + sum(work.contacts for work in others),
                match_minutes=sum(f.minutes for f in matches),
                match=bool(matches),
                hard=bool(matches) or any(f.hardness == "hard" for f in practices),
            )
    return found
