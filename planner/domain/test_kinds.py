"""The kinds of test in a benchmarks file: how each is taken, what it measures, and how far one trial errs."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, model_validator

from planner.domain.base import Distance, Fraction, FrameRate, Model, Name, Seq, ShortTime, T, Text
from planner.domain.completeness import out_of_sense
from planner.domain.fields import AsPrinted, ItsSource, JumpsADay, Source, TestDays
from planner.domain.terms import HeightMethod

__test__ = False  # not a pytest module


TypicalError = Annotated[T, Field(description="One standard deviation of one trial.")]
DayError = Annotated[
    T,
    Field(description="One standard deviation of a day around the athlete's own mean; left out, days count as alike."),
]


class LengthError(Model):
    """How a length test errs."""

    resolution: Distance = Field(description="Step of the scale.")
    typical_error: TypicalError[Distance]
    source: Source
    day_error: DayError[Distance | None] = None
    day_source: ItsSource[Text | None] = None


class TimeError(Model):
    """How a time test errs."""

    resolution: ShortTime = Field(description="Step of the clock.")
    typical_error: TypicalError[ShortTime]
    source: Source
    day_error: DayError[ShortTime | None] = None
    day_source: ItsSource[Text | None] = None


class ShareError(Model):
    """How a test errs as a share of its result."""

    resolution: Fraction = Field(description="Step of the scale, as a share.")
    typical_error: Fraction = Field(description="One standard deviation of one trial, as a share.")
    source: Source
    day_error: DayError[Fraction | None] = None
    day_source: ItsSource[Text | None] = None


class KindOfTest(Model):
    """One kind of test. Exactly one of the three errors is given."""

    name: AsPrinted
    measures: Text = Field(description="What it measures.")
    method: Text = Field(description="How it is taken.")
    trials: int = Field(ge=1, le=12, description="How many trials a test day usually counts.")
    length_error: LengthError | None = Field(
        default=None, description="How it errs as a length; give one of the three."
    )
    time_error: TimeError | None = Field(default=None, description="How it errs as a time; give one of the three.")
    share_error: ShareError | None = Field(
        default=None, description="How it errs as a share of its result; give one of the three."
    )
    refuse_contact_under: FrameRate | None = Field(
        default=None, description="A video slower than this gives no contact time."
    )
    warn_contact_under: FrameRate | None = Field(
        default=None, description="A video slower than this gives one, with a warning."
    )
    refuse_speed_over_m_s: Annotated[float, Field(gt=0, le=40)] | None = Field(
        default=None, description="A faster sprint is not believed, metres a second."
    )

    @model_validator(mode="after")
    def _one_error(self) -> KindOfTest:
        if sum(one is not None for one in (self.length_error, self.time_error, self.share_error)) != 1:
            hint = "write exactly one of length_error, time_error and share_error"
            raise out_of_sense(("length_error",), "a kind of test has one error", hint)
        return self

    @property
    def error(self) -> LengthError | TimeError | ShareError:
        """The one that is given."""
        error = self.length_error or self.time_error or self.share_error
        assert error is not None
        return error


class Conversion(Model):
    """From a height by one method to the same jump's height by another."""

    measured_by: HeightMethod = Field(description="Method of the height that was measured.")
    wanted_by: HeightMethod = Field(description="Method of the height wanted.")
    add_cm: float = Field(ge=-50, le=50, description="Added to it, cm.")
    standard_error_cm: float = Field(ge=0, le=50, description="Standard error of that, cm.")
    source: Source


class RetestDays(Model):
    """A way to test: on that many days, that many jumps each."""

    days: TestDays[Annotated[int, Field(ge=1, le=14)]]
    jumps: JumpsADay[Annotated[int, Field(ge=1, le=12)]]


