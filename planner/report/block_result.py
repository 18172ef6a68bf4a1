"""What came of a block: the target jump, every quality, what was done, and the row of what to do next."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.block import Block
from planner.domain.findings import Finding
from planner.domain.gap_record import RetestLine
from planner.domain.outcome_rule import OutcomeRule, Row
from planner.estimate.belief import Verdict
from planner.estimate.other_lifts import OtherLift
from planner.estimate.retest_change import NotCompared, QualityChange, Tested
from planner.estimate.uncertainty import Estimate
from planner.report.followed import Followed


@dataclass(frozen=True)
class JumpDaysChange:
    """The change over the whole block by the line through the jump days of the log. ``agrees``: with the tests."""

    change_m: Estimate
    days: int
    jumps: int
    agrees: bool


@dataclass(frozen=True)
class Outcome:
    """``verdict``: of the target jump, metres. ``strength``: of all lifts that tell a quality together, percent.

    ``followed`` and ``share_done`` (of the whole block, the lower of sets and contacts): None without a log.
    ``touch_m``: what a touch adds to a rise, None for jumps that are no touches. ``methods``: how the target jump was
    measured, in the words of the athlete's file.
    """

    block: Block
    athlete: Athlete
    test_day: datetime.date
    before: Tested
    after: Tested
    touch_m: float | None
    by_tests_m: Estimate
    by_days: JumpDaysChange | None
    verdict: Verdict
    qualities: tuple[QualityChange | NotCompared, ...]
    strength: Verdict | None
    other_lifts: tuple[OtherLift, ...]
    retest: RetestLine
    followed: Followed | None
    share_done: float | None
    sore: tuple[str, ...]
    methods: tuple[str, ...]
    row: Row
    rule: OutcomeRule
    warnings: tuple[Finding, ...]

    @property
    def little_done(self) -> bool:
        """By its log so little of the block was done that no gain is the block's to claim."""
        return self.share_done is not None and self.share_done < self.rule.least_done
