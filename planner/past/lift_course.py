"""Every lift of a log followed from its test: readings, and the maximum with its drift."""

from __future__ import annotations

import datetime
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from planner.domain.follow_up import LiftFollowing
from planner.domain.movement_library import Library
from planner.past.done import DoneSession
from planner.past.lift_filter import LiftLevel, Reading, follow, read_set, start_level
from planner.past.load_advice import LiftDay, lift_days


@dataclass(frozen=True)
class TestedMaximum:
    """Load on the bar or in the hands, kg. ``own``: a test of this lift itself, not of one it is derived from."""

    __test__ = False  # not a pytest class

    load_kg: float
    own: bool


@dataclass(frozen=True)
class LiftCourse:
    """A lift's maximum, kg on the bar or in the hands: tested (None without a test), and now with its 90 % band."""

    movement: str
    name: str
    tested: TestedMaximum | None
    readings: tuple[tuple[datetime.date, float], ...]  # day, and the maximum that its first set speaks for
    now_kg: float
    low_kg: float
    high_kg: float
    drift_percent_a_week: float
    drift_error_percent: float


class _Read(NamedTuple):
    """``body_kg``: what of the body was lifted with it on that day."""

    day: LiftDay
    body_kg: float
    reading: Reading


def lift_courses(
    done: Sequence[DoneSession],
    tested: Mapping[str, TestedMaximum],
    library: Library,
    rule: LiftFollowing,
    *,
    body_kg: float,
    start: datetime.date,
    until: datetime.date,
) -> list[LiftCourse]:
    """A course for each movement with a reading, in the order in which they were first done.

    ``body_kg``: body mass until the log says another; ``start``: the block's first day, when the tests hold.
    """
    found = []
    for movement, days in lift_days(done).items():
        share = library[movement].dose.body_mass_share
        bodies = [share * _body(day, done, body_kg) for day in days]
        read = [_read(day, body, start, rule) for day, body in zip(days, bodies, strict=True)]
        readings = [one for one in read if one is not None]
        if readings:
            weeks = (until - start).days / 7
            found.append(_course(movement, readings, tested.get(movement), bodies[-1], weeks, rule))
    return found


def _read(day: LiftDay, body_kg: float, start: datetime.date, rule: LiftFollowing) -> _Read | None:
    """The first set, if its reps left were stated and not from memory."""
    if day.logged is None or not day.logged.reps_in_reserve or day.entry.written == "later" or not day.done.load_kg:
        return None
    weeks = max(0.0, (day.date - start).days / 7)
    left = day.logged.reps_in_reserve[0]
    reading = read_set(weeks, day.done.load_kg + body_kg, day.done.reps or 0, left, rule)
    return None if reading is None else _Read(day, body_kg, reading)


def _body(day: LiftDay, done: Sequence[DoneSession], body_kg: float) -> float:
    weighed = [one.entry.body_mass for one in done if one.date <= day.date and one.entry.body_mass is not None]
    return weighed[-1] if weighed else body_kg


def _course(
    movement: str,
    readings: list[_Read],
    tested: TestedMaximum | None,
    body_kg: float,
    until_week: float,
    rule: LiftFollowing,
) -> LiftCourse:
    ordered = [one.reading for one in readings]
    if tested is None:
        first = ordered.pop(0)
        start = LiftLevel(first.level, first.error, rule.drift_percent_a_week, rule.drift_error_percent)
    else:
        error = rule.test_error_percent if tested.own else rule.test_error_percent + rule.ratio_error_percent
        start = start_level(tested.load_kg + body_kg, error, rule)
    now = follow(start, ordered, rule, until_week)
    name = readings[0].day.done.name
    maxima_kg = tuple((one.day.date, math.exp(one.reading.level / 100) - one.body_kg) for one in readings)
    now_kg, low_kg, high_kg = (system_kg - body_kg for system_kg in (now.system_kg, *now.band_kg()))
    return LiftCourse(movement, name, tested, maxima_kg, now_kg, low_kg, high_kg, now.drift, now.drift_error)
