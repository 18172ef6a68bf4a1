"""The log of a block: what was done, session by session, and what it felt like. It never changes the block."""

from __future__ import annotations

from typing import Annotated, Literal, get_args

from pydantic import Field

from planner.domain.base import BodyMass, CalendarDate, Count, Load, Model, MovementId, Pain, Seq, Text, Touch
from planner.domain.fields import Date, FileKind, MinutesLong, OnSide, Remark
from planner.domain.terms import Joint, Leg

# How long after the session its effort and minutes were written down.
Written = Literal["same-day", "next-day", "later"]
WRITTEN: tuple[Written, ...] = get_args(Written)
# unfinished: written down in part; it counts as done only once it says as-planned or changed.
Done = Literal["as-planned", "changed", "missed", "unfinished"]
WhyMissed = Literal["ill", "pain", "match", "travel", "other"]
WHY_MISSED: tuple[WhyMissed, ...] = get_args(WhyMissed)
# Signs that stop jumps and sprints whatever the pain is.
PainSign = Literal["swelling", "night-pain", "giving-way"]
PAIN_SIGNS: tuple[PainSign, ...] = get_args(PainSign)

Effort = Annotated[int, Field(ge=0, le=10)]
LoggedReps = Annotated[int, Field(ge=0, le=200)]
LoggedReserve = Annotated[int, Field(ge=0, le=10)]
LoggedMinutes = Annotated[int, Field(ge=0, le=600)]


class LoggedBlock(Model):
    """The block that was trained."""

    path: str = Field(description="Path of the block from the log's own folder, or from your home folder after ~/.")
    plan_sha256: str = Field(description="Digest of the block as it was when the log was begun.")


class LoggedItem(Model):
    """One item of a session, only where it differed from the plan or something was measured."""

    item: str = Field(max_length=40, description="The item's id on the card, such as w1s1i6.")
    movement: MovementId | None = Field(
        default=None, description="The movement that was done; left out, the one on the card."
    )
    load: Load | None = Field(default=None, description="Load of every set, on the bar or in the hands.")
    loads: Annotated[Seq[Load], Field(max_length=60)] = Field(
        default=(), description="Load of each set, where they differ."
    )
    sets: int | None = Field(default=None, ge=0, le=60, description="Sets done; 0 where it was left out.")
    reps: Annotated[Seq[LoggedReps], Field(max_length=60)] = Field(default=(), description="Reps of each set.")
    reps_in_reserve: Annotated[Seq[LoggedReserve], Field(max_length=60)] = Field(
        default=(), description="Reps that were left after each set, or after the first sets."
    )
    touches: Annotated[Seq[Touch], Field(max_length=60)] = Field(
        default=(), description="Height of each jump that was touched, in order."
    )
    why: Text | None = Field(default=None, description="Why it differed, in the coach's words.")


class LoggedPain(Model):
    """Pain of one joint around a session, 0 to 10."""

    joint: Joint = Field(description="Which joint.")
    side: OnSide[Leg | None] = None
    before: Pain | None = Field(default=None, description="Before the session.")
    worst: Pain | None = Field(default=None, description="The worst during it.")
    next_morning: Pain | None = Field(default=None, description="The next morning.")
    signs: Seq[PainSign] = Field(
        default=(), description="swelling, night-pain or giving-way: jumps and sprints stop, and a clinician is asked."
    )

    @property
    def highest(self) -> int:
        """The highest of its figures; 0 where none was written down."""
        return max(one or 0 for one in (self.before, self.worst, self.next_morning))


class LoggedSession(Model):
    """One session of the block. A missed one needs only its id and why."""

    session: str = Field(max_length=40, description="The session's id, such as w1s1.")
    date: CalendarDate | None = Field(default=None, description="The day it was done, year-month-day.")
    written: Written = Field(
        default="same-day", description="When effort and minutes were written down: same-day, next-day or later."
    )
    done: Done = Field(description="as-planned, changed, missed, or unfinished where only a part is written down yet.")
    effort: Effort | None = Field(default=None, description="How hard the whole session was, 0 to 10.")
    minutes: LoggedMinutes | None = Field(default=None, description="Minutes that it took.")
    items: Seq[LoggedItem] = Field(
        default=(), description="Items that differed or were measured; all others were done as planned."
    )
    pain: Seq[LoggedPain] = Field(default=(), description="Pain, one entry a joint and side.")
    body_mass: BodyMass | None = Field(default=None, description="Body mass of that day.")
    why: WhyMissed | None = Field(default=None, description="Why it was missed: ill, pain, match, travel or other.")
    note: Remark = None


class OtherWork(Model):
    """Work outside the block that loads the legs."""

    date: Date
    what: Text = Field(description="What it was, in the coach's words.")
    minutes: MinutesLong[LoggedMinutes]
    contacts: Count = Field(default=0, description="Landings in it.")


class TrainingLog(Model):
    file: FileKind[Literal["log/1"]]
    block: LoggedBlock = Field(description="The block that this is the log of.")
    sessions: Seq[LoggedSession] = Field(default=(), description="One entry a session, in order of date.")
    extra: Seq[OtherWork] = Field(default=(), description="Work outside the block that loads the legs.")
    note: Remark = None

    def entry(self, session: str) -> LoggedSession | None:
        """The entry of this session; None if there is none."""
        return next((entry for entry in self.sessions if entry.session == session), None)