class TestingTime(Model):
    """What testing costs, so that the cheapest way to be sure can be named."""

    __test__ = False  # not a pytest class

    day_minutes: int = Field(ge=0, le=120, description="Of a test on a day: warm-up and setting up.")
    trial_minutes: int = Field(ge=0, le=60, description="Of each trial, with its rest.")
    most_days: int = Field(ge=1, le=7, description="More days than this are not asked of anybody.")
    most_trials: int = Field(ge=1, le=12, description="Likewise trials a day.")
    source: Source

    def minutes(self, days: int, trials: int) -> int:
        return days * (self.day_minutes + trials * self.trial_minutes)


class RetestRule(Model):
    """When a change is real (Weir 2005, JSCR 19:231) and when it is worth having (Hopkins 2000)."""

    together_days: int = Field(
        default=0, ge=0, le=60, description="Test days this near to the latest are one test; 0: only the latest counts."
    )
    together_errors: float = Field(
        default=3.0,
        gt=0,
        le=10,
        description="A day further off than this, in standard errors of both, is a change and is left out.",
    )
    time: TestingTime | None = Field(default=None, description="What testing costs, to name the cheapest way.")
    ways: Seq[RetestDays] = Field(default=(), description="Numbers of days and jumps that a retest is advised with.")
    multiple: float = Field(
        gt=0,
        le=5,
        description="Times the root of 2 and the standard error of a test day: the least change that is real.",
    )
    worthwhile_share: float = Field(
        gt=0, le=2, description="Share of the spread between athletes: the least change worth having."
    )
    between_athletes: Distance = Field(description="Standard deviation of height between athletes.")
    between_athletes_source: ItsSource[Text]
    source: Source


class Gain(Model):
    """A published gain of one block in one kind of jump, as a share of the jump's height."""

    jump: Name = Field(description="Which jump was trained and tested.")
    percent: float = Field(ge=0, le=50, description="Gain in height, percent.")
    source: Source


class TrainedYears(Model):
    """What years of training leave of the published gains."""

    up_to_years: Annotated[float, Field(gt=0, le=60)] | None = Field(
        default=None, description="Up to this many years of regular training; the last step has none."
    )
    share: Annotated[float, Field(gt=0, le=1)] = Field(description="Share of the published gains to expect.")


class OutlookRule(Model):
    """What a block may promise; more is never promised."""

    gains: Seq[Gain] = Field(
        min_length=2, description="Published gains; a block promises from the smallest to the largest."
    )
    by_training_years: Seq[TrainedYears] = Field(
        default=(), description="What years of training leave of the gains, fewest years first; left out, all of them."
    )
    most_blocks: int = Field(ge=1, le=40, description="A gap of more blocks than this needs a nearer target first.")
    source: Source


class IndexStep(Model):
    """A band of a ratio."""

    below: Annotated[float, Field(ge=0, le=100)] | None = Field(
        default=None, description="Up to this figure; the last step has none."
    )
    says: Text = Field(description="How it is read.")


class RatioRule(Model):
    """A ratio that is shown as a second opinion, its usual reading, and the caution that is printed with it."""

    steps: Seq[IndexStep] = Field(min_length=1, description="How the figure is read, lowest first.")
    caution: Text = Field(description="Printed with it.")
    source: Source


class ProfileRule(Model):
    """A force-velocity profile from loaded jumps: how many loads it needs, how its imbalance is read."""

    least_loads: int = Field(ge=2, le=12, description="Fewest loads.")
    least_spread_m_s: float = Field(
        ge=0, le=5, description="Least difference of speed between the lightest and the heaviest, metres a second."
    )
    imbalance: RatioRule = Field(description="How its imbalance is read.")


class SecondOpinions(Model):
    """How each second opinion is read, and what a profile needs."""

    dynamic_strength: RatioRule = Field(description="Peak force of a jump against that of a push at a fixed bar.")
    stretch_shortening: RatioRule = Field(description="Jump with a dip against the jump without.")
    profile: ProfileRule = Field(description="Force against speed over several loads.")
