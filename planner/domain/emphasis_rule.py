"""How far a deficit is believed, and how it tilts the work."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planner.domain.base import Coefficient, Fraction, Model, Seq
from planner.domain.fields import Source

Range = Annotated[Seq[Annotated[float, Field(ge=0, le=100)]], Field(min_length=2, max_length=2)]


class ConfidenceRule(Model):
    """confidence = scatter^2 / (scatter^2 + standard error^2)"""

    scatter: float = Field(
        gt=0, le=1, description="How far deficits scatter from athlete to athlete; a test is trusted against that."
    )
    least_for_shares: Fraction = Field(description="Less certain tests are left out when the gap is shared out.")
    half_sure_from: Fraction = Field(description="From here on a test is of moderate confidence; below it, of low.")
    fairly_sure_from: Fraction = Field(description="From here on a test is of good confidence.")
    noise_multiple: float = Field(gt=0, le=5, description="A gap below this many standard errors is inside the noise.")
    source: Source


class SureRule(Model):
    """How far a lift quality's deficit moves its share by how many of its standard errors it is.

    Up to one error at most to ``unsure_most``; from ``errors`` on at least to ``least_tilt``; evenly in between.
    """

    errors: float = Field(gt=1, le=5, description="Standard errors beyond which a deficit is sure.")
    least_tilt: float = Field(ge=1, le=3, description="Least that a sure deficit makes of the share.")
    unsure_most: float = Field(ge=1, le=3, description="Most that a deficit inside its error makes of the share.")
    source: Source


class EmphasisRule(Model):
    """tilt = clamp(1 + gain x confidence x deficit), 1 inside the dead zone."""

    gain: float = Field(ge=0, le=20, description="How strongly a deficit tilts the work.")
    lift_range: Range = Field(description="Least and most that the tilt makes of a lift's share.")
    speed_range: Range = Field(description="The same for speed.")
    dead_zone: Fraction = Field(description="A smaller tilt is left out.")
    strong_and_sure: Coefficient = Field(
        description="Confidence times deficit of maximal strength below which it is kept at maintenance."
    )
    surplus_least_sum: Fraction | None = Field(
        default=None,
        description="Least share of the lifts' sets where every lift quality is over; left out: they stay.",
    )
    sure: SureRule | None = Field(default=None, description="What a sure deficit moves; left out: what any moves.")
    source: Source
