"""Two tests of one kind, before and after a block, and the change seen between them; or why they cannot be compared."""

from __future__ import annotations

import datetime
import math
from collections.abc import Sequence
from dataclasses import dataclass

from planner.domain.benchmarks import Benchmarks
from planner.domain.outcome_rule import OutcomeRule
from planner.domain.terms import Quality
from planner.estimate.belief import Verdict, verdict_on
from planner.estimate.detectable_change import same_test, test_days
from planner.estimate.heights import Height
from planner.estimate.quality_readings import QualityReading
from planner.estimate.trials import mean_of_days
from planner.estimate.uncertainty import Estimate

READ_IN_METRES = ("touch", "given-rise")


@dataclass(frozen=True)
class Tested:
    """One jump before or after: rise in metres, by ``heights`` of one method on as many days, latest first."""

    heights: tuple[Height, ...]

    @property
    def rise_m(self) -> Estimate:
        return mean_of_days([one.rise_m for one in self.heights])

    @property
    def dates(self) -> tuple[datetime.date, ...]:
        return tuple(sorted(one.date for one in self.heights))

    @property
    def trials(self) -> int:
        return sum(one.trials for one in self.heights)

    @property
    def middle_day(self) -> float:
        return sum(day.toordinal() for day in self.dates) / len(self.dates)


@dataclass(frozen=True)
class QualityChange:
    """One test of a quality, before and after; ``verdict`` in percent of the result before."""

    quality: Quality
    before: QualityReading
    after: QualityReading
    verdict: Verdict


@dataclass(frozen=True)
class NotCompared:
    quality: Quality
    why: str


def tested_after(before: Height, heights: Sequence[Height], benchmarks: Benchmarks) -> Tested | None:
    """The latest of the heights that is the same test as ``before``, with the days near it."""
    same = [one for one in heights if same_test(one, before)]
    if not same:
        return None
    latest = max(same, key=lambda one: (one.date, one.number))
    return Tested(test_days(latest, heights, benchmarks.retest))


def reading_step_m(before: Tested, after: Tested, benchmarks: Benchmarks) -> float:
    """How far two readings of the change are apart at least, in metres; 0 for heights that are worked out from times.

    A tape is read to its marks. The middle of several trials also falls half-way between two, and days share a step.
    """
    kind = before.heights[0].kind
    if kind not in READ_IN_METRES:
        return 0.0
    step_m = benchmarks.test_kinds[kind].error.resolution
    fewest = [min(height.trials for height in one.heights) for one in (before, after)]
    return max(
        step_m / (len(one.heights) * min(2, trials)) for one, trials in zip((before, after), fewest, strict=True)
    )


def change_between(before: Estimate, after: Estimate) -> Estimate:
    return Estimate(after.value - before.value, math.hypot(before.se, after.se))


def quality_change(
    quality: Quality, before: QualityReading, found: Sequence[QualityReading], share: float, rule: OutcomeRule
) -> QualityChange | NotCompared:
    """``found``: readings after the block by the same benchmark test. ``share``: of a whole block's usual gain."""
    after = next((one for one in found if one.side == before.side), None)
    usual = next((one for one in rule.tests if one.kind == before.test.kind), None)
    if after is None:
        return NotCompared(quality, f"not tested again; repeat: {before.label}")
    if after.done_as != before.done_as:
        why = f"{before.done_as} before and {after.done_as} after are not one test; repeat {before.done_as}"
        return NotCompared(quality, why)
    if usual is None:
        return NotCompared(quality, f"the follow-up file has no usual gain for {before.test.kind}")
    ratio = after.have / before.have
    error = ratio * math.hypot(before.have_se / before.have, after.have_se / after.have)
    seen = Estimate(100 * (ratio - 1), 100 * error)
    expected = Estimate(share * usual.gain_percent, usual.spread_percent)
    return QualityChange(quality, before, after, verdict_on(seen, expected, usual.worth_having_percent, rule))


def strength_of(changes: Sequence[QualityChange], rule: OutcomeRule) -> Verdict | None:
    """All lifts together: the mean of their changes in percent; None where no lift was tested again."""
    lifts = [one.verdict for one in changes if one.before.test.kind == "lift"]
    if not lifts:
        return None
    error = math.sqrt(sum(one.seen.se**2 for one in lifts)) / len(lifts)
    seen = Estimate(sum(one.seen.value for one in lifts) / len(lifts), error)
    return verdict_on(seen, lifts[0].usual, lifts[0].worth, rule)
