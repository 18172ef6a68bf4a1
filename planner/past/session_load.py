"""Session load, effort x minutes, with its week's sum, monotony and strain: a record; no rule acts on it.

Monotony is the mean of the seven days' loads over their standard deviation, strain the week's sum times monotony. Both
usual spreads are given: over seven days (population) and over six (sample). For k equal days of seven the first is
sqrt(k / (7 - k)).
"""

from __future__ import annotations

import datetime
import statistics
from collections.abc import Sequence
from dataclasses import dataclass

from planner.past.done import DoneSession

DAYS = 7


@dataclass(frozen=True)
class WeekLoad:
    """Loads in arbitrary units (effort 0-10 times minutes). ``monotony``: None where all days are alike."""

    total: float
    monotony: float | None
    monotony_sample: float | None
    without_effort: int  # sessions done whose effort or minutes nobody wrote down

    @property
    def strain(self) -> float | None:
        return None if self.monotony is None else self.total * self.monotony


def week_load(done: Sequence[DoneSession], start: datetime.date) -> WeekLoad:
    """The week of seven days from ``start``."""
    days = [0.0] * DAYS
    unknown = 0
    for one in done:
        at = (one.date - start).days
        if not 0 <= at < DAYS or one.missed:
            continue
        if one.entry.effort is None or one.entry.minutes is None:
            unknown += 1
        else:
            days[at] += one.entry.effort * one.entry.minutes
    return WeekLoad(sum(days), monotony(days), monotony(days, sample=True), unknown)


def monotony(days: Sequence[float], *, sample: bool = False) -> float | None:
    """Mean over standard deviation of the days' loads; None where they are all alike."""
    spread = statistics.stdev(days) if sample else statistics.pstdev(days)
    return statistics.fmean(days) / spread if spread > 0 else None
