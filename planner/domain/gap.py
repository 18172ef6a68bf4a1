"""The estimate's result as a block keeps it and ``jumpblock gap --json`` prints it."""

from __future__ import annotations

from typing import Literal

from planner.domain.base import Model, Seq
from planner.domain.terms import Quality, Side


class GapLine(Model):
    """The take-off at one height: now, at the target, or their difference."""

    rise_m: float
    take_off_speed_m_s: float
    net_impulse_Ns: float
    mean_net_force_N: float
    mean_ground_force_N: float
    mean_ground_force_bw: float
    rise_m_se: float
    take_off_speed_m_s_se: float
    net_impulse_Ns_se: float
    mean_net_force_N_se: float
    mean_ground_force_N_se: float
    mean_ground_force_bw_se: float


class QualityLine(Model):
    """One quality's have and need. ``have`` None: untested. ``deficit``: (need - have) / need; below 0 a surplus."""

    quality: Quality
    side: Side
    status: Literal["tested", "untested"]
    have: float | None
    need: float | None
    unit: str
    deficit: float
    confidence: float
    emphasis: float  # the tilt applied to the template's share; 1 leaves it
    source: str
    deficit_se: float | None = None
    emphasis_se: float | None = None
    counts: bool = True  # whether the emphasis follows it; else it is the other leg, or a second choice of test


class OutlookLine(Model):
    """What a block may add (m) by published gains, and how many blocks the gap may take; null: none, or too many."""

    low_m: float
    high_m: float
    blocks_low: int | None
    blocks_high: int | None


class RetestWayLine(Model):
    """The change of rise (m) that is more than noise between two tests of so many days with so many jumps each."""

    days: int
    jumps: int
    detectable_m: float


class RetestLine(Model):
    """The change of rise (m) that is more than noise between two tests like this one, and that is worth having."""

    minimal_detectable_change_m: float
    smallest_worthwhile_change_m: float
    ways: Seq[RetestWayLine] = ()


class TouchDownLine(Model):
    """Mean ground forces if the body still falls at touch-down (m/s, downwards); ``at_least``: if it does not.

    ``gap_per_tenth_N``: what 0.1 m/s of difference between now and the target does to the gap.
    """

    measured: bool
    slowest_m_s: float
    fastest_m_s: float
    now_at_least_N: float
    now_low_N: float
    now_high_N: float
    target_at_least_N: float
    target_low_N: float
    target_high_N: float
    gap_per_tenth_N: float


class HeightLine(Model):
    """A height as one test tells it, under its own definition."""

    test: str
    method: str
    rise_m: float
    rise_m_se: float
    counts: bool


class SideDifference(Model):
    """Left less right as a share of the larger, with its standard error; ``weaker`` only beyond the error."""

    test: str
    unit: str
    left: float
    right: float
    difference_percent: float
    error_percent: float
    weaker: Literal["left", "right"] | None
    quality: Quality | None = None  # the one that the test tells; None: several, or none that lifts train
    superseded: bool = False  # a later test of the same kind speaks now


class SecondOpinion(Model):
    """A figure that the trade also uses, its usual reading, and the caution that belongs to it."""

    name: str
    value: float
    unit: str
    says: str
    caution: str
    source: str


class Gap(Model):
    """The whole result of the estimate, in the block and in ``jumpblock gap --json``."""

    method: str
    contact_time_s: float
    contact_time_from: str
    push_off_m: float | None
    body_mass_kg: float
    inside_noise: bool
    now: GapLine
    target: GapLine
    gap: GapLine
    qualities: Seq[QualityLine]
    strength_share: float | None
    speed_share: float | None
    next_test: str | None
    story: Seq[str]
    notes: Seq[str]
    outlook: OutlookLine | None = None
    retest: RetestLine | None = None
    touch_down: TouchDownLine | None = None
    heights: Seq[HeightLine] = ()
    sides: Seq[SideDifference] = ()
    second_opinions: Seq[SecondOpinion] = ()
