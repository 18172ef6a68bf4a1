"""The measured ground contact of the target take-off, from a contact-time test, a mat or video frames."""

from __future__ import annotations

import datetime
import math
from collections.abc import Sequence
from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.measure import ContactMatTest, ContactTimeTest, Test, VideoFramesTest
from planner.estimate.notebook import Notebook
from planner.estimate.trials import day_se_of, middle_of, single_se_of, trials_in_words
from planner.estimate.uncertainty import Estimate, frame_se_s
from planner.estimate.video import contacts_s


@dataclass(frozen=True)
class MeasuredContact:
    time_s: Estimate
    described: str


def measured_contact(athlete: Athlete, benchmarks: Benchmarks, notes: Notebook) -> MeasuredContact | None:
    """All trials of the latest usable test of the target's own take-off; None where there is none."""
    day_se = day_se_of(benchmarks.test_kinds["contact-time"])
    found: list[tuple[datetime.date, int, MeasuredContact]] = []
    for number, test in enumerate(athlete.tests):
        if getattr(test, "take_off", None) != athlete.take_off:
            continue
        times, how, single_se = _contacts(number, test, benchmarks, notes)
        if times:
            described = f"{how}, {trials_in_words(len(times))} ({test.date.isoformat()})"
            time = middle_of(times, single_se=single_se, day_se=day_se)
            found.append((test.date, number, MeasuredContact(time, described)))
    return max(found, key=lambda entry: entry[:2])[2] if found else None


def _contacts(number: int, test: Test, benchmarks: Benchmarks, notes: Notebook) -> tuple[Sequence[float], str, float]:
    """The contacts that a test has, how they were measured, and the error of one within its day."""
    single_se = single_se_of(benchmarks.test_kinds["contact-time"])
    match test:
        case ContactTimeTest():
            return test.trials, test.method or "measured", single_se
        case ContactMatTest(run_up=True):
            return [one.contact for one in test.trials if one.contact is not None], "contact mat", single_se
        case VideoFramesTest(run_up=True):
            kind = benchmarks.test_kinds["video-frames"]
            filmed = f"video at {test.frame_rate:g} frames a second"
            frames_se = math.hypot(single_se_of(kind), frame_se_s(test.frame_rate))
            return contacts_s(number, test, kind, notes), filmed, frames_se
    return (), "", single_se


def measured_fall(athlete: Athlete, usual_se_m_s: float) -> Estimate | None:
    """Downward speed (m/s) as the foot lands, of the target's own take-off: the latest that was measured."""
    told = [
        (test.date, number, Estimate(speed, usual_se_m_s if error is None else error))
        for number, test in enumerate(athlete.tests)
        if isinstance(test, ContactTimeTest) or (isinstance(test, VideoFramesTest) and test.run_up)
        if test.take_off == athlete.take_off
        if (speed := test.touch_down_speed_m_s) is not None
        for error in [test.touch_down_speed_error_m_s]
    ]
    return max(told, key=lambda entry: entry[:2])[2] if told else None
