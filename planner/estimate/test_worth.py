"""What more testing is worth: the cheapest days and trials with which a deficit would be beyond its error."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from planner.domain.benchmarks import Benchmarks
from planner.domain.terms import Quality
from planner.domain.test_kinds import KindOfTest, TestingTime
from planner.estimate.qualities import Judgement, QualityResult
from planner.estimate.trials import day_se_of, days_and_trials_se, single_se_of


@dataclass(frozen=True)
class TestWorth:
    """A deficit that is not sure. ``days``, ``trials``: each day; 0 where no number of them would do.

    ``least_se``: of the deficit however often the test is repeated: what its curve and the target leave.
    """

    __test__ = False  # not a pytest class

    quality: Quality
    judged: Judgement
    days: int
    trials: int
    minutes: int
    least_se: float


def worth_of_tests(results: Mapping[Quality, QualityResult], benchmarks: Benchmarks) -> list[TestWorth]:
    """Of every counted test that finds too little without being sure of it: cheapest first, then what nothing settles.

    Nothing where the benchmarks do not say how long testing takes, or when a deficit is sure.
    """
    sure, time = benchmarks.emphasis.sure, benchmarks.retest.time
    if sure is None or time is None:
        return []
    found = [
        _cheapest(quality, judged, benchmarks, sure.errors, time)
        for quality, result in results.items()
        for judged in result.counted
        if benchmarks.emphasis.dead_zone < judged.deficit <= sure.errors * judged.deficit_se
    ]
    return sorted(found, key=lambda one: (not one.days, one.minutes, one.quality))


def _cheapest(
    quality: Quality, judged: Judgement, benchmarks: Benchmarks, errors: float, time: TestingTime
) -> TestWorth:
    kind = benchmarks.test_kinds[judged.reading.test.kind]
    ways = [(time.minutes(days, trials), days, trials) for days, trials in _ways(kind, time)]
    enough = [way for way in ways if judged.deficit > errors * deficit_se(judged, kind, way[1], way[2])]
    minutes, days, trials = min(enough, default=(0, 0, 0))
    return TestWorth(quality, judged, days, trials, minutes, _deficit_se(judged, 0.0))


def _ways(kind: KindOfTest, time: TestingTime) -> Iterator[tuple[int, int]]:
    """A test of one trial, such as a hard set, is one a day."""
    most = time.most_trials if kind.trials > 1 else 1
    return ((days, trials) for days in range(1, time.most_days + 1) for trials in range(1, most + 1))


def deficit_se(judged: Judgement, kind: KindOfTest, days: int, trials: int) -> float:
    """The deficit's error if the test had been taken on this many days with this many trials each."""
    single, day = single_se_of(kind), day_se_of(kind)
    one = days_and_trials_se(single_se=single, day_se=day, days=1, trials=1)
    share = days_and_trials_se(single_se=single, day_se=day, days=days, trials=trials) / one if one else 1.0
    return _deficit_se(judged, share)


def _deficit_se(judged: Judgement, share: float) -> float:
    """``share``: the test's own error as a share of that of one usual trial; its curve's and the target's stay."""
    reading = judged.reading
    usual = reading.usual_se / reading.have
    curve = max(reading.test.standard_error**2 - usual**2, 0.0)
    test_part = judged.test_part_se / judged.relative_se * math.sqrt(curve + (share * usual) ** 2)
    return math.hypot(test_part, judged.need_part_se)
