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
    standard_error_kg: Annotated[float, Field(ge=0, le=10)]
    source: Text


class MeasurementErrors(Model):
    """Errors that belong to no kind of test.

    ``other_method``: added when the target's method is another one and no conversion is given.
    """

    body_mass: MassError
    other_method: LengthError


class HeelRise(Model):
    """What a touch gains over the flat-footed reach before the feet leave the ground.

    ``stand_in`` and its error count where no tip-toe reach was measured; else the measured one with
    ``measured_standard_error``.
    """

    stand_in: Distance
    standard_error: Distance
    measured_standard_error: Distance
    source: Text


class ContactStandIn(Model):
    value: ContactTime
    standard_error: ShortTime
    source: Text


class PushOffStandIn(Model):
    """Push-off distance of a jump from a stand, as a share of stature, with its standard error."""

    share_of_stature: Fraction
    standard_error: Distance
    source: Text


class TakeOffBasis(Model):
    """What is assumed of a one-leg or a two-leg take-off where it was not measured.

    ``axis_shift`` is added to the mean ground force (body weights, both legs together) before the curves are read.
    """

    heel_rise: HeelRise
    contact: ContactStandIn
    push_off: PushOffStandIn
    axis_shift: Coefficient
    axis_source: Text


class Axis(Model):
    """The range of the target's mean ground force, in body weights, over which the curves are offered."""

    low: Coefficient
    high: Coefficient
    source: Text


class Curve(Model):
    """need = plus + min(base + slope (x - at), cap); x is the mean ground force of the target in body weights."""

    at: Coefficient
    base: Coefficient
    slope: Annotated[float, Field(gt=0, le=100)]
    cap: Coefficient | None = None
    plus: Coefficient = 0.0


class LiftReading(Model):
    """How a lift tells a force: leg_share x (one-repetition maximum + body mass) x g.

    ``body_mass_share`` is the share of body mass counted in the load while the maximum is estimated (1 for lifts in
    which the body is most of the load, 0 for the bar of a squat).
    """

    movements: Annotated[Seq[MovementId], Field(min_length=1)]
    formula: Literal["mean", "epley", "brzycki"]
    body_mass_share: Fraction
    leg_share: Annotated[float, Field(gt=0, le=1)] = 1.0


class SuggestTo(Model):
    """Who may be advised to do the test."""

    least_level: Level = "novice"
    landing_must_hold: bool = False


class QualityTest(Model):
    """One way to test a quality.

    ``need_in``: ``body-weights`` makes newtons of the curve, the others stay in the test's own unit; ``body-masses`` is
    a lift's maximum, without the body, as a share of body mass. ``standard_error`` is relative: one usual trial and the
    curve together. More trials make the trial's part smaller, a slow camera or a guessed reserve makes it larger.
    """

    id: MovementId
    name: Name
    kind: Literal["lift", "heel-raise", "isometric-calf", "drop-jump", "flying-sprint"]
    sides: Literal["both", "each"]
    need_in: Literal["body-weights", "body-masses", "reps", "m/s"]
    curves: dict[TakeOffLegs, Curve]
    standard_error: Annotated[float, Field(gt=0, le=1)]
    lift: LiftReading | None = None
    # Heel raises of free form count this much; drop jumps with a longer contact are no test of fast force; a rebound
    # below this share of the countermovement jump's rise was stiff but low.
    free_form_factor: Fraction | None = None
    longest_contact: ContactTime | None = None
    drop: Drop | None = None  # the box height the curve is drawn for
    least_share_of_countermovement: Fraction | None = None
    split_from: Distance | None = None  # a split of a sprint that starts here or later is near top speed
    suggest_to: SuggestTo = SuggestTo()
    source: Text

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

    combine: Literal["first", "average"]
    usual_sets: Annotated[float, Field(ge=0, le=40)]
    tests: Annotated[Seq[QualityTest], Field(min_length=1)]


class ConfidenceRule(Model):
    """confidence = scatter^2 / (scatter^2 + standard error^2); shares of a gap count tests of ``least_for_shares``.

    In words a test is fairly sure from ``fairly_sure_from`` and half sure from ``half_sure_from``; below, a hint.
    """

    scatter: Annotated[float, Field(gt=0, le=1)]
    least_for_shares: Fraction
    half_sure_from: Fraction
    fairly_sure_from: Fraction
    noise_multiple: Annotated[float, Field(gt=0, le=5)]
    source: Text


