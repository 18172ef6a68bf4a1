"""Every lift of a log followed from its test: readings, and the maximum with its drift."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.domain.follow_up import LiftFollowing
from planner.domain.movement_library import Library
from planner.past.done import DoneSession
from planner.past.lift_filter import Level, Reading, follow, read_set, start_level
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
        read = [(day, _reading(day, share, _body(day, done, body_kg), start, rule)) for day in days]
        readings = [(day, one) for day, one in read if one is not None]
        if readings:
            body = share * _body(days[-1], done, body_kg)
            found.append(_course(movement, readings, tested.get(movement), body, (until - start).days / 7, rule))
    return found


def _reading(day: LiftDay, share: float, body_kg: float, start: datetime.date, rule: LiftFollowing) -> Reading | None:
    """The first set where its reps left were stated, and not from memory."""
    if day.logged is None or not day.logged.reps_in_reserve or day.entry.written == "later" or not day.done.load_kg:
        return None
    weeks = max(0.0, (day.date - start).days / 7)
    return read_set(weeks, day.done.load_kg + share * body_kg, day.done.reps or 0, day.logged.reps_in_reserve[0], rule)


def _body(day: LiftDay, done: Sequence[DoneSession], body_kg: float) -> float:
    weighed = [one.entry.body_mass for one in done if one.date <= day.date and one.entry.body_mass is not None]
    return weighed[-1] if weighed else body_kg


def _course(
    movement: str,
    readings: list[tuple[LiftDay, Reading]],
    tested: TestedMaximum | None,
    body_kg: float,
    until_week: float,
    rule: LiftFollowing,
) -> LiftCourse:
    ordered = [one for _, one in readings]
    if tested is None:
        first = ordered.pop(0)
        start = Level(first.level, first.error, rule.drift_percent_a_week, rule.drift_error_percent)
    else:
        error = rule.test_error_percent if tested.own else rule.test_error_percent + rule.ratio_error_percent
        start = start_level(tested.load_kg + body_kg, error, rule)
    now = follow(start, ordered, rule, until_week)
    low, high = now.band_kg()
    name = readings[0][0].done.name
    said = tuple((day.date, Level(one.level, one.error, 0, 0).system_kg - body_kg) for day, one in readings)
    return LiftCourse(
        movement, name, tested, said, now.system_kg - body_kg, low - body_kg, high - body_kg, now.drift, now.drift_error
    )
