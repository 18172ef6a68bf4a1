"""The block before a new one: what was really done of it, and what follows from its outcome."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planner.domain.athlete import JointState, RecentLoad
from planner.domain.base import CalendarDate, Model, MovementId, Seq
from planner.domain.block_parts import LegPoints, Reference
from planner.domain.outcome_rule import Row
from planner.domain.terms import Joint, Part, Tier

Share = Annotated[float, Field(ge=0.5, le=1.5)]


class UsualWeek(RecentLoad):
    """A usual load week at the end of that block, as it was done."""

    weeks: Seq[Annotated[int, Field(ge=1, le=52)]] = Field(description="Its load weeks of which this is the mean.")
    leg_contacts: dict[Tier, LegPoints] = Field(description="Landings of each leg in the block's own jumps, by tier.")
    joint_stress: dict[Joint, LegPoints] = Field(description="Points of each joint and leg, sport left out.")


class KnownMovement(Model):
    """A movement that was done in that block."""

    movement: MovementId = Field(description="Its id.")
    part: Part = Field(description="The part of a session that it is.")
    weeks: int = Field(ge=1, le=52, description="In how many weeks.")
    to_the_end: bool = Field(description="Whether its last load phase had it.")


class BlockBefore(Model):
    """What a block that follows another starts from."""

    block: Reference = Field(description="That block.")
    log: Reference | None = Field(default=None, description="Its log; without one it counts as it was planned.")
    last_hard_day: CalendarDate = Field(description="The last day of hard work or of a test before this block.")
    row: Row | None = Field(default=None, description="What its outcome asks of this block; left out without a retest.")
    lifts: Share = Field(default=1.0, description="For that, the share of the lifts' sets that this block aims at.")
    jumps: Share = Field(default=1.0, description="Likewise of sprints, medium and high jumps.")
    rotate: bool = Field(default=True, description="Whether accessory movements change.")
    usual_week: UsualWeek = Field(description="Week 1 grows from here.")
    known: Seq[KnownMovement] = Field(default=(), description="The movements that were done.")
    ladder: dict[str, float] = Field(
        default_factory=dict,
        description="How far jumps had got where contact held, by ladder: metres of a box, percent of full effort.",
    )
    maxima: dict[str, float] = Field(
        default_factory=dict, description="Maxima by the log, as shares of those tested, of lifts not tested since."
    )
    pain: Seq[JointState] = Field(default=(), description="Joints with pain at the end of the log.")

    @property
    def known_ids(self) -> frozenset[str]:
        return frozenset(one.movement for one in self.known)
