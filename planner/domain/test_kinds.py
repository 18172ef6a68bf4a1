"""The kinds of test in a benchmarks file: how each is taken, what it measures, and how far one trial errs."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from planner.domain.base import Distance, Fraction, FrameRate, Model, Name, Seq, ShortTime, Text
from planner.domain.terms import HeightMethod

__test__ = False  # not a pytest module


def incomplete(field: str, what: str) -> PydanticCustomError:
    """Worded as the file floor words a quantity: what is wrong; what to write."""
    reason = f"'{field}' is not complete; add {what}"
    return PydanticCustomError("incomplete", "{reason}", {"reason": reason, "at": (field,)})


class LengthError(Model):
    """How a length test errs: its scale's step, the typical error of one trial within a day, and that of a day.

    All are one standard deviation. ``day_error`` None: not known, and days then count as alike.
    """

    resolution: Distance
    typical_error: Distance
    source: Text
    day_error: Distance | None = None
    day_source: Text | None = None


class TimeError(Model):
    """How a time test errs: its clock's step, and the typical error of one trial (one standard deviation)."""

    resolution: ShortTime
    typical_error: ShortTime
    source: Text
    day_error: ShortTime | None = None
    day_source: Text | None = None


class ShareError(Model):
    """How a test errs as a share of its result: the step of its scale, and the typical error of one trial."""

    resolution: Fraction
    typical_error: Fraction
    source: Text
    day_error: Fraction | None = None
    day_source: Text | None = None


class KindOfTest(Model):
    """One kind of test. Exactly one of the three errors is given; ``trials`` are how many a test day usually counts.

    For videos, the frame rates under which a contact is refused and under which it is used with a warning; for sprints,
    the speed that nobody is believed to run.
    """

    name: Name
    measures: Text
    method: Text
    trials: Annotated[int, Field(ge=1, le=12)]
    length_error: LengthError | None = None
    time_error: TimeError | None = None
    share_error: ShareError | None = None
    refuse_contact_under: FrameRate | None = None
    warn_contact_under: FrameRate | None = None
    refuse_speed_over_m_s: Annotated[float, Field(gt=0, le=40)] | None = None

    @model_validator(mode="after")
    def _one_error(self) -> KindOfTest:
        if len([one for one in (self.length_error, self.time_error, self.share_error) if one is not None]) != 1:
            raise incomplete("length_error", "exactly one of length_error, time_error and share_error")
        return self

    @property
    def error(self) -> LengthError | TimeError | ShareError:
        """The one that is given."""
        error = self.length_error or self.time_error or self.share_error
        assert error is not None
        return error


class Conversion(Model):
    """From a height by one method to the same jump's height by another: ``add`` to it, ± ``standard_error``."""

    measured_by: HeightMethod
    wanted_by: HeightMethod
    add_cm: Annotated[float, Field(ge=-50, le=50)]
    standard_error_cm: Annotated[float, Field(ge=0, le=50)]
    source: Text


class RetestDays(Model):
    """A way to test: on that many days, that many jumps each."""

    days: Annotated[int, Field(ge=1, le=14)]
    jumps: Annotated[int, Field(ge=1, le=12)]


class RetestRule(Model):
    """When a change is real, and when it is worth having.

    Minimal detectable change = ``multiple`` x sqrt 2 x standard error of a test (Weir 2005, JSCR 19:231); smallest
    worthwhile change = ``worthwhile_share`` x the standard deviation between athletes (Hopkins 2000). Test days within
    ``together_days`` of the latest are one test; 0: only the latest counts. A day more than
    ``together_errors`` of their errors away is a change and stays out. ``ways``: what a retest is advised with.
    """

    together_days: Annotated[int, Field(ge=0, le=60)] = 0
    together_errors: Annotated[float, Field(gt=0, le=10)] = 3.0
    ways: Seq[RetestDays] = ()
    multiple: Annotated[float, Field(gt=0, le=5)]
    worthwhile_share: Annotated[float, Field(gt=0, le=2)]
    between_athletes: Distance
    between_athletes_source: Text
    source: Text


class Gain(Model):
    """A published gain of one block in one kind of jump, as a share of the jump's height."""

    jump: Name
    percent: Annotated[float, Field(ge=0, le=50)]
    source: Text


class OutlookRule(Model):
    """What a block may promise: from the smallest to the largest of ``gains``; more is never promised.

    ``most_blocks``: a gap of more blocks than this is told to need a nearer target first.
    """

    gains: Annotated[Seq[Gain], Field(min_length=2)]
    most_blocks: Annotated[int, Field(ge=1, le=40)]
    source: Text


class IndexStep(Model):
    """A band of a ratio: up to ``below`` it reads as ``says``; the last one has no ``below``."""

    below: Annotated[float, Field(ge=0, le=100)] | None = None
    says: Text


class RatioRule(Model):
    """A ratio that is shown as a second opinion, its usual reading, and the caution that is printed with it."""

    steps: Annotated[Seq[IndexStep], Field(min_length=1)]
    caution: Text
    source: Text


class ProfileRule(Model):
    """A force-velocity profile from loaded jumps: how many loads it needs, how its imbalance is read."""

    least_loads: Annotated[int, Field(ge=2, le=12)]
    least_spread_m_s: Annotated[float, Field(ge=0, le=5)]
    imbalance: RatioRule


class SecondOpinions(Model):
    """Figures the trade also uses; none of them moves the block."""

    dynamic_strength: RatioRule
    stretch_shortening: RatioRule
    profile: ProfileRule
