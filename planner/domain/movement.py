"""A movement of the library: what it trains, what it stresses, what it needs, how it is dosed."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import Distance, Drop, Model, MovementId, Name, Seq, ShortTime, Tag, Text
from planner.domain.terms import Joint, Kind, Legs, Level, Part, Pattern, Quality, Tier


class Dose(Model):
    """How much of it a set is.

    ``scheme`` names the line of the template that gives sets, reps, percent and effort week by week.
    ``load``: how the load is found: ``percent`` of a reference lift's one-repetition maximum times ``ratio``;
    ``reserve``: by the effort target, the athlete finds it; ``none``: body weight. ``body_mass_share`` is the share of
    body mass lifted along with the load (0 for a barbell squat's bar load, 1 for a one-leg squat), so that percentages
    act on the whole system. ``implement`` says what the load is built from when it is rounded.
    """

    scheme: Annotated[str, Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$")]
    load: Literal["percent", "reserve", "none"] = "none"
    of: MovementId | None = None
    ratio: Annotated[float, Field(gt=0, le=3)] = 1.0
    body_mass_share: Annotated[float, Field(ge=0, le=1)] = 0.0
    implement: Literal["barbell", "dumbbell", "pair-of-dumbbells", "machine", "free"] = "free"
    set_time: ShortTime
    rest: ShortTime


class Jump(Model):
    """What a jump or hop is. ``take_off_leg_only``: done on the take-off leg alone (approach jumps), not on both."""

    direction: Literal["vertical", "horizontal", "lateral"]
    approach: Literal["standing", "rebound", "steps", "run-up"]
    tier: Tier
    contacts_per_rep: Annotated[int, Field(ge=1, le=20)] = 1
    effort_percent: Annotated[int, Field(ge=30, le=100)] = 100
    take_off_leg_only: bool = False
    drop: Drop | None = None  # height dropped from: a drop jump, or a landing from a box
    height: Drop | None = None  # height of the box or hurdle jumped onto or over
    rebound: bool = False  # leaves the ground again at once after a drop


class Sprint(Model):
    """One effort. ``fly_in``: the run-up before the timed part of a flying sprint; it takes runway, not volume."""

    sort: Literal["acceleration", "flying", "resisted", "tempo"]
    distance: Distance
    fly_in: Distance = 0.0
    speed_percent: Annotated[int, Field(ge=30, le=100)] = 100


class Movement(Model):
    """One entry of a library file. ``family`` comes from the file's head; a session takes one of a family."""

    id: MovementId
    name: Name
    kind: Kind
    patterns: Annotated[Seq[Pattern], Field(max_length=4)] = ()
    part: Part
    qualities: dict[Quality, Tag]
    stress: dict[Joint, Tag]
    legs: Legs
    jump: Jump | None = None
    sprint: Sprint | None = None
    runway: Distance = (
        0.0  # straight floor that a run-up, a run-through or a row of bounds takes; sprints say their own
    )
    take_off: Literal["one-leg", "two-leg"] | None = (
        None  # only for athletes whose own jump takes off so; None: for all
    )
    eccentric_hamstring: bool = False
    heavy_hinge: bool = False
    equipment: Seq[Annotated[str, Field(max_length=60)]] = ()
    level: Level
    requires: Seq[Annotated[str, Field(max_length=120)]] = ()
    easier: MovementId | None = None
    harder: MovementId | None = None
    dose: Dose
    cues: Annotated[Seq[Text], Field(min_length=1, max_length=3)]
    cautions: Seq[Text] = ()
    source: Text


class MovementFile(Model):
    file: Literal["movements/1"]
    family: MovementId
    about: Text | None = None
    movements: Annotated[Seq[Movement], Field(min_length=1)]


class EquipmentKind(Model):
    id: MovementId
    name: Name


class EquipmentFile(Model):
    """The words for equipment that athletes and movements may use."""

    file: Literal["equipment/1"]
    equipment: Annotated[Seq[EquipmentKind], Field(min_length=1)]
