"""Benchmarks: what a take-off of so many body weights asks of each quality, and how far each test is to be trusted.

Everything in such a file is a coefficient a coach may argue with; every part carries its source or its standing.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Literal, get_args

from pydantic import Field, model_validator

from planner.domain.base import (
    Coefficient,
    ContactTime,
    Distance,
    Drop,
    Fraction,
    Model,
    MovementId,
    Name,
    Seq,
    ShortTime,
    Text,
)
from planner.domain.fields import (
    About,
    AsPrinted,
    FastestFall,
    FileKind,
    Id,
    ItsError,
    ItsSource,
    PrintedName,
    SlowestFall,
    Source,
)
from planner.domain.measure import TestKind
from planner.domain.platform_rule import PlatformRule
from planner.domain.terms import QUALITIES, Level, Quality
from planner.domain.test_kinds import (
    Conversion,
    KindOfTest,
    LengthError,
    OutlookRule,
    RetestRule,
    SecondOpinions,
    incomplete,
)

TakeOffLegs = Literal["one-leg", "two-leg"]
TAKE_OFF_LEGS: tuple[TakeOffLegs, ...] = get_args(TakeOffLegs)
Range = Annotated[Seq[Annotated[float, Field(ge=0, le=100)]], Field(min_length=2, max_length=2)]


class MassError(Model):
    standard_error_kg: float = Field(ge=0, le=10, description="Standard error, kg.")
    source: Source


class MeasurementErrors(Model):
    """Errors that belong to no kind of test.

    ``other_method``: added when the target's method is another one and no conversion is given.
    """

    body_mass: MassError = Field(description="Error of the athlete's mass.")
    other_method: LengthError = Field(
        description="Added when the target's method is another one and no conversion is given."
    )


class HeelRise(Model):
    """What a touch gains over the flat-footed reach before the feet leave the ground.

    ``stand_in`` and its error count where no tip-toe reach was measured; else the measured one with
    ``measured_standard_error``.
    """

    stand_in: Distance = Field(description="Heel rise where no tip-toe reach was measured.")
    standard_error: Distance = Field(description="Standard error of that stand-in.")
    measured_standard_error: Distance = Field(description="Standard error where it was measured.")
    source: Source


class ContactStandIn(Model):
    value: ContactTime = Field(description="Contact time where none was measured.")
    standard_error: ItsError[ShortTime]
    source: Source


class PushOffStandIn(Model):
    """Push-off distance of a jump from a stand, as a share of stature, with its standard error."""

    share_of_stature: Fraction = Field(description="Push-off distance as a share of stature.")
    standard_error: Distance = Field(description="Standard error of the distance.")
    source: Source


class TakeOffBasis(Model):
    """What is assumed of a one-leg or a two-leg take-off where it was not measured.

    ``axis_shift`` is added to the mean ground force (body weights, both legs together) before the curves are read.
    """

    heel_rise: HeelRise = Field(description="What a touch gains before the feet leave the ground.")
    contact: ContactStandIn = Field(description="Ground contact of a run-up jump.")
    push_off: PushOffStandIn = Field(description="Push-off distance of a jump from a stand.")
    axis_shift: Coefficient = Field(
        description="Added to the mean ground force, in body weights, before the curves are read."
    )
    axis_source: ItsSource[Text]


class Axis(Model):
    """The range of the target's mean ground force, in body weights, over which the curves are offered."""

    low: Coefficient = Field(description="Least mean ground force, body weights; below it the curves are read here.")
    high: Coefficient = Field(description="Largest mean ground force, body weights; above it the curves are read here.")
    source: Source


class Curve(Model):
    """need = plus + min(base + slope (x - at), cap); x is the mean ground force of the target in body weights."""

    at: Coefficient = Field(description="Mean ground force, body weights, at which the base holds.")
    base: Coefficient = Field(description="What is needed there.")
    slope: float = Field(gt=0, le=100, description="How much more for each body weight of ground force.")
    cap: Coefficient | None = Field(default=None, description="No more than this is needed of the sloping part.")
    plus: Coefficient = Field(default=0.0, description="Added at the end; 1 where the body is lifted along.")


class LiftReading(Model):
    """How a lift tells a force: leg_share x (one-repetition maximum + body mass) x g.

    ``body_mass_share`` is the share of body mass counted in the load while the maximum is estimated (1 for lifts in
    which the body is most of the load, 0 for the bar of a squat).
    """

    movements: Seq[MovementId] = Field(min_length=1, description="Ids of the lifts that count as this test.")
    formula: Literal["mean", "epley", "brzycki"] = Field(
        description="From a set to a maximum: epley, brzycki, or the mean of both."
    )
    body_mass_share: Fraction = Field(
        description="Share of body mass counted in the load while the maximum is estimated."
    )
    leg_share: float = Field(default=1.0, gt=0, le=1, description="Share of the load on the leg that works.")


