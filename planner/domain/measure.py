"""Tests as they are taken: one model a kind, each with its date, method, protocol and every trial."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal, get_args

from pydantic import Field

from planner.domain.base import (
    ContactTime,
    Count,
    Distance,
    Drop,
    FlightTime,
    Force,
    Fraction,
    FrameRate,
    Load,
    Model,
    MovementId,
    PushOff,
    Rise,
    Seq,
    ShortTime,
    Text,
    Touch,
)
from planner.domain.terms import Arms, Leg, TakeOff

FallSpeed = Annotated[float, Field(ge=0, le=3)]  # metres a second, downwards
FrameNumber = Annotated[int, Field(ge=0, le=100_000_000)]
TestKind = Literal[
    "touch", "flight-time", "given-rise", "contact-time", "lift", "drop-jump", "heel-raise", "isometric-calf",
    "flying-sprint", "video-frames", "contact-mat", "squat-jump", "countermovement-jump", "loaded-jump",
    "sprint-splits", "isometric-force", "one-leg-hop", "one-leg-jump", "force-platform",
]  # fmt: skip
TEST_KINDS: tuple[TestKind, ...] = get_args(TestKind)


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
    """Ground contact of the take-off itself, for jumps off a run-up or rebound jumps.

    ``touch_down_speed_m_s``: how fast the body still falls as the foot lands, where a platform or a video gave it, and
    ``touch_down_speed_error_m_s``, one standard error; left out, the benchmarks'.
    """

    kind: Literal["contact-time"]
    take_off: TakeOff
    touch_down_speed_m_s: FallSpeed | None = None
    touch_down_speed_error_m_s: FallSpeed | None = None
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
    """One-leg heel raises to fatigue. ``strict``: straight knee, full height, a metronome; ``free``: none of these."""

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


class VideoTrial(Model):
    """Numbers of the first frame on the ground, the first off it, and the first back on it."""

    touch_down: FrameNumber | None = None
    take_off: FrameNumber
    landing: FrameNumber | None = None


class VideoFramesTest(TestRecord):
    """Frames counted on a video: touch-down to take-off is the contact, take-off to landing the flight.

    ``frame_rate`` is the rate at which it was filmed, not the one at which it is played back. ``drop``: the box, where
    it was a drop jump; left out, it was none. ``touch_down_speed_m_s``: as in a contact-time test, read off the film.
    """

    kind: Literal["video-frames"]
    take_off: TakeOff
    run_up: bool = False
    drop: Drop | None = None
    frame_rate: FrameRate
    touch_down_speed_m_s: FallSpeed | None = None
    touch_down_speed_error_m_s: FallSpeed | None = None
    trials: Annotated[Seq[VideoTrial], Field(min_length=1, max_length=12)]


class MatTrial(Model):
    contact: ContactTime | None = None
    flight: FlightTime


class ContactMatTest(TestRecord):
    """Jumps on a contact mat: the flight of each, and the contact before it where the mat was landed on.

    ``run_up``: the mat lay at the end of a run-up; its contacts are those of the take-off, its flights no height.
    """

    kind: Literal["contact-mat"]
    take_off: TakeOff
    run_up: bool = False
    trials: Annotated[Seq[MatTrial], Field(min_length=1, max_length=12)]


class SquatJumpTest(TestRecord):
    """A jump from a held squat, without a dip: flight times. ``arms`` on the hips unless said otherwise."""

    kind: Literal["squat-jump"]
    take_off: TakeOff = "two-leg"
    arms: Arms = "hips"
    trials: Annotated[Seq[FlightTime], Field(min_length=1, max_length=12)]


class CountermovementJumpTest(TestRecord):
    """A jump from a stand with a dip: flight times. ``arms`` on the hips unless said otherwise."""

    kind: Literal["countermovement-jump"]
    take_off: TakeOff = "two-leg"
    arms: Arms = "hips"
    trials: Annotated[Seq[FlightTime], Field(min_length=1, max_length=12)]


class LoadedSet(Model):
    """Jumps with one load on the shoulders or in the hands (0 kg: the body alone)."""

    load: Load
    flights: Annotated[Seq[FlightTime], Field(min_length=1, max_length=12)]


class LoadedJumpTest(TestRecord):
    """Jumps with several loads: flight times at each, for a force-velocity profile.

    ``push_off``: from the lowest point to take-off, measured; left out, the benchmarks' share of stature stands in.
    """

    kind: Literal["loaded-jump"]
    form: Literal["squat", "countermovement"]
    push_off: Distance | None = None
    sets: Annotated[Seq[LoadedSet], Field(min_length=1, max_length=12)]


class SprintSplitsTest(TestRecord):
    """A sprint from a stand with times at several distances, each from the start: one row of times a trial."""

    kind: Literal["sprint-splits"]
    distances: Annotated[Seq[Distance], Field(min_length=1, max_length=12)]
    trials: Annotated[
        Seq[Annotated[Seq[ShortTime], Field(min_length=1, max_length=12)]], Field(min_length=1, max_length=12)
    ]


class IsometricForceTest(TestRecord):
    """Peak force against a bar that does not move. ``includes_body_weight``: as a platform under the feet reads it."""

    kind: Literal["isometric-force"]
    position: Literal["mid-thigh-pull", "squat"]
    side: Leg | None = None  # None: both legs at once
    includes_body_weight: bool = True
    trials: Annotated[Seq[Force], Field(min_length=1, max_length=12)]


class OneLegHopTest(TestRecord):
    """Hop for distance on one leg, landed on the same foot and held."""

    kind: Literal["one-leg-hop"]
    left: Annotated[Seq[Distance], Field(max_length=12)] = ()
    right: Annotated[Seq[Distance], Field(max_length=12)] = ()


class OneLegJumpTest(TestRecord):
    """Upward jump off one leg from a stand: flight times of each leg."""

    kind: Literal["one-leg-jump"]
    arms: Arms = "hips"
    left: Annotated[Seq[FlightTime], Field(max_length=12)] = ()
    right: Annotated[Seq[FlightTime], Field(max_length=12)] = ()


class PlatformTrial(Model):
    """One jump on a force platform, as ``jumpblock platform`` writes it. Errors are one standard error.

    A height that is not believed is left out, and ``doubt`` says why.
    """

    rise_by_impulse: Rise | None = None
    rise_by_impulse_error: Distance | None = None
    flight: FlightTime | None = None
    flight_error: ShortTime | None = None
    contact: ContactTime | None = None  # drop jumps
    time_to_take_off: ShortTime | None = None
    peak_force: Force | None = None
    mean_propulsion_force: Force | None = None
    push_off: PushOff | None = None  # from the lowest point to take-off
    left_share: Fraction | None = None  # of the mean propulsion force, on two platforms
    doubt: Text | None = None
    note: Text | None = None


class ForcePlatformTest(TestRecord):
    """Jumps on a force platform. The impulse's height counts, a drop jump's comes from the flight."""

    kind: Literal["force-platform"]
    jump: Literal["countermovement", "squat", "drop"]
    take_off: TakeOff = "two-leg"
    arms: Arms = "hips"
    drop: Drop | None = None  # the box, for a drop jump
    trials: Annotated[Seq[PlatformTrial], Field(min_length=1, max_length=12)]

    @property
    def by_impulse(self) -> bool:
        """Whether its height is the impulse's: as many trials have it as have a flight. A drop jump's never is."""
        impulses = sum(trial.rise_by_impulse is not None for trial in self.trials)
        flights = sum(trial.flight is not None for trial in self.trials)
        return self.jump != "drop" and impulses > 0 and impulses >= flights


Test = Annotated[
    TouchTest
    | FlightTimeTest
    | GivenRiseTest
    | ContactTimeTest
    | LiftTest
    | DropJumpTest
    | HeelRaiseTest
    | CalfPushTest
    | FlyingSprintTest
    | VideoFramesTest
    | ContactMatTest
    | SquatJumpTest
    | CountermovementJumpTest
    | LoadedJumpTest
    | SprintSplitsTest
    | IsometricForceTest
    | OneLegHopTest
    | OneLegJumpTest
    | ForcePlatformTest,
    Field(discriminator="kind"),
]