class EmphasisRule(Model):
    """tilt = clamp(1 + gain x confidence x deficit), 1 inside the dead zone.

    Confidence x deficit of maximal strength below ``strong_and_sure`` means: strong enough, and sure of it.
    """

    gain: Annotated[float, Field(ge=0, le=20)]
    lift_range: Range
    speed_range: Range
    dead_zone: Fraction
    strong_and_sure: Coefficient
    source: Text


class LoadRepetition(Model):
    reps: Annotated[int, Field(ge=1, le=30)]
    percent: Annotated[float, Field(ge=20, le=100)]


class StrengthRule(Model):
    """From a set to a maximum: the most repetitions (done and in reserve) believed, the error of a stated reserve.

    A reserve above ``most_reserve`` is a guess: it errs by ``guessed_reserve_error_reps``, with a note. A set called to
    failure errs by ``failure_error_reps``.
    A lift that was not tested is advised with a load for ``hint_reps``.
    """

    most_reps: Annotated[int, Field(ge=1, le=15)]
    reserve_error_reps: Annotated[float, Field(ge=0, le=5)]
    most_reserve: Annotated[int, Field(ge=0, le=10)]
    guessed_reserve_error_reps: Annotated[float, Field(ge=0, le=8)]
    failure_error_reps: Annotated[float, Field(ge=0, le=5)] = 0.0
    hint_reps: Annotated[int, Field(ge=1, le=15)]
    source: Text
    load_repetitions: Annotated[Seq[LoadRepetition], Field(min_length=2)]
    load_repetitions_source: Text

    @model_validator(mode="after")
    def _falls(self) -> StrengthRule:
        rows = self.load_repetitions
        for first, second in pairwise(rows):
            if second.reps <= first.reps or second.percent >= first.percent:
                raise incomplete("load_repetitions", "rows in order: more repetitions at a lower percentage")
        return self


class WeakerLegRule(Model):
    """How far a leg falls short of the other, besides its error, before an extra set may be asked for it."""

    least_difference_percent: Annotated[float, Field(ge=0, le=100)]
    source: Text


class WhatIf(Model):
    """Examples for the gap's second page: other contact times and push-offs, and a fall at touch-down."""

    contact_steps_s: Annotated[Seq[Coefficient], Field(min_length=1, max_length=9)]
    push_off_steps_m: Annotated[Seq[Coefficient], Field(min_length=1, max_length=9)]
    touch_down_speed_m_s: Annotated[float, Field(ge=-3, le=0)]
    source: Text


class TouchDown(Model):
    """How fast the body usually falls as the foot lands off a run-up (m/s, downwards), where it was not measured.

    ``measured_standard_error_m_s``: of a speed that was measured.
    """

    slowest_m_s: Annotated[float, Field(ge=0, le=3)]
    fastest_m_s: Annotated[float, Field(ge=0, le=3)]
    measured_standard_error_m_s: Annotated[float, Field(ge=0, le=1)]
    source: Text

    @model_validator(mode="after")
    def _in_order(self) -> TouchDown:
        if self.fastest_m_s < self.slowest_m_s:
            raise incomplete("fastest_m_s", "a speed that is not below slowest_m_s")
        return self


class Benchmarks(Model):
    file: Literal["benchmarks/1"]
    id: MovementId
    name: Name
    about: Text
    source: Text
    errors: MeasurementErrors
    test_kinds: dict[TestKind, KindOfTest]  # a kind left out is read from the packaged file
    conversions: Seq[Conversion] = ()
    retest: RetestRule
    take_offs: dict[TakeOffLegs, TakeOffBasis]
    touch_down: TouchDown | None = None
    axis: Axis
    qualities: dict[Quality, QualityBenchmark]
    confidence: ConfidenceRule
    emphasis: EmphasisRule
    strength: StrengthRule
    weaker_leg: WeakerLegRule
    what_if: WhatIf
    outlook: OutlookRule
    second_opinions: SecondOpinions
    platform: PlatformRule

    @model_validator(mode="after")
    def _complete(self) -> Benchmarks:
        for legs in TAKE_OFF_LEGS:
            if legs not in self.take_offs:
                raise incomplete("take_offs", f"an entry for {legs}")
        for quality in QUALITIES:
            if quality not in self.qualities:
                raise incomplete("qualities", f"an entry for {quality}")
        return self