class SuggestTo(Model):
    """Who may be advised to do the test."""

    least_level: Level = Field(default="novice", description="From this level on the test may be advised.")
    landing_must_hold: bool = Field(
        default=False, description="true if it is advised only to those whose landing holds."
    )


class QualityTest(Model):
    """One way to test a quality.

    ``need_in``: ``body-weights`` makes newtons of the curve, the others stay in the test's own unit; ``body-masses`` is
    a lift's maximum, without the body, as a share of body mass. ``standard_error`` is relative: one usual trial and the
    curve together. More trials make the trial's part smaller, a slow camera or a guessed reserve makes it larger.
    """

    id: Id[MovementId]
    name: AsPrinted
    kind: Literal["lift", "heel-raise", "isometric-calf", "drop-jump", "flying-sprint"] = Field(
        description="Which kind of result tells it."
    )
    sides: Literal["both", "each"] = Field(description="Both legs together, or each.")
    need_in: Literal["body-weights", "body-masses", "reps", "m/s"] = Field(
        description="body-weights becomes newtons; the others stay in the test's own unit."
    )
    curves: dict[TakeOffLegs, Curve] = Field(description="What one-leg and two-leg take-offs ask of it.")
    standard_error: float = Field(gt=0, le=1, description="Relative: one usual trial and the curve together.")
    lift: LiftReading | None = Field(default=None, description="How a lift tells a force.")
    free_form_factor: Fraction | None = Field(
        default=None, description="Heel raises without beat and full height count this much."
    )
    longest_contact: ContactTime | None = Field(default=None, description="A longer contact is no test of fast force.")
    drop: Drop | None = Field(default=None, description="Height of the box that the curve is drawn for.")
    least_share_of_countermovement: Fraction | None = Field(
        default=None, description="A rebound below this share of the jump with a dip was stiff but low."
    )
    split_from: Distance | None = Field(default=None, description="A split of a sprint from here on is near top speed.")
    suggest_to: SuggestTo = Field(default=SuggestTo(), description="Who may be advised to do it.")
    source: Source

    @model_validator(mode="after")
    def _complete(self) -> QualityTest:
        if self.kind == "lift" and self.lift is None:
            raise incomplete("lift", "lift: which movements, and how a set becomes a force")
        for legs in TAKE_OFF_LEGS:
            if legs not in self.curves:
                raise incomplete("curves", f"a curve for {legs} take-offs")
        return self


class QualityBenchmark(Model):
    """The tests of one quality in order of preference.

    ``combine``: ``first`` takes the first test that was done, ``average`` averages them weighted by confidence.
    ``usual_sets`` weighs which missing test would help most: the quality's usual share of a week.
    """

    combine: Literal["first", "average"] = Field(
        description="first takes the first test that was done, average weighs them by confidence."
    )
    usual_sets: float = Field(
        ge=0, le=40, description="Usual share of a week, to weigh which missing test would help most."
    )
    tests: Seq[QualityTest] = Field(min_length=1, description="Its tests in order of preference.")


class ConfidenceRule(Model):
    """confidence = scatter^2 / (scatter^2 + standard error^2); shares of a gap count tests of ``least_for_shares``.

    In words a test is fairly sure from ``fairly_sure_from`` and half sure from ``half_sure_from``; below, a hint.
    """

    scatter: float = Field(
        gt=0, le=1, description="How far deficits scatter from athlete to athlete; a test is trusted against that."
    )
    least_for_shares: Fraction = Field(description="Tests less sure than this do not share out the gap.")
    half_sure_from: Fraction = Field(description="A test this sure reads as half sure, below it as a hint.")
    fairly_sure_from: Fraction = Field(description="A test this sure reads as fairly sure.")
    noise_multiple: float = Field(gt=0, le=5, description="A gap below so many standard errors is inside the noise.")
    source: Source


class EmphasisRule(Model):
    """tilt = clamp(1 + gain x confidence x deficit), 1 inside the dead zone.

    Confidence x deficit of maximal strength below ``strong_and_sure`` means: strong enough, and sure of it.
    """

    gain: float = Field(ge=0, le=20, description="How strongly a deficit tilts the work.")
    lift_range: Range = Field(description="Least and most that the tilt makes of a lift's share.")
    speed_range: Range = Field(description="The same for speed.")
    dead_zone: Fraction = Field(description="A tilt smaller than this is none.")
    strong_and_sure: Coefficient = Field(
        description="Confidence times deficit of maximal strength below which it is kept at maintenance."
    )
    source: Source


class LoadRepetition(Model):
    reps: int = Field(ge=1, le=30, description="Repetitions to the limit.")
    percent: float = Field(ge=20, le=100, description="Percent of the one-repetition maximum that allows them.")


