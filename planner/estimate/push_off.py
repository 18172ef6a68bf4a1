"""The measured push-off distance of a standing jump, from force-platform records of the target's own take-off."""

from __future__ import annotations

from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.measure import ForcePlatformTest
from planner.estimate.trials import day_se_of, middle_of, single_se_of, trials_in_words
from planner.estimate.uncertainty import Estimate


@dataclass(frozen=True)
class MeasuredPushOff:
    """``described``: how and when it was measured, for the gap's page."""

    distance_m: Estimate
    described: str


def measured_push_off(athlete: Athlete, benchmarks: Benchmarks) -> MeasuredPushOff | None:
    """Mean of all trials of the latest countermovement jumps on a platform; None if none was measured.

    A trial's scatter is taken to be that of its height (common practice, no source: both come from one integration).
    """
    tests = [
        test
        for test in athlete.tests
        if isinstance(test, ForcePlatformTest)
        and test.jump == "countermovement"
        and test.take_off == athlete.take_off
        and any(trial.push_off is not None for trial in test.trials)
    ]
    if not tests:
        return None
    latest = max(reversed(tests), key=lambda test: test.date)
    distances = [trial.push_off for trial in latest.trials if trial.push_off is not None]
    kind = benchmarks.test_kinds["force-platform"]
    trials = trials_in_words(len(distances))
    described = f"push-off distance by force platform, {trials} ({latest.date.isoformat()})"
    return MeasuredPushOff(middle_of(distances, single_se=single_se_of(kind), day_se=day_se_of(kind)), described)
