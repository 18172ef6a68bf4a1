"""The estimate's result as a block keeps it and ``jumpblock gap --json`` prints it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import Model, Seq
from planner.domain.fields import (
    FastestFall,
    FigureUnit,
    Have,
    HowMeasured,
    InBodyWeights,
    ItsError,
    JumpsADay,
    Need,
    OnSide,
    PrintedName,
    SlowestFall,
    SourceLine,
    TestDays,
)
from planner.domain.terms import Quality, Side

Detectable = Annotated[float, Field(description="Smaller changes may be chance, metres.")]
AtLeastSpeed = Annotated[float, Field(description="The same at the least speed.")]
AtMostSpeed = Annotated[float, Field(description="The same at the most speed.")]
WhichTest = Annotated[str, Field(description="Which test.")]


class GapLine(Model):
    """The take-off at one height: now, at the target, or their difference."""

    rise_m: float = Field(description="Rise after take-off, metres.")
    take_off_speed_m_s: float = Field(description="Speed at take-off, metres a second.")
    net_impulse_Ns: float = Field(description="Impulse above body weight, newton seconds.")
    mean_net_force_N: float = Field(description="Mean force above body weight, newtons.")
    mean_ground_force_N: float = Field(description="Mean force on the ground, newtons.")
    mean_ground_force_bw: InBodyWeights[float]
    rise_m_se: float = Field(description="Standard error of the rise.")
    take_off_speed_m_s_se: float = Field(description="Standard error of the speed.")
    net_impulse_Ns_se: float = Field(description="Standard error of the impulse.")
    mean_net_force_N_se: float = Field(description="Standard error of the net force.")
    mean_ground_force_N_se: float = Field(description="Standard error of the ground force.")
    mean_ground_force_bw_se: float = Field(description="Standard error of the ground force in body weights.")


class QualityLine(Model):
    """What one quality has and needs."""

    quality: Quality = Field(description="Which quality.")
    side: OnSide[Side]
    status: Literal["tested", "untested"] = Field(description="Tested or untested.")
    have: Have[float | None]
    need: Need[float | None]
    unit: FigureUnit
    deficit: float = Field(description="What is missing, as a share of the need; below 0 a surplus.")
    confidence: float = Field(description="How sure that is, 0 to 1.")
    emphasis: float = Field(description="Factor on the template's share; 1 leaves it.")
    source: SourceLine
    deficit_se: float | None = Field(default=None, description="Standard error of the deficit.")
    emphasis_se: float | None = Field(default=None, description="Standard error of the factor.")
    counts: bool = Field(
        default=True,
        description="Whether the emphasis follows this test; else it is the other leg, or a second choice of test.",
    )


class OutlookLine(Model):
    """What a block may add (m) by published gains, and how many blocks the gap may take; null: none, or too many."""

    low_m: float = Field(description="Least gain by published figures, metres.")
    high_m: float = Field(description="Largest gain by published figures, metres.")
    blocks_low: int | None = Field(description="Fewest blocks the gap may take.")
    blocks_high: int | None = Field(description="Most blocks the gap may take.")


class RetestWayLine(Model):
    """The change of rise that is more than noise, with other numbers of test days and jumps."""

    days: TestDays[int]
    jumps: JumpsADay[int]
    detectable_m: Detectable


class RetestLine(Model):
    """The change of rise (m) that is more than noise between two tests like this one, and that is worth having."""

    minimal_detectable_change_m: Detectable
    smallest_worthwhile_change_m: float = Field(description="Smaller changes are not worth having, metres.")
    ways: Seq[RetestWayLine] = Field(default=(), description="The same for other numbers of days and jumps.")


class TouchDownLine(Model):
    """Mean ground forces if the body still falls at touch-down."""

    measured: bool = Field(description="true if the speed was measured, else a usual range.")
    slowest_m_s: SlowestFall[float]
    fastest_m_s: FastestFall[float]
    now_at_least_N: float = Field(description="Mean ground force now if the body does not fall, newtons.")
    now_low_N: AtLeastSpeed
    now_high_N: AtMostSpeed
    target_at_least_N: float = Field(description="Mean ground force at the target if the body does not fall, newtons.")
    target_low_N: AtLeastSpeed
    target_high_N: AtMostSpeed
    gap_per_tenth_N: float = Field(
        description="What 0.1 m/s of difference between now and the target does to the gap, newtons."
    )


class HeightLine(Model):
    """A height as one test tells it, under its own definition."""

    test: WhichTest
    method: HowMeasured[str]
    rise_m: float = Field(description="Rise it tells, metres.")
    rise_m_se: ItsError[float]
    counts: bool = Field(description="true if the estimate rests on it.")


class SideDifference(Model):
    """Left against right."""

    test: WhichTest
    unit: FigureUnit
    left: float = Field(description="Result of the left leg.")
    right: float = Field(description="Result of the right leg.")
    difference_percent: float = Field(description="Left less right, percent of the larger.")
    error_percent: float = Field(description="Standard error of that, percent.")
    weaker: Literal["left", "right"] | None = Field(
        description="The weaker leg; null where the difference is inside the error."
    )
    quality: Quality | None = Field(
        default=None,
        description="The quality that the test tells; null where it tells several, or none that lifts train.",
    )
    superseded: bool = Field(default=False, description="true where a later test of the same kind replaces it.")


class SecondOpinion(Model):
    """A figure that the trade also uses, its usual reading, and the caution that belongs to it."""

    name: PrintedName[str]
    value: float = Field(description="The figure.")
    unit: FigureUnit
    says: str = Field(description="How the trade reads it.")
    caution: str = Field(description="What to watch.")
    source: SourceLine


class Gap(Model):
    """The whole result of the estimate, in the block and in ``jumpblock gap --json``."""

    method: str = Field(description="How the height was measured.")
    contact_time_s: float = Field(description="Ground contact of the take-off, seconds.")
    contact_time_from: str = Field(description="Measured, or an estimate.")
    push_off_m: float | None = Field(description="Push-off distance of a jump from a stand, metres.")
    body_mass_kg: float = Field(description="Body mass, kg.")
    inside_noise: bool = Field(description="true if the gap is too small to measure.")
    now: GapLine = Field(description="The take-off now.")
    target: GapLine = Field(description="The take-off at the target.")
    gap: GapLine = Field(description="Their difference.")
    qualities: Seq[QualityLine] = Field(description="Have, need and deficit of each quality.")
    strength_share: float | None = Field(description="Share of the gap that strength explains.")
    speed_share: float | None = Field(description="Share of the gap that speed explains.")
    next_test: str | None = Field(description="The test that would tell most.")
    story: Seq[str] = Field(description="The estimate in sentences.")
    notes: Seq[str] = Field(description="What to watch about it.")
    outlook: OutlookLine | None = Field(default=None, description="What a block may add.")
    retest: RetestLine | None = Field(default=None, description="When a change is real.")
    touch_down: TouchDownLine | None = Field(
        default=None, description="Forces if the body still falls as the foot lands."
    )
    heights: Seq[HeightLine] = Field(default=(), description="Every test that tells the height.")
    sides: Seq[SideDifference] = Field(default=(), description="Every test of both legs.")
    second_opinions: Seq[SecondOpinion] = Field(
        default=(), description="Figures the trade also uses; none moves the block."
    )