class StrengthRule(Model):
    """From a set to a maximum: the most repetitions (done and in reserve) believed, the error of a stated reserve.

    A reserve above ``most_reserve`` is a guess: it errs by ``guessed_reserve_error_reps``, with a note. A set called to
    failure errs by ``failure_error_reps``.
    A lift that was not tested is advised with a load for ``hint_reps``.
    """

    most_reps: int = Field(
        ge=1, le=15, description="Most repetitions, done and in reserve together, that are believed."
    )
    reserve_error_reps: float = Field(ge=0, le=5, description="Error of a stated reserve, repetitions.")
    most_reserve: int = Field(ge=0, le=10, description="A reserve above this is a guess.")
    guessed_reserve_error_reps: float = Field(ge=0, le=8, description="Error of such a guess, repetitions.")
    failure_error_reps: float = Field(
        default=0.0, ge=0, le=5, description="Error of a set called to failure, repetitions."
    )
    hint_reps: int = Field(
        ge=1, le=15, description="Repetitions of the set that is advised where a lift was not tested."
    )
    source: Source
    load_repetitions: Seq[LoadRepetition] = Field(
        min_length=2, description="Percent of the maximum for each number of repetitions."
    )
    load_repetitions_source: Text = Field(description="Where that table comes from.")

    @model_validator(mode="after")
    def _falls(self) -> StrengthRule:
        rows = self.load_repetitions
        for first, second in pairwise(rows):
            if second.reps <= first.reps or second.percent >= first.percent:
                raise incomplete("load_repetitions", "rows in order: more repetitions at a lower percentage")
        return self


class WeakerLegRule(Model):
    """How far a leg falls short of the other, besides its error, before an extra set may be asked for it."""

    least_difference_percent: float = Field(
        ge=0, le=100, description="Least difference of the legs, as a share of the stronger one."
    )
    source: Source


class WhatIf(Model):
    """Examples for the gap's second page: other contact times and push-offs, and a fall at touch-down."""

    contact_steps_s: Seq[Coefficient] = Field(
        min_length=1, max_length=9, description="Contact times shown, as steps from the measured one, seconds."
    )
    push_off_steps_m: Seq[Coefficient] = Field(
        min_length=1, max_length=9, description="Push-off distances shown, as steps from the measured one, metres."
    )
    touch_down_speed_m_s: float = Field(
        ge=-3,
        le=0,
        description="Vertical speed at touch-down in the example of a fall, metres a second; below 0 is down.",
    )
    source: Source


class TouchDown(Model):
    """How fast the body usually falls as the foot lands off a run-up (m/s, downwards), where it was not measured.

    ``measured_standard_error_m_s``: of a speed that was measured.
    """

    slowest_m_s: SlowestFall[Annotated[float, Field(ge=0, le=3)]]
    fastest_m_s: FastestFall[Annotated[float, Field(ge=0, le=3)]]
    measured_standard_error_m_s: float = Field(ge=0, le=1, description="Standard error of a speed that was measured.")
    source: Source

    @model_validator(mode="after")
    def _in_order(self) -> TouchDown:
        if self.fastest_m_s < self.slowest_m_s:
            raise incomplete("fastest_m_s", "a speed that is not below slowest_m_s")
        return self


class Benchmarks(Model):
    file: FileKind[Literal["benchmarks/1"]]
    id: Id[MovementId]
    name: PrintedName[Name]
    about: About[Text]
    source: Source
    errors: MeasurementErrors = Field(description="Errors that belong to no kind of test.")
    # A kind left out is read from the packaged file.
    test_kinds: dict[TestKind, KindOfTest] = Field(
        description="The kinds of test: how each is taken and how far one trial errs."
    )
    conversions: Seq[Conversion] = Field(default=(), description="From a height by one method to that by another.")
    retest: RetestRule = Field(description="When a change is real, and when it is worth having.")
    take_offs: dict[TakeOffLegs, TakeOffBasis] = Field(
        description="What is assumed of a one-leg and of a two-leg take-off where it was not measured."
    )
    touch_down: TouchDown | None = Field(
        default=None,
        description="How fast the body still falls as the foot lands off a run-up, where it was not measured.",
    )
    axis: Axis = Field(description="The ground forces, in body weights, between which the curves hold.")
    qualities: dict[Quality, QualityBenchmark] = Field(
        description="The tests of each quality and what the target asks of them."
    )
    confidence: ConfidenceRule = Field(description="How far a deficit is believed.")
    emphasis: EmphasisRule = Field(description="How deficits tilt the work.")
    strength: StrengthRule = Field(description="From a set to a maximum.")
    weaker_leg: WeakerLegRule = Field(description="When an extra set may be asked for one leg.")
    what_if: WhatIf = Field(description="Examples on the second page of the gap.")
    outlook: OutlookRule = Field(description="What a block may promise.")
    second_opinions: SecondOpinions = Field(description="Figures the trade also uses; none of them moves the block.")
    platform: PlatformRule = Field(description="How a force-platform record is read.")

    @model_validator(mode="after")
    def _complete(self) -> Benchmarks:
        for legs in TAKE_OFF_LEGS:
            if legs not in self.take_offs:
                raise incomplete("take_offs", f"an entry for {legs}")
        for quality in QUALITIES:
            if quality not in self.qualities:
                raise incomplete("qualities", f"an entry for {quality}")
        return self
