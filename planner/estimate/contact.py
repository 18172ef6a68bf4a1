"""The measured ground contact of the target take-off: a contact-time test, or a video's frames."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.measure import ContactTimeTest, VideoFramesTest
from planner.estimate.findings import Notebook
from planner.estimate.heights import single_se_of
from planner.estimate.uncertainty import Estimate, frame_se_s, mean_of_all
from planner.estimate.video import contacts_s


@dataclass(frozen=True)
class MeasuredContact:
    time_s: Estimate
    described: str


def measured_contact(athlete: Athlete, benchmarks: Benchmarks, notes: Notebook) -> MeasuredContact | None:
    """Mean of all trials of the latest usable test of the target's own take-off; None where there is none."""
    found: list[tuple[str, int, MeasuredContact]] = []
    for number, test in enumerate(athlete.tests):
        if isinstance(test, ContactTimeTest) and test.take_off == athlete.take_off:
            kind = benchmarks.test_kinds["contact-time"]
            time = mean_of_all(test.trials, single_se=single_se_of(kind))
            how = f", {test.method}" if test.method else ""
            described = f"measured, mean of {len(test.trials)} ({test.date.isoformat()}{how})"
            found.append((test.date.isoformat(), number, MeasuredContact(time, described)))
        if isinstance(test, VideoFramesTest) and test.take_off == athlete.take_off and test.run_up:
            kind = benchmarks.test_kinds["video-frames"]
            contacts = contacts_s(number, test, kind, notes)
            if contacts:
                single = math.hypot(single_se_of(kind), frame_se_s(test.frame_rate))
                time = mean_of_all(contacts, single_se=single)
                described = (
                    f"video at {test.frame_rate:g} frames a second, mean of {len(contacts)} ({test.date.isoformat()})"
                )
                found.append((test.date.isoformat(), number, MeasuredContact(time, described)))
    return max(found, key=lambda entry: entry[:2])[2] if found else None
