"""The base of every model: frozen, strict (no silent conversions), no unknown fields; and the quantity types."""

from __future__ import annotations

import datetime
from typing import Annotated, TypeVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, Strict
from pydantic_core import PydanticCustomError

from planner.units import Dimension, QuantityError, figures_in_line, parse_quantity


class Model(BaseModel):
    """Strict, because YAML already has types: ``"3"`` is not 3 and ``yes`` is not true.

    Built when first used: of two hundred models a command needs a few, and a part is built along with its whole.
    """

    model_config = ConfigDict(
        frozen=True,
        strict=True,
        extra="forbid",
        allow_inf_nan=False,
        populate_by_name=True,
        serialize_by_alias=True,
        defer_build=True,
    )


T = TypeVar("T")
# A YAML list becomes a tuple; strict mode would refuse the list itself, though not loosen its items.
Seq = Annotated[tuple[T, ...], Strict(False)]

TimeOfDay = Annotated[str, Field(pattern=r"^([01]\d|2[0-3]):[0-5]\d$")]
MovementId = Annotated[str, Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=60)]
# A movement that an athlete's file names: any words, so that one written by its name is told its id.
MovementWord = Annotated[str, Field(min_length=1, max_length=120)]
Name = Annotated[str, Field(min_length=1, max_length=120)]
Text = Annotated[str, Field(max_length=2000)]


def quantity(dimension: Dimension) -> BeforeValidator:
    def read(value: object) -> float:
        # Numbers made by our own code arrive through model_construct or the *_from_si helpers, never through here.
        try:
            return parse_quantity(value, dimension)
        except QuantityError as error:
            raise PydanticCustomError(
                "quantity", "{reason}; {hint}", {"reason": error.message, "hint": error.hint}
            ) from None

    read.dimension = dimension  # type: ignore[attr-defined]  # for what describes the files: a quantity is text there
    return BeforeValidator(read)


def _one_by_one(value: object) -> object:
    return figures_in_line(value) if isinstance(value, str) else value


_one_by_one.in_one_line = True  # type: ignore[attr-defined]  # for what describes the files

# Bounds are wide, human and deliberate: outside them is a slip of the pen (a pound read as a kilogram, cm as m). Those
# with a name hold for what is worked out from videos and force records as well. Common practice, no source.
LIGHTEST_kg, HEAVIEST_kg = 25, 250
LEAST_RISE_m = 0.05
YOUNGEST_years, OLDEST_years = 7, 90
LEAST_PUSH_OFF_m, MOST_PUSH_OFF_m = 0.05, 1.2
SHORTEST_CONTACT_s, LONGEST_CONTACT_s = 0.08, 1.5
SHORTEST_FLIGHT_s, LONGEST_FLIGHT_s = 0.1, 1.2

BodyMass = Annotated[float, quantity("mass"), Field(ge=LIGHTEST_kg, le=HEAVIEST_kg)]
Stature = Annotated[float, quantity("length"), Field(ge=1.2, le=2.5)]
Reach = Annotated[float, quantity("length"), Field(ge=1.4, le=3.3)]
Touch = Annotated[float, quantity("length"), Field(ge=1.4, le=4.5)]
Rise = Annotated[float, quantity("length"), Field(ge=LEAST_RISE_m, le=1.6)]
Drop = Annotated[float, quantity("length"), Field(ge=0.05, le=1.2)]
Distance = Annotated[float, quantity("length"), Field(ge=0, le=400)]
PushOff = Annotated[Distance, Field(ge=LEAST_PUSH_OFF_m, le=MOST_PUSH_OFF_m)]
Load = Annotated[float, quantity("mass"), Field(ge=0, le=600)]
Loads = Annotated[tuple[Load, ...], Strict(False), BeforeValidator(_one_by_one)]
ContactTime = Annotated[float, quantity("time"), Field(ge=SHORTEST_CONTACT_s, le=LONGEST_CONTACT_s)]
FlightTime = Annotated[float, quantity("time"), Field(ge=SHORTEST_FLIGHT_s, le=LONGEST_FLIGHT_s)]
ShortTime = Annotated[float, quantity("time"), Field(ge=0, le=1200)]
Force = Annotated[float, quantity("force"), Field(gt=0, le=20000)]
FrameRate = Annotated[float, quantity("rate"), Field(ge=1, le=20000)]

# Python's calendar ends in 9999; a block's weeks are counted on from any date here.
FIRST_DATE, LAST_DATE = datetime.date(1900, 1, 1), datetime.date(2200, 12, 31)
CalendarDate = Annotated[datetime.date, Field(ge=FIRST_DATE, le=LAST_DATE)]

Fraction = Annotated[float, Field(ge=0, le=1)]
Percent = Annotated[float, Field(ge=0, le=100)]
Minutes = Annotated[int, Field(ge=0, le=300)]
LONGEST_DAY_minutes = 240  # of gym time
Count = Annotated[int, Field(ge=0, le=5000)]
Pain = Annotated[int, Field(ge=0, le=10)]
Tag = Annotated[int, Field(ge=0, le=3)]
Coefficient = Annotated[float, Field(ge=-100_000, le=100_000)]
