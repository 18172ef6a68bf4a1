"""Tests as they are taken: one model a kind, each with its date, method, protocol and every trial."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import (
    ContactTime,
    Count,
    Distance,
    Drop,
    FlightTime,
    Force,
    Load,
    Model,
    MovementId,
    Rise,
    Seq,
    ShortTime,
    Text,
    Touch,
)
from planner.domain.terms import Leg, TakeOff


class TestRecord(Model):
    """What every test states. ``method`` names how it was measured, ``protocol`` how it was done."""

    __test__ = False  # not a pytest class

    date: datetime.date
    method: Text | None = None
    protocol: Text | None = None
    note: Text | None = None


class TouchTest(TestRecord):
    """Highest mark touched with one hand; reach gained counts the heel rise, which the estimate takes off."""

    kind: Literal["touch"]
    take_off: TakeOff
    run_up: bool
    trials: Annotated[Seq[Touch], Field(min_length=1, max_length=12)]


class FlightTimeTest(TestRecord):
    """Time in the air of a jump from a stand, landing as one took off. Not valid off a run-up (bent-leg landings)."""

    kind: Literal["flight-time"]
    take_off: TakeOff
    trials: Annotated[Seq[FlightTime], Field(min_length=1, max_length=12)]


class GivenRiseTest(TestRecord):
    """A rise of the centre of mass after take-off, known from elsewhere; ``method`` says from where."""

    kind: Literal["given-rise"]
    take_off: TakeOff
    run_up: bool = False
    trials: Annotated[Seq[Rise], Field(min_length=1, max_length=12)]


class ContactTimeTest(TestRecord):
    """Ground contact of the take-off itself, for jumps off a run-up or rebound jumps."""

    kind: Literal["contact-time"]
    take_off: TakeOff
    trials: Annotated[Seq[ContactTime], Field(min_length=1, max_length=12)]


class LiftTest(TestRecord):
    """A set of a lift to a known effort: load on the bar (or in the hands), reps done, reps left in reserve."""

    kind: Literal["lift"]
    movement: MovementId
    load: Load
    reps: Annotated[int, Field(ge=1, le=20)]
    reps_in_reserve: Annotated[int, Field(ge=0, le=10)] = 0
    side: Leg | None = None  # for one-leg lifts; None means both legs at once


class DropJumpTrial(Model):
    contact: ContactTime
    flight: FlightTime


class DropJumpTest(TestRecord):
    """Drop jump: contact and flight of each trial. The height comes from the flight, never from the box."""

    kind: Literal["drop-jump"]
    drop: Drop
    trials: Annotated[Seq[DropJumpTrial], Field(min_length=1, max_length=12)]


class HeelRaiseTest(TestRecord):
    """Single-leg heel raises to fatigue. ``strict``: straight knee, full height, a metronome; ``free``: none of these."""

    kind: Literal["heel-raise"]
    form: Literal["strict", "free"]
    left: Count | None = None
    right: Count | None = None


class CalfPushTest(TestRecord):
    """Seated isometric push of the calf, knee bent, one leg at a time."""

    kind: Literal["isometric-calf"]
    left: Force | None = None
    right: Force | None = None


class FlyingSprintTest(TestRecord):
    """Time over a distance entered at full speed."""

    kind: Literal["flying-sprint"]
    distance: Distance
    trials: Annotated[Seq[ShortTime], Field(min_length=1, max_length=12)]


Test = Annotated[
    TouchTest
    | FlightTimeTest
    | GivenRiseTest
    | ContactTimeTest
    | LiftTest
    | DropJumpTest
    | HeelRaiseTest
    | CalfPushTest
    | FlyingSprintTest,
    Field(discriminator="kind"),
]
