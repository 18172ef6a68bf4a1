"""Tests as they are taken: one model a kind, each with its date, method, protocol and every trial."""

from __future__ import annotations

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
    MovementWord,
    PushOff,
    Rise,
    Seq,
    ShortTime,
    Text,
    Touch,
)
from planner.domain.fields import JumpsOff, KindOf, OnSide, Remark
from planner.domain.terms import Leg, TakeOff
from planner.domain.test_record import (
    ArmsHeld,
    LeftLeg,
    OffRunUp,
    OneError,
    RightLeg,
    TestRecord,
    TimeInAir,
    TouchDownSpeed,
    TouchDownSpeedError,
    Trials,
    VideoTrial,
)

TestKind = Literal[
    "touch", "flight-time", "given-rise", "contact-time", "lift", "drop-jump", "heel-raise", "isometric-calf",
    "flying-sprint", "video-frames", "contact-mat", "squat-jump", "countermovement-jump", "loaded-jump",
    "sprint-splits", "isometric-force", "one-leg-hop", "one-leg-jump", "force-platform",
]  # fmt: skip
TEST_KINDS: tuple[TestKind, ...] = get_args(TestKind)


class TouchTest(TestRecord):
    """Highest mark touched with one hand; reach gained counts the heel rise, which the estimate takes off."""

    kind: KindOf[Literal["touch"]]
    take_off: JumpsOff[TakeOff]
    run_up: OffRunUp
    trials: Trials[Touch]


class FlightTimeTest(TestRecord):
    """Time in the air of a jump from a stand, landing as one took off. Not valid off a run-up (bent-leg landings)."""

    kind: KindOf[Literal["flight-time"]]
    take_off: JumpsOff[TakeOff]
    trials: Trials[FlightTime]


class GivenRiseTest(TestRecord):
    """A rise of the centre of mass after take-off, known from elsewhere; ``method`` says from where."""

    kind: KindOf[Literal["given-rise"]]
    take_off: JumpsOff[TakeOff]
    run_up: OffRunUp = False
    trials: Trials[Rise]


class ContactTimeTest(TestRecord):
    """Ground contact of the take-off itself, for jumps off a run-up or rebound jumps."""

    kind: KindOf[Literal["contact-time"]]
    take_off: JumpsOff[TakeOff]
    touch_down_speed_m_s: TouchDownSpeed = None
    touch_down_speed_error_m_s: TouchDownSpeedError = None
    trials: Trials[ContactTime]


class LiftTest(TestRecord):
    """A set of a lift to a known effort: load on the bar (or in the hands), reps done, reps left in reserve."""

    kind: KindOf[Literal["lift"]]
    movement: MovementWord = Field(description="Id of the lift.")
    load: Load = Field(description="Load on the bar or in the hands.")
    reps: int = Field(ge=1, le=20, description="Reps done.")
    reps_in_reserve: int = Field(default=0, ge=0, le=10, description="Reps that were left.")
    side: Leg | None = Field(default=None, description="The leg, for one-leg lifts; left out, both at once.")


class DropJumpTrial(Model):
    contact: ContactTime = Field(description="Time on the ground.")
    flight: TimeInAir[FlightTime]


class DropJumpTest(TestRecord):
    """Drop jump: contact and flight of each trial. The height comes from the flight, never from the box."""

    kind: KindOf[Literal["drop-jump"]]
    drop: Drop = Field(description="Height of the box.")
    trials: Trials[DropJumpTrial]


class HeelRaiseTest(TestRecord):
    """One-leg heel raises to fatigue."""

    kind: KindOf[Literal["heel-raise"]]
    form: Literal["strict", "free"] = Field(
        description="strict (straight knee, full height, metronome) or free (none of these)."
    )
    left: Count | None = Field(default=None, description="Raises of the left leg.")
    right: Count | None = Field(default=None, description="Raises of the right leg.")


class CalfPushTest(TestRecord):
    """Seated isometric push of the calf, knee bent, one leg at a time."""

    kind: KindOf[Literal["isometric-calf"]]
    left: LeftLeg[Force | None] = None
    right: RightLeg[Force | None] = None


class FlyingSprintTest(TestRecord):
    """Time over a distance entered at full speed."""

    kind: KindOf[Literal["flying-sprint"]]
    distance: Distance = Field(description="Timed distance.")
    trials: Trials[ShortTime]


class VideoFramesTest(TestRecord):
    """Frames counted on a video: touch-down to take-off is the contact, take-off to landing the flight."""

    kind: KindOf[Literal["video-frames"]]
    take_off: JumpsOff[TakeOff]
    run_up: OffRunUp = False
    drop: Drop | None = Field(default=None, description="Height of the box, where it was a drop jump.")
    frame_rate: FrameRate = Field(description="Rate of filming, such as 240 /s, not of playing back.")
    touch_down_speed_m_s: TouchDownSpeed = None
    touch_down_speed_error_m_s: TouchDownSpeedError = None
    trials: Trials[VideoTrial]


