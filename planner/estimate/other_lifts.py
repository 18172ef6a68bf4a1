"""Lifts tested before and after a block that count for no quality: what changed all the same."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planner.estimate.lifts import LiftMaximum, Maxima
from planner.estimate.retest_change import NotCompared, QualityChange
from planner.estimate.uncertainty import Estimate


@dataclass(frozen=True)
class OtherLift:
    """One lift by side. It is the same lift in both tests; ``seen``: the change of its maximum, in percent."""

    side: str
    before: LiftMaximum
    after: LiftMaximum

    @property
    def seen(self) -> Estimate:
        old, new = self.before.one_rm_kg, self.after.one_rm_kg
        ratio = new.value / old.value
        error = ratio * ((old.se / old.value) ** 2 + (new.se / new.value) ** 2) ** 0.5
        return Estimate(100 * (ratio - 1), 100 * error)


def other_lifts(
    before: Maxima, after: Maxima, compared: Sequence[QualityChange | NotCompared]
) -> tuple[OtherLift, ...]:
    """Lifts with a test on both sides of the block, without those that a quality is compared by."""
    counted = {
        (movement, one.before.side)
        for one in compared
        if isinstance(one, QualityChange) and one.before.test.lift is not None
        for movement in one.before.test.lift.movements
    }
    both = [key for key in before if key in after and key not in counted]
    return tuple(OtherLift(key[1], before[key], after[key]) for key in both if before[key].one_rm_kg.value > 0)
