"""What every test states, and the fields that several kinds of test have."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planner.domain.base import Model, Seq, T, Text
from planner.domain.fields import Date, HowMeasured, Remark
from planner.domain.terms import Arms

Trials = Annotated[Seq[T], Field(min_length=1, max_length=12, description="Every trial; all of them count.")]
OffRunUp = Annotated[bool, Field(description="Whether it was done off a run-up.")]
TimeInAir = Annotated[T, Field(description="Time in the air.")]
LeftLeg = Annotated[T, Field(description="Of the left leg.")]
RightLeg = Annotated[T, Field(description="Of the right leg.")]
ArmsHeld = Annotated[Arms, Field(description="On the hips (or holding a bar), or free to swing.")]
OneError = Annotated[T, Field(description="One standard error of it.")]


FallSpeed = Annotated[float, Field(ge=0, le=3)]  # metres a second, downwards
TouchDownSpeed = Annotated[
    FallSpeed | None,
    Field(description="How fast the body still falls as the foot lands, metres a second; left out, a range is used."),
]
TouchDownSpeedError = Annotated[
    FallSpeed | None, Field(description="Standard error of that speed; left out, that of the benchmarks.")
]


class TestRecord(Model):
    """What every test states."""

    __test__ = False  # not a pytest class

    date: Date
    method: HowMeasured[Text | None] = None
    protocol: Text | None = Field(default=None, description="How it was done, so that the retest can be done alike.")
    note: Remark = None


FrameNumber = Annotated[int, Field(ge=0, le=100_000_000)]


class VideoTrial(Model):
    touch_down: FrameNumber | None = Field(default=None, description="Number of the first frame on the ground.")
    take_off: FrameNumber = Field(description="Number of the first frame off the ground.")
    landing: FrameNumber | None = Field(default=None, description="Number of the first frame back on the ground.")
