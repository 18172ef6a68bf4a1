"""The measured ground contact of the target take-off, from a contact-time test, a mat or video frames."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.measure import ContactMatTest, ContactTimeTest, VideoFramesTest
from planner.estimate.notebook import Notebook
from planner.estimate.trials import day_se_of, middle_of, single_se_of
from planner.estimate.uncertainty import Estimate, frame_se_s
from planner.estimate.video import contacts_s


@dataclass(frozen=True)
class MeasuredContact:
    time_s: Estimate
    described: str


def measured_contact(athlete: Athlete, benchmarks: Benchmarks, notes: Notebook) -> MeasuredContact | None:
    """All trials of the latest usable test of the target's own take-off; None where there is none."""
    found: list[tuple[str, int, MeasuredContact]] = []
    for number, test in enumerate(athlete.tests):
        if isinstance(test, ContactTimeTest) and test.take_off == athlete.take_off:
            kind = benchmarks.test_kinds["contact-time"]
            time = middle_of(test.trials, single_se=single_se_of(kind), day_se=day_se_of(kind))
            how = test.method or "measured"
            described = f"{how}, {_trials(len(test.trials))} ({test.date.isoformat()})"
            found.append((test.date.isoformat(), number, MeasuredContact(time, described)))
        if isinstance(test, ContactMatTest) and test.take_off == athlete.take_off and test.run_up:
            on_mat = [trial.contact for trial in test.trials if trial.contact is not None]
            if on_mat:
                kind = benchmarks.test_kinds["contact-time"]
                time = middle_of(on_mat, single_se=single_se_of(kind), day_se=day_se_of(kind))
                described = f"contact mat, {_trials(len(on_mat))} ({test.date.isoformat()})"
                found.append((test.date.isoformat(), number, MeasuredContact(time, described)))
        if isinstance(test, VideoFramesTest) and test.take_off == athlete.take_off and test.run_up:
            kind = benchmarks.test_kinds["video-frames"]
            contacts = contacts_s(number, test, kind, notes)
            if contacts:
                single = math.hypot(single_se_of(kind), frame_se_s(test.frame_rate))
                time = middle_of(contacts, single_se=single, day_se=day_se_of(benchmarks.test_kinds["contact-time"]))
                described = (
                    f"video at {test.frame_rate:g} frames a second, {_trials(len(contacts))} ({test.date.isoformat()})"
                )
                found.append((test.date.isoformat(), number, MeasuredContact(time, described)))
    return max(found, key=lambda entry: entry[:2])[2] if found else None


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


def _trials(count: int) -> str:
    return f"mean of {count}" if count > 1 else "one trial"
