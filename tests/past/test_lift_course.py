"""A lift's course from its test and its readings, worked by hand: whose body, which day, which readings count."""

from __future__ import annotations

import datetime
import math
from typing import Any

import pytest

from planner.domain.training_log import LoggedItem, LoggedSession
from planner.files.load import load_follow_up
from planner.files.locate import locate_follow_up
from planner.past.done import DoneSession, done_sessions
from planner.past.lift_course import LiftCourse, TestedMaximum, lift_courses
from planner.past.lift_filter import LiftLevel, follow, read_set, start_level
from tests.past.test_done import BLOCK, LEG, LIBRARY, log

RULE = load_follow_up(locate_follow_up().path).require().lifts
START = BLOCK.weeks[0].start
SESSIONS = list(BLOCK.sessions)
# A bar lift, of which the body is no part, and a one-leg squat, of which all of it is.
SQUAT, ONE_LEG = "back-squat", "heel-raised-one-leg-squat"
PLACES = {
    movement: [(s, i) for s in SESSIONS for i in s.items if i.movement == movement and i.sets]
    for movement in (SQUAT, ONE_LEG)
}


def done(movement: str, *sets: tuple[float, int, int], **more: Any) -> list[DoneSession]:
    """Load, reps and reps left of the first set, on the movement's days in turn; ``more``: fields of every entry."""
    entries = []
    for (session, item), (load, reps, left) in zip(PLACES[movement], sets, strict=False):
        line = LoggedItem.model_construct(item=item.id, load=load, reps=(reps,) * 2, reps_in_reserve=(left,))
        fields = {"session": session.id, "date": session.date, "done": "changed", "items": (line,), **more}
        entries.append(LoggedSession.model_construct(**fields))
    return list(done_sessions(BLOCK, log(*entries), LIBRARY, LEG))


def courses(
    history: list[DoneSession], until: datetime.date | None = None, **tested: TestedMaximum
) -> list[LiftCourse]:
    known = {name.replace("_", "-"): one for name, one in tested.items()}
    return lift_courses(history, known, LIBRARY, RULE, body_kg=80.0, start=START, until=until or history[-1].date)


def test_first_reading_starts_a_lift_that_was_not_tested() -> None:
    """20 kg on an 80 kg body x 8 with 2 left: 100 (1 + 10/30) = 133.3 kg with the body, 53.3 kg in the hands."""
    assert LIBRARY[ONE_LEG].dose.body_mass_share == 1
    (one,) = courses(done(ONE_LEG, (20.0, 8, 2)))
    assert one.tested is None and len(one.readings) == 1
    assert one.readings[0][1] == pytest.approx(100 * 4 / 3 - 80)
    weeks = (PLACES[ONE_LEG][0][0].date - START).days / 7
    expected = 100 * 4 / 3 * math.exp(0.006 * weeks) - 80
    assert one.now_kg == pytest.approx(expected)
    assert one.low_kg < one.now_kg < one.high_kg
    error = math.sqrt(2.75**2 + (1.2 * 100 / 40) ** 2 + (0.6 * weeks) ** 2 + 0.25 * weeks)
    assert one.high_kg == pytest.approx((expected + 80) * math.exp(1.645 * error / 100) - 80)


def test_the_body_of_the_day_is_that_of_the_log() -> None:
    (one,) = courses(done(ONE_LEG, (20.0, 8, 2), body_mass=90.0))
    assert one.readings[0][1] == pytest.approx(110 * 4 / 3 - 90)


def test_each_reading_is_of_its_own_day() -> None:
    """Two readings weeks apart against a test: as the filter is told day by day, bodies as they were weighed."""
    history = done(ONE_LEG, (20.0, 8, 2), (30.0, 6, 2))
    heavier = history[1].entry.model_copy(update={"body_mass": 84.0})
    history[1] = DoneSession(history[1].planned, heavier, history[1].session)
    (one,) = courses(history, heel_raised_one_leg_squat=TestedMaximum(55.0, own=True))
    weeks = [(day.date - START).days / 7 for day in history]
    readings = [read_set(weeks[0], 100.0, 8, 2, RULE), read_set(weeks[1], 114.0, 6, 2, RULE)]
    assert weeks[1] > weeks[0] and None not in readings
    start = start_level(55.0 + 84.0, RULE.test_error_percent, RULE)
    expected = follow(start, [one for one in readings if one is not None], RULE, weeks[1])
    assert one.now_kg == pytest.approx(expected.system_kg - 84)
    assert one.drift_percent_a_week == pytest.approx(expected.drift)
    assert [kg for _, kg in one.readings] == [pytest.approx(100 * 4 / 3 - 80), pytest.approx(114 * 38 / 30 - 84)]


def test_without_a_test_the_first_reading_is_not_counted_twice() -> None:
    (one,) = courses(done(SQUAT, (90.0, 5, 1), (95.0, 5, 1)))
    weeks = [(session.date - START).days / 7 for session, _ in PLACES[SQUAT][:2]]
    first, second = (read_set(week, load, 5, 1, RULE) for week, load in zip(weeks, (90.0, 95.0), strict=True))
    assert first is not None and second is not None
    start = LiftLevel(first.level, first.error, RULE.drift_percent_a_week, RULE.drift_error_percent)
    assert one.now_kg == pytest.approx(follow(start, [second], RULE, weeks[1]).system_kg)


def test_a_test_and_a_reading_are_weighed() -> None:
    """The test 100 kg ± 4.2 %; 90 kg x 5 with 1 left, 108 kg, a day into the block's first week."""
    (one,) = courses(done(SQUAT, (90.0, 5, 1)), back_squat=TestedMaximum(100.0, own=True))
    assert one.tested == TestedMaximum(100.0, own=True)
    weeks = (PLACES[SQUAT][0][0].date - START).days / 7
    before = 4.2**2 + (0.6 * weeks) ** 2 + 0.25 * weeks
    reading = 2.75**2 + (0.95 * 100 / 36) ** 2
    level = 100 * math.log(100) + 0.6 * weeks
    level += before / (before + reading) * (100 * math.log(108) - level)
    assert one.now_kg == pytest.approx(math.exp(level / 100))


def test_a_maximum_from_another_lifts_test_is_believed_less() -> None:
    history = done(SQUAT, (90.0, 5, 1))
    (own,), (other,) = (courses(history, back_squat=TestedMaximum(100.0, own=flag)) for flag in (True, False))
    assert own.now_kg < other.now_kg < 108


def test_weeks_after_the_last_reading_carry_the_drift() -> None:
    history = done(SQUAT, (90.0, 5, 1))
    (now,) = courses(history)
    (later,) = courses(history, until=history[-1].date + datetime.timedelta(days=14))
    assert later.now_kg == pytest.approx(now.now_kg * math.exp(2 * now.drift_percent_a_week / 100))
    assert later.high_kg - later.low_kg > now.high_kg - now.low_kg


def test_what_gives_no_reading() -> None:
    assert courses(done(SQUAT, (90.0, 5, 1), written="later")) == []
    assert courses(done(SQUAT, (60.0, 11, 3))) == []
    (session, item) = PLACES[SQUAT][0]
    silent = LoggedItem.model_construct(item=item.id, load=90.0, reps=(5, 5))
    entry = LoggedSession.model_construct(session=session.id, date=session.date, done="changed", items=(silent,))
    assert courses(list(done_sessions(BLOCK, log(entry), LIBRARY, LEG))) == []
