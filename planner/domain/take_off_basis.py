"""What the estimate assumes of a take-off where it was not measured."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, model_validator

from planner.domain.base import Coefficient, ContactTime, Distance, Fraction, Model, ShortTime, Text
from planner.domain.completeness import out_of_sense
from planner.domain.fields import FastestFall, ItsError, ItsSource, SlowestFall, Source


class HeelRise(Model):
    """What a touch gains over the flat-footed reach before the feet leave the ground."""

    stand_in: Distance = Field(description="Heel rise where no tip-toe reach was measured.")
    standard_error: Distance = Field(description="Standard error of that estimate.")
    measured_standard_error: Distance = Field(description="Standard error where it was measured.")
    source: Source


class ContactStandIn(Model):
    value: ContactTime = Field(description="Contact time where none was measured.")
    standard_error: ItsError[ShortTime]
    source: Source


class PushOffStandIn(Model):
    share_of_stature: Fraction = Field(description="Push-off distance as a share of stature.")
    standard_error: Distance = Field(description="Standard error of the distance.")
    source: Source


class TakeOffBasis(Model):
    """What is assumed of a one-leg or a two-leg take-off where it was not measured."""

    heel_rise: HeelRise = Field(description="What a touch gains before the feet leave the ground.")
    contact: ContactStandIn = Field(description="Ground contact of a run-up jump.")
    push_off: PushOffStandIn = Field(description="Push-off distance of a jump from a stand.")
    axis_shift: Coefficient = Field(
        description="Added to the mean ground force, in body weights, before the curves are read."
    )
    axis_source: ItsSource[Text]


class TouchDown(Model):
    """How fast the body usually falls as the foot lands off a run-up, where it was not measured."""

    slowest_m_s: SlowestFall[Annotated[float, Field(ge=0, le=3)]]
    fastest_m_s: FastestFall[Annotated[float, Field(ge=0, le=3)]]
    measured_standard_error_m_s: float = Field(ge=0, le=1, description="Standard error of a speed that was measured.")
    source: Source

    @model_validator(mode="after")
    def _in_order(self) -> TouchDown:
        if self.fastest_m_s < self.slowest_m_s:
            raise out_of_sense(("fastest_m_s",), "'fastest_m_s' is below slowest_m_s", "swap the two")
        return self
