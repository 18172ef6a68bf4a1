"""What an athlete's file says as a whole: a body that fits together, a target that a test can measure, a real week."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from planner.domain.athlete import Athlete
from planner.domain.base import OLDEST_years, YOUNGEST_years
from planner.domain.findings import Finding
from planner.domain.measure import (
    CalfPushTest,
    ForcePlatformTest,
    HeelRaiseTest,
    OneLegHopTest,
    OneLegJumpTest,
    SprintSplitsTest,
    TouchTest,
    VideoFramesTest,
)
from planner.domain.terms import HeightMethod
from planner.domain.test_record import TestRecord
from planner.files.document import Loaded
from planner.files.sense.repeats import repeats
from planner.files.tree import Path
from planner.units import counted, format_length

# The height method of each kind that tells a height of a target jump; those of video and platform depend on the trials.
_TELLS_HEIGHT: dict[str, HeightMethod] = {
    "touch": "touch",
    "flight-time": "flight-time",
    "given-rise": "given",
    "contact-mat": "flight-time",
    "countermovement-jump": "flight-time",
    "one-leg-jump": "flight-time",
}


def athlete_sense(loaded: Loaded[Athlete]) -> list[Finding]:
    athlete = loaded.require()
    checks = (_body, _touches, _target, _dates, _week, _fixtures, _joints, _choices, _sides, _splits, _platform)
    return [finding for check in checks for finding in check(athlete, loaded)]


def _second_place(loaded: Loaded[Athlete], path: Path) -> tuple[str, str]:
    """A place to name in a sentence (``line 12``) and in ``other`` (``path:12``)."""
    place = loaded.place(path)
    return f"line {place.line}", str(place)


def _body(athlete: Athlete, loaded: Loaded[Athlete]) -> Iterator[Finding]:
    if athlete.standing_reach < athlete.stature:
        line, other = _second_place(loaded, ("stature",))
        stature = _m(athlete, athlete.stature)
        message = f"standing_reach: {_m(athlete, athlete.standing_reach)} is below the stature of {stature} ({line})"
        yield loaded.finding(
            ("standing_reach",), "reach-below-stature", message, "measure one hand up, feet flat", other=other
        )
    if athlete.tip_toe_reach is not None and athlete.tip_toe_reach <= athlete.standing_reach:
        line, other = _second_place(loaded, ("standing_reach",))
        reach = f"the standing reach of {_m(athlete, athlete.standing_reach)} ({line})"
        message = f"tip_toe_reach: {_m(athlete, athlete.tip_toe_reach)} is not above {reach}"
        hint = "measure both with one hand at a wall, flat-footed and on tip-toe; or leave tip_toe_reach out"
        yield loaded.finding(("tip_toe_reach",), "tip-toe-below-standing", message, hint, other=other)


def _touches(athlete: Athlete, loaded: Loaded[Athlete]) -> Iterator[Finding]:
    marks: list[tuple[Path, str, float]] = []
    if athlete.target.touch is not None:
        marks.append((("target", "touch"), "the target", athlete.target.touch))
    for index, test in enumerate(athlete.tests):
        if isinstance(test, TouchTest):
            marks += [(("tests", index, "trials", t), "the touch", mark) for t, mark in enumerate(test.trials)]
    line, other = _second_place(loaded, ("standing_reach",))
    for path, what, mark in marks:
        if mark < athlete.standing_reach:
            reach = _m(athlete, athlete.standing_reach)
            message = f"{what}, {_m(athlete, mark)}, is below the standing reach of {reach} ({line})"
            yield loaded.finding(path, "touch-below-reach", message, "check both numbers and their units", other=other)


def _target(athlete: Athlete, loaded: Loaded[Athlete]) -> Iterator[Finding]:
    target = athlete.target
    if (target.touch is None) == (target.rise is None):
        both = "both touch and rise" if target.touch is not None else "neither touch nor rise"
        yield loaded.finding(("target",), "target-not-one", f"the target has {both}", "write one of them", on_key=True)
    elif target.touch is not None and target.method != "touch":
        message = f"a touch cannot be the target of the method '{target.method}'"
        yield loaded.finding(("target", "method"), "target-method", message, "write method: touch, or a rise")
    measured = [method for test in athlete.tests if (method := _height_method(test)) is not None]
    if not measured:
        message = "no test says how high the athlete jumps"
        hint = "add one of kind touch, flight-time or given-rise"
        yield loaded.finding(("tests",), "no-height-test", message, hint, on_key=True)
    elif target.method not in measured and not (target.touch is not None and target.method != "touch"):
        message = f"no test was taken by the target's method, '{target.method}'"
        hint = f"heights by another method are another quantity; retest, or write method: {measured[0]}"
        yield loaded.finding(("target", "method"), "target-method-untested", message, hint, level="warning")


def _height_method(test: TestRecord) -> HeightMethod | None:
    if isinstance(test, VideoFramesTest):
        return "flight-time" if test.drop is None and any(trial.landing is not None for trial in test.trials) else None
    if isinstance(test, ForcePlatformTest):
        if test.jump == "drop":
            return None
        return "impulse" if test.by_impulse else "flight-time"
    return _TELLS_HEIGHT.get(getattr(test, "kind", ""))


def _platform(athlete: Athlete, loaded: Loaded[Athlete]) -> Iterator[Finding]:
    """Platform jumps that give no height, or one height in doubt."""
    for number, test in enumerate(athlete.tests):
        if not isinstance(test, ForcePlatformTest):
            continue
        for place, trial in enumerate(test.trials):
            path: Path = ("tests", number, "trials", place)
            if trial.flight is None and (trial.rise_by_impulse is None or test.jump == "drop"):
                hint = "write its flight, or its rise_by_impulse; or delete the trial"
                yield loaded.finding(path, "no-height", "this trial gives no height", hint)
            if trial.doubt is not None:
                hint = "test again with a still second before the jump and after the landing, or trust it as it is"
                yield loaded.finding((*path, "doubt"), "platform-doubt", trial.doubt, hint, level="warning")


def _dates(athlete: Athlete, loaded: Loaded[Athlete]) -> Iterator[Finding]:
    dated: list[tuple[Path, object]] = [(("tests", i, "date"), test.date) for i, test in enumerate(athlete.tests)]
    dated += [(("stature_records", i, "date"), record.date) for i, record in enumerate(athlete.stature_records)]
    earliest = min(dated, key=lambda entry: str(entry[1]))
    if str(earliest[1]) <= str(athlete.birth_date):
        line, other = _second_place(loaded, earliest[0])
        message = f"birth_date: {athlete.birth_date} is not before the test of {earliest[1]} ({line})"
        yield loaded.finding(("birth_date",), "born-after-test", message, "check both years", other=other)
    latest = max(test.date for test in athlete.tests)
    age = athlete.age_years(latest)
    if str(earliest[1]) > str(athlete.birth_date) and not YOUNGEST_years <= age <= OLDEST_years:
        message = f"birth_date: {athlete.birth_date}: {counted(age, 'year')} old at the latest test ({latest})"
        hint = f"check the year; athletes are {YOUNGEST_years} to {OLDEST_years} years old here"
        yield loaded.finding(("birth_date",), "age", message, hint)
    if athlete.target.by is not None and athlete.target.by <= latest:
        message = f"by: {athlete.target.by} is not after the latest test ({latest})"
        yield loaded.finding(("target", "by"), "target-date-past", message, "set a later date", level="warning")


def _week(athlete: Athlete, loaded: Loaded[Athlete]) -> Iterator[Finding]:
    days = athlete.training.days
    for index, first in repeats([day.day for day in days]):
        path: Path = ("training", "days", index, "day")
        line, other = _second_place(loaded, ("training", "days", first, "day"))
        message = f"'{days[index].day}' is a training day twice, first on {line}"
        yield loaded.finding(path, "day-twice", message, "make them one, with the minutes of both", other=other)
    for index, day in enumerate(days):
        if day.own_work_minutes >= day.minutes:
            message = f"own work takes {day.own_work_minutes} of {day.minutes} minutes: nothing is left to plan"
            yield loaded.finding(
                ("training", "days", index, "own_work_minutes"), "no-minutes-left", message, "lower it"
            )
    recent = athlete.recent_load
    if recent is not None and (recent.weekly_high_contacts or 0) > recent.weekly_contacts:
        message = (
            f"{recent.weekly_high_contacts} high contacts are more than the {recent.weekly_contacts} contacts in all"
        )
        hint = "high contacts are counted among weekly_contacts"
        yield loaded.finding(("recent_load", "weekly_high_contacts"), "more-high-than-all", message, hint)


def _fixtures(athlete: Athlete, loaded: Loaded[Athlete]) -> Iterator[Finding]:
    for name, fixtures in (("practices", athlete.practices), ("matches", athlete.matches)):
        for index, fixture in enumerate(fixtures):
            if (fixture.day is None) == (fixture.date is None):
                both = "both a day and a date" if fixture.day is not None else "neither a day nor a date"
                hint = "write day for every week, date for once"
                yield loaded.finding((name, index), "fixture-day-or-date", f"this has {both}", hint)


def _joints(athlete: Athlete, loaded: Loaded[Athlete]) -> Iterator[Finding]:
    for index, first in repeats([(joint.joint, joint.side) for joint in athlete.joints]):
        line, other = _second_place(loaded, ("joints", first, "joint"))
        message = f"'{athlete.joints[index].joint}' is listed twice for the same side, first on {line}"
        yield loaded.finding(("joints", index, "joint"), "joint-twice", message, "keep one of them", other=other)


def _choices(athlete: Athlete, loaded: Loaded[Athlete]) -> Iterator[Finding]:
    training_days = [day.day for day in athlete.training.days]
    for index, pin in enumerate(athlete.pins):
        if pin.movement in athlete.bans:
            line, other = _second_place(loaded, ("bans", athlete.bans.index(pin.movement)))
            message = f"'{pin.movement}' is pinned here and banned on {line}"
            yield loaded.finding(("pins", index, "movement"), "pinned-and-banned", message, "delete one", other=other)
        if pin.day is not None and pin.day not in training_days:
            message = f"'{pin.day}' is not a training day"
            hint = f"use one of: {', '.join(training_days)}"
            yield loaded.finding(("pins", index, "day"), "pin-day", message, hint)
    for index, allowance in enumerate(athlete.allow):
        if (allowance.rule is None) == (allowance.movement is None):
            hint = "name one: the rule, or the movement"
            yield loaded.finding(("allow", index), "allowance-of-what", "it is not clear what is allowed here", hint)


def _sides(athlete: Athlete, loaded: Loaded[Athlete]) -> Iterator[Finding]:
    by_leg = (HeelRaiseTest, CalfPushTest, OneLegHopTest, OneLegJumpTest)
    for index, test in enumerate(athlete.tests):
        if isinstance(test, by_leg) and test.left in (None, ()) and test.right in (None, ()):
            message = "this test has neither a left nor a right result"
            yield loaded.finding(("tests", index), "no-result", message, "add left, right or both")


def _splits(athlete: Athlete, loaded: Loaded[Athlete]) -> Iterator[Finding]:
    """Every row of times has one for each distance, and both only grow."""
    for index, test in enumerate(athlete.tests):
        if not isinstance(test, SprintSplitsTest):
            continue
        if not _grows(test.distances):
            message = "the distances do not grow from one to the next"
            yield loaded.finding(("tests", index, "distances"), "splits-order", message, "count each from the start")
        for row, times in enumerate(test.trials):
            at: Path = ("tests", index, "trials", row)
            if len(times) != len(test.distances):
                message = f"{counted(len(times), 'time')} for {counted(len(test.distances), 'distance')}"
                yield loaded.finding(at, "splits-number", message, "write one time for each distance")
            elif not _grows(times):
                message = "the times do not grow from one split to the next"
                yield loaded.finding(at, "splits-order", message, "count each time from the start")


def _grows(values: tuple[float, ...]) -> bool:
    return values[0] > 0 and all(later > earlier for earlier, later in pairwise(values))


def _m(athlete: Athlete, length_m: float) -> str:
    """A length as the file is written."""
    return format_length(length_m, "in", 2) if athlete.print_as.length == "in" else format_length(length_m, "m", 3)
