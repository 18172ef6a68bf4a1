"""Benchmarks: what the target's ground force asks of each quality, and how far each test can be trusted.

Everything in such a file is a coefficient a coach may argue with; every part carries its source or its standing.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Literal

from pydantic import Field, model_validator

from planner.domain.base import Coefficient, ContactTime, Distance, Drop, Fraction, Model, MovementId, Name, Seq, Text
from planner.domain.completeness import incomplete, out_of_sense, require_every_word
from planner.domain.emphasis_rule import ConfidenceRule, EmphasisRule
from planner.domain.fields import About, AsPrinted, FileKind, Id, PrintedName, Source
from planner.domain.measure import TestKind
from planner.domain.platform_rule import PlatformRule
from planner.domain.take_off_basis import TakeOffBasis, TouchDown
from planner.domain.terms import Level, Quality, TakeOffLegs
from planner.domain.test_kinds import Conversion, KindOfTest, LengthError, OutlookRule, RetestRule, SecondOpinions


class MassError(Model):
    standard_error_kg: float = Field(ge=0, le=10, description="Standard error, kg.")
    source: Source


class MeasurementErrors(Model):
    body_mass: MassError = Field(description="Error of the athlete's mass.")
    other_method: LengthError = Field(
        description="Added when the target's method is another one and no conversion is given."
    )


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

    def need(self, x: float) -> float:
        """What the target asks for at ``x`` body weights of mean ground force."""
        sloping = self.base + self.slope * (x - self.at)
        return self.plus + (sloping if self.cap is None else min(sloping, self.cap))


class LiftReading(Model):
    """How a lift gives a force: leg_share x (one-repetition maximum + body mass) x g."""

    movements: Seq[MovementId] = Field(min_length=1, description="Ids of the lifts that count as this test.")
    formula: Literal["mean", "epley", "brzycki"] = Field(
        description="From a set to a maximum: epley, brzycki, or the mean of both."
    )
    body_mass_share: Fraction = Field(
        description="Share of body mass counted in the load while the maximum is estimated: 1 where the body is most "
        "of the load, 0 for the bar of a squat."
    )
    leg_share: float = Field(default=1.0, gt=0, le=1, description="Share of the load on the leg that works.")


class SuggestTo(Model):
    """Who may be advised to do the test."""

    least_level: Level = Field(default="novice", description="From this level on the test may be advised.")
    landing_must_hold: bool = Field(
        default=False, description="true if it is advised only to those whose landing holds."
    )


class QualityTest(Model):
    """One way to test a quality."""

    id: Id[MovementId]
    name: AsPrinted
    kind: Literal["lift", "heel-raise", "isometric-calf", "drop-jump", "flying-sprint"] = Field(
        description="Which kind of result tells it."
    )
    sides: Literal["both", "each"] = Field(description="Both legs together, or each.")
    need_in: Literal["body-weights", "body-masses", "reps", "m/s"] = Field(
        description="body-weights becomes newtons, body-masses is a lift's maximum without the body as a share of "
        "body mass, the others stay in the test's own unit."
    )
    curves: dict[TakeOffLegs, Curve] = Field(description="What one-leg and two-leg take-offs ask of it.")
    standard_error: float = Field(
        gt=0,
        le=1,
        description="Relative: one usual trial and the curve together. More trials make it smaller, a slow camera or "
        "a guessed reserve larger.",
    )
    lift: LiftReading | None = Field(default=None, description="How a lift tells a force.")
    free_form_factor: Fraction | None = Field(
        default=None, description="What a heel raise without metronome and full height counts."
    )
    longest_contact: ContactTime | None = Field(
        default=None, description="A drop jump with a longer contact does not test fast force."
    )
    drop: Drop | None = Field(default=None, description="Height of the box that the curve is drawn for.")
    least_share_of_countermovement: Fraction | None = Field(
        default=None, description="A rebound below this share of the countermovement jump's rise is low."
    )
    split_from: Distance | None = Field(default=None, description="A split of a sprint from here on is near top speed.")
    suggest_to: SuggestTo = Field(default=SuggestTo(), description="Who may be advised to do it.")
    source: Source

    @model_validator(mode="after")
    def _complete(self) -> QualityTest:
        if self.kind == "lift" and self.lift is None:
            raise incomplete("lift", "lift: which movements, and how a set becomes a force")
        require_every_word(self, "curves")
        return self


class QualityBenchmark(Model):
    """The tests of one quality."""

    combine: Literal["first", "average"] = Field(
        description="first takes the first test that was done, average weighs them by confidence."
    )
    usual_sets: float = Field(
        ge=0, le=40, description="The quality's usual sets in a week, to weigh which missing test would help most."
    )
    tests: Seq[QualityTest] = Field(min_length=1, description="Its tests in order of preference.")


class LoadRepetition(Model):
    reps: int = Field(ge=1, le=30, description="Repetitions to failure.")
    percent: float = Field(ge=20, le=100, description="Percent of the one-repetition maximum that allows them.")


class StrengthRule(Model):
    """How a set becomes a maximum, and how far that errs."""

    most_reps: int = Field(
        ge=1, le=15, description="Most repetitions, done and in reserve together, that are believed."
    )
    reserve_error_reps: float = Field(ge=0, le=5, description="Error of a stated reserve, repetitions.")
    most_reserve: int = Field(ge=0, le=10, description="A reserve above this is a guess, with a note.")
    guessed_reserve_error_reps: float = Field(ge=0, le=8, description="Error of a guessed reserve, repetitions.")
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
                what = "the rows of 'load_repetitions' are out of order"
                raise out_of_sense(("load_repetitions",), what, "write more repetitions at a lower percentage")
        return self


class WeakerLegRule(Model):
    """When an extra set may be asked for one leg."""

    least_difference_percent: float = Field(
        ge=0,
        le=100,
        description="How far the weaker leg must fall short of the stronger one, beyond the error, percent.",
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
    weaker_leg: WeakerLegRule = Field(description="How much weaker a leg must be before it may get an extra set.")
    what_if: WhatIf = Field(description="Examples on the second page of the gap.")
    outlook: OutlookRule = Field(description="What a block may promise.")
    second_opinions: SecondOpinions = Field(description="Figures the trade also uses; none of them moves the block.")
    platform: PlatformRule = Field(description="How a force-platform record is read.")

    @model_validator(mode="after")
    def _complete(self) -> Benchmarks:
        require_every_word(self, "take_offs", "qualities")
        for quality, benchmark in self.qualities.items():
            for number, test in enumerate(benchmark.tests):
                for legs, curve in test.curves.items():
                    if curve.need(self.axis.low) <= 0:  # it only rises from there
                        at = ("qualities", quality, "tests", number, "curves", legs)
                        what = f"the curve asks for nothing at {self.axis.low:g} body weights"
                        raise out_of_sense(at, what, "raise its base, its cap or what it adds")
        return self
