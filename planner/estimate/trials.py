"""From trials to one value without bias, whatever their number, and its error with a trial's and a day's part.

The mean of the best two rises with the number of trials, so that six jumps after three would look like progress. All
trials count here, as their median of pairwise means (Hodges & Lehmann 1963, Ann Math Stat 34:598): their mean for
one or two trials; for more nearly as exact as the mean, and one failed jump moves it less.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from itertools import combinations_with_replacement

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.test_kinds import KindOfTest
from planner.estimate.notebook import Notebook
from planner.estimate.uncertainty import Estimate, single_trial_se


def middle(trials: Sequence[float]) -> float:
    """Median of the means of all pairs, each trial paired with itself too."""
    return statistics.median((one + other) / 2.0 for one, other in combinations_with_replacement(trials, 2))


def middle_of(trials: Sequence[float], *, single_se: float, day_se: float = 0.0) -> Estimate:
    """All trials of one day; ``single_se`` and ``day_se`` in the unit of the trials."""
    return Estimate(middle(trials), days_and_trials_se(single_se=single_se, day_se=day_se, days=1, trials=len(trials)))


def trials_in_words(count: int) -> str:
    return f"mean of {count}" if count > 1 else "one trial"


def days_and_trials_se(*, single_se: float, day_se: float, days: int, trials: int) -> float:
    """Standard error of the mean of ``days`` days with ``trials`` trials each: sqrt(day^2 / k + trial^2 / (k n))."""
    return math.sqrt((day_se**2 + single_se**2 / trials) / days)


def mean_of_days(days: Sequence[Estimate]) -> Estimate:
    """Days weighted by 1 / SE^2: a day of one jump counts less than a day of six, yet never nothing."""
    weights = [1.0 / max(one.se, 1e-9) ** 2 for one in days]
    value = sum(weight * one.value for weight, one in zip(weights, days, strict=True)) / sum(weights)
    return Estimate(value, 1.0 / math.sqrt(sum(weights)))


def root_mean_square(errors: Sequence[float]) -> float:
    """The error of a usual one of several trials whose own errors differ."""
    return math.sqrt(sum(error**2 for error in errors) / len(errors))


def single_se_of(kind: KindOfTest) -> float:
    """Standard error of one trial within a day, in the kind's own unit (m, s, or a share)."""
    error = kind.error
    return single_trial_se(typical_error=error.typical_error, resolution=error.resolution)


def day_se_of(kind: KindOfTest) -> float:
    """Standard deviation of a day around the athlete's own mean, in the kind's own unit; 0 where the file has none."""
    return kind.error.day_error or 0.0


def note_days_alike(athlete: Athlete, benchmarks: Benchmarks, notes: Notebook) -> None:
    """Says for which of the athlete's tests nobody knows how one day differs from another."""
    kinds = [kind for kind in dict.fromkeys(test.kind for test in athlete.tests) if kind in benchmarks.test_kinds]
    lacking = [kind for kind in kinds if benchmarks.test_kinds[kind].error.day_error is None]
    if lacking:
        message = (
            f"the benchmarks have no day_error for {', '.join(lacking)}: one day counts as any other there, and the ± "
            "is too small"
        )
        notes.add("note", "no-day-error", message, hint="add day_error and day_source to that kind of test")