class MatTrial(Model):
    contact: ContactTime | None = Field(
        default=None, description="Time on the mat before the jump, where it was landed on."
    )
    flight: TimeInAir[FlightTime]


class ContactMatTest(TestRecord):
    """Jumps on a contact mat: the flight of each, and the contact before it where the mat was landed on.

    With ``run_up`` the contacts are those of the take-off, and the flights give no height.
    """

    kind: KindOf[Literal["contact-mat"]]
    take_off: JumpsOff[TakeOff]
    run_up: OffRunUp = False
    trials: Trials[MatTrial]


class SquatJumpTest(TestRecord):
    """A jump from a held squat, without a dip: flight times."""

    kind: KindOf[Literal["squat-jump"]]
    take_off: JumpsOff[TakeOff] = "two-leg"
    arms: ArmsHeld = "hips"
    trials: Trials[FlightTime]


class CountermovementJumpTest(TestRecord):
    """A jump from a stand with a dip: flight times."""

    kind: KindOf[Literal["countermovement-jump"]]
    take_off: JumpsOff[TakeOff] = "two-leg"
    arms: ArmsHeld = "hips"
    trials: Trials[FlightTime]


class LoadedSet(Model):
    """Jumps with one load."""

    load: Load = Field(description="Load on the shoulders or in the hands; 0 kg for the body alone.")
    flights: Seq[FlightTime] = Field(min_length=1, max_length=12, description="Flight time of each jump.")


class LoadedJumpTest(TestRecord):
    """Jumps with several loads: flight times at each, for a force-velocity profile."""

    kind: KindOf[Literal["loaded-jump"]]
    form: Literal["squat", "countermovement"] = Field(description="From a held squat, or with a dip.")
    push_off: Distance | None = Field(default=None, description="From the lowest point to take-off, measured.")
    sets: Seq[LoadedSet] = Field(min_length=1, max_length=12, description="One entry a load.")


class SprintSplitsTest(TestRecord):
    """A sprint from a stand with times at several distances."""

    kind: KindOf[Literal["sprint-splits"]]
    distances: Seq[Distance] = Field(
        min_length=1, max_length=12, description="Where the times were taken, each from the start."
    )
    trials: Seq[Annotated[Seq[ShortTime], Field(min_length=1, max_length=12)]] = Field(
        min_length=1, max_length=12, description="A row of times for each trial."
    )


class IsometricForceTest(TestRecord):
    """Peak force against a bar that does not move."""

    kind: KindOf[Literal["isometric-force"]]
    position: Literal["mid-thigh-pull", "squat"] = Field(description="Position of the pull or push.")
    side: OnSide[Leg | None] = None
    includes_body_weight: bool = Field(default=True, description="true as a platform under the feet reads it.")
    trials: Trials[Force]


class OneLegHopTest(TestRecord):
    """Hop for distance on one leg, landed on the same foot and held."""

    kind: KindOf[Literal["one-leg-hop"]]
    left: LeftLeg[Annotated[Seq[Distance], Field(max_length=12)]] = ()
    right: RightLeg[Annotated[Seq[Distance], Field(max_length=12)]] = ()


class OneLegJumpTest(TestRecord):
    """Upward jump off one leg from a stand: flight times of each leg."""

    kind: KindOf[Literal["one-leg-jump"]]
    arms: ArmsHeld = "hips"
    left: LeftLeg[Annotated[Seq[FlightTime], Field(max_length=12)]] = ()
    right: RightLeg[Annotated[Seq[FlightTime], Field(max_length=12)]] = ()


class PlatformTrial(Model):
    """One jump on a force platform, as ``jumpblock platform`` writes it."""

    rise_by_impulse: Rise | None = Field(default=None, description="Rise from the impulse.")
    rise_by_impulse_error: OneError[Distance | None] = None
    flight: TimeInAir[FlightTime | None] = None
    flight_error: OneError[ShortTime | None] = None
    contact: ContactTime | None = Field(default=None, description="Time on the ground, of drop jumps.")
    time_to_take_off: ShortTime | None = Field(default=None, description="From the first movement to take-off.")
    peak_force: Force | None = Field(default=None, description="Highest force.")
    mean_propulsion_force: Force | None = Field(default=None, description="Mean force on the way up.")
    push_off: PushOff | None = Field(
        default=None,
        description="Rise of the body from its lowest point to take-off; the force gap uses it for jumps from a stand.",
    )
    left_share: Fraction | None = Field(default=None, description="The left leg's share of that, on two platforms.")
    doubt: Text | None = Field(default=None, description="Why one of its two heights is not believed, and left out.")
    note: Remark = None


class ForcePlatformTest(TestRecord):
    """Jumps on a force platform. The impulse's height counts, a drop jump's comes from the flight."""

    kind: KindOf[Literal["force-platform"]]
    jump: Literal["countermovement", "squat", "drop"] = Field(description="Which jump it was.")
    take_off: JumpsOff[TakeOff] = "two-leg"
    arms: ArmsHeld = "hips"
    drop: Drop | None = Field(default=None, description="Height of the box, for a drop jump.")
    trials: Trials[PlatformTrial]

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
