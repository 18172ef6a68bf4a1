"""A movement of the library: what it trains, what it stresses, what it needs, how it is dosed."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import Distance, Drop, Model, MovementId, Name, Seq, ShortTime, Tag, Text
from planner.domain.fields import About, Cautions, Cues, FileKind, Id, ObstacleHeight, Rest
from planner.domain.terms import (
    Implement,
    Joint,
    Kind,
    Legs,
    Level,
    Part,
    Pattern,
    Quality,
    Side,
    TakeOff,
    TakeOffLegs,
    Tier,
)


class Dose(Model):
    """How much of it a set is."""

    scheme: str = Field(
        pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$",
        description="The template's planned progression that gives sets, reps, percent and effort week by week.",
    )
    load: Literal["percent", "reserve", "none"] = Field(
        default="none",
        description="percent of a reference lift's maximum times ratio, reserve (the athlete finds the load), or none "
        "(body weight).",
    )
    of: MovementId | None = Field(
        default=None, description="The reference lift whose one-repetition maximum the percentage is of."
    )
    ratio: float = Field(
        default=1.0, gt=0, le=3, description="This movement's own maximum as a share of the reference lift's."
    )
    body_mass_share: float = Field(
        default=0.0,
        ge=0,
        le=1,
        description="Share of body mass lifted with the load, so that percentages act on all of it: 0 for a bar on "
        "the back, 1 for a one-leg squat.",
    )
    implement: Implement = Field(
        default="free", description="What the load is made of, so that it is rounded to what the gym has."
    )
    set_time: ShortTime = Field(description="Time of one set, of one leg where legs are worked apart.")
    rest: Rest[ShortTime]


class Jump(Model):
    """What a jump or hop is."""

    direction: Literal["vertical", "horizontal", "lateral"] = Field(description="Up, forward or sideways.")
    approach: Literal["standing", "rebound", "steps", "run-up"] = Field(
        description="From a stand, as a rebound, after a few steps, or off the full run-up."
    )
    tier: Tier = Field(description="How hard the landings are; each tier has its own weekly budget.")
    contacts_per_rep: int = Field(default=1, ge=1, le=20, description="Landings in one rep.")
    effort_percent: int = Field(default=100, ge=30, le=100, description="Share of full effort.")
    take_off_leg_only: bool = Field(
        default=False, description="true if it is done on the take-off leg alone, as approach jumps are."
    )
    drop: Drop | None = Field(default=None, description="Height of the box of a drop jump or a landing.")
    height: ObstacleHeight[Drop | None] = None
    rebound: bool = Field(default=False, description="true if it leaves the ground again at once after the drop.")
    as_a_target: bool = Field(
        default=True, description="false if its form is not that of a jump for a target: paused at the bottom, tucked."
    )


class Sprint(Model):
    """One effort."""

    sort: Literal["acceleration", "flying", "resisted", "tempo"] = Field(
        description="acceleration from a stand, flying after a run-up, resisted, or tempo."
    )
    distance: Distance = Field(description="Timed distance of one effort.")
    fly_in: Distance = Field(
        default=0.0,
        description="Run-up before the timed part of a flying sprint; it needs runway but does not count as volume.",
    )
    speed_percent: int = Field(default=100, ge=30, le=100, description="Share of top speed.")


_OF_PLACES = ("Romanian", "Nordic", "Bulgarian")


class Movement(Model):
    """One entry of a library file, its fields in the order in which the shipped files write them."""

    id: Id[MovementId]
    name: Name = Field(description="As printed on the card; at most 40 characters fit one line.")
    also: Seq[Annotated[str, Field(min_length=1, max_length=60)]] = Field(
        default=(), max_length=6, description="Other names that the trade has for it, to look it up by."
    )
    kind: Kind = Field(
        description="lift and hold give working sets, jump gives contacts, sprint gives efforts and metres, skill is "
        "practice."
    )
    part: Part = Field(description="The part of a session it is done in; the order of parts is the template's.")
    patterns: Seq[Pattern] = Field(
        default=(), max_length=4, description="What it covers of the week's required patterns."
    )
    legs: Legs = Field(description="Both at once, one at a time, or alternating within a set.")
    level: Level = Field(description="The lowest level that it is planned for.")
    equipment: Seq[Annotated[str, Field(max_length=60)]] = Field(
        default=(), description="What it needs, by the ids of equipment.yaml."
    )
    requires: Seq[Annotated[str, Field(max_length=120)]] = Field(
        default=(), description="Lifts that must be strong enough first, such as back-squat >= 1.5 body mass."
    )
    qualities: dict[Quality, Tag] = Field(
        description="What it trains, 0 to 3. The template says what part of a set a tag counts; 3 is in full."
    )
    stress: dict[Joint, Tag] = Field(
        description="What it loads, 0 to 3 a joint, loaded as it is prescribed. Points rise steeply: 1, 2, 4."
    )
    sprint: Sprint | None = Field(default=None, description="What kind of sprint it is.")
    jump: Jump | None = Field(default=None, description="What kind of jump it is; without it no contact is counted.")
    runway: Distance = Field(
        default=0.0, description="Straight floor that the run-up or the bounds need; sprints give their own distance."
    )
    take_off: TakeOffLegs | None = Field(
        default=None, description="Only for athletes whose own jump takes off like this; left out, for all."
    )
    line: Literal["curved"] | None = Field(
        default=None, description="Only for athletes whose run-up is of this line; left out, for all."
    )
    eccentric_hamstring: bool = Field(
        default=False, description="true if it loads the hamstrings long (Nordic curls): kept days apart from sprints."
    )
    heavy_hinge: bool = Field(default=False, description="true for heavy hinges: kept days apart from sprints.")
    easier: MovementId | None = Field(default=None, description="The id of the next easier movement.")
    harder: MovementId | None = Field(default=None, description="The id of the next harder movement.")
    dose: Dose = Field(description="How a set of it is given.")
    cues: Cues[Annotated[Seq[Text], Field(min_length=1, max_length=3)]]
    cautions: Cautions[Seq[Text]] = ()
    source: Text = Field(description="Where the tags come from; say common practice, no source where there is none.")

    @property
    def name_inside(self) -> str:
        """Its name inside a sentence: back squat, but Romanian deadlift and RDL."""
        proper = self.name.startswith(_OF_PLACES) or self.name[:2].isupper()
        return self.name if proper else self.name[0].lower() + self.name[1:]

    @property
    def is_maximal_approach(self) -> bool:
        """Whether it is a jump of the high tier off the run-up."""
        return self.part == "approach-jump" and self.jump is not None and self.jump.tier == "high"


def side_of(movement: Movement, take_off: TakeOff) -> Side:
    """The leg that an athlete does the movement on: both at once, each in turn, or only the take-off leg."""
    if movement.legs == "both":
        return "both"
    if movement.jump is not None and movement.jump.take_off_leg_only and take_off != "two-leg":
        return "left" if take_off == "one-leg left" else "right"
    return "each"


class MovementFile(Model):
    file: FileKind[Literal["movements/1"]]
    family: MovementId = Field(
        description="The family of all movements in this file; a session takes one movement of a family."
    )
    about: About[Text | None] = None
    movements: Seq[Movement] = Field(min_length=1, description="The movements, easiest first where that makes sense.")


class EquipmentKind(Model):
    id: Id[MovementId]
    name: Name = Field(description="As printed where a movement is shown.")


class EquipmentFile(Model):
    """The words for equipment that athletes and movements may use."""

    file: FileKind[Literal["equipment/1"]]
    equipment: Seq[EquipmentKind] = Field(
        min_length=1, description="Every word for equipment that movements and athletes may use."
    )
