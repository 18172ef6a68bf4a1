"""An athlete's file: the body, the target, the week, the gym, the tests."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import (
    BodyMass,
    Count,
    Distance,
    Load,
    LONGEST_DAY_minutes,
    Minutes,
    Model,
    MovementId,
    Name,
    Pain,
    Reach,
    Rise,
    Seq,
    Stature,
    Text,
    Touch,
)
from planner.domain.measure import Test
from planner.domain.terms import DateStyle, Day, HeightMethod, Joint, Leg, Level, TakeOff


class Approach(Model):
    """The run-up of the target jump. Zero steps: a jump from a stand."""

    steps: Annotated[int, Field(ge=0, le=20)]
    line: Literal["straight", "curved"] = "straight"
    landing: Literal["both", "left", "right"] = "both"


class RecentLoad(Model):
    """What a usual week of the last four held, all sport included. Week 1 of the block grows from here."""

    weekly_contacts: Count
    weekly_high_contacts: Count | None = None  # not known: the template's first week stands
    weekly_sprints: Count
    weekly_working_sets: Count


class TrainingDay(Model):
    """A weekday with its gym time. ``own_work_minutes`` are kept free for the athlete's own work.

    ``time``: when it starts, on the athlete's own clock; only the calendar needs it.
    """

    day: Day
    minutes: Annotated[int, Field(ge=15, le=LONGEST_DAY_minutes)]
    own_work_minutes: Minutes = 0
    time: Annotated[str, Field(pattern=r"^([01]\d|2[0-3]):[0-5]\d$")] | None = None


class Training(Model):
    days: Annotated[Seq[TrainingDay], Field(min_length=1, max_length=6)]
    away: Seq[datetime.date] = ()


class Fixture(Model):
    """A practice or a match: on a weekday every week, or on one date."""

    day: Day | None = None
    date: datetime.date | None = None
    minutes: Annotated[int, Field(ge=1, le=300)]
    hardness: Literal["light", "medium", "hard"] = "medium"
    contacts: Count = 0


class Equipment(Model):
    """What the gym has. Plates are listed one entry a pair; dumbbells one entry a pair that exists."""

    items: Seq[Annotated[str, Field(max_length=60)]] = ()
    bar: Load | None = None
    plates: Seq[Load] = ()
    dumbbells: Seq[Load] = ()
    runway: Distance | None = None

    @property
    def kit(self) -> frozenset[str]:
        """The listed items, plus barbell and dumbbells if their masses are given."""
        iron = {"barbell": self.bar is not None, "dumbbells": bool(self.dumbbells)}
        return frozenset([*self.items, *(name for name, there in iron.items() if there)])


class JointState(Model):
    """Pain now (0-10 while loading it), or history only (pain 0). ``side`` None: both sides or the middle."""

    joint: Joint
    side: Leg | None = None
    pain: Pain = 0
    worse_next_morning: bool = False
    history: Text | None = None


class Target(Model):
    """The jump aimed at: a rise of the centre of mass, or a mark to touch. Its method must be the test's own."""

    touch: Touch | None = None
    rise: Rise | None = None
    method: HeightMethod
    by: datetime.date | None = None


class Pin(Model):
    """A movement the coach wants in the block: in every phase's week, or on one weekday."""

    movement: MovementId
    day: Day | None = None


class Allowance(Model):
    """A coach's word over a gate (never over youth or pain rules): what, why, when."""

    rule: str | None = None
    movement: MovementId | None = None
    reason: Annotated[str, Field(min_length=3, max_length=400)]
    date: datetime.date


class StatureRecord(Model):
    date: datetime.date
    stature: Stature


class Preferences(Model):
    """How cards are printed for this athlete."""

    mass: Literal["kg", "lb"] = "kg"
    length: Literal["cm", "in"] = "cm"
    paper: Literal["a4", "a5", "letter", "half-letter"] = "a4"
    dates: DateStyle = "iso"


class Athlete(Model):
    file: Literal["athlete/1"]
    name: Name
    birth_date: datetime.date
    sex: Literal["female", "male"] | None = None
    sport: Text | None = None
    body_mass: BodyMass
    stature: Stature
    standing_reach: Reach
    tip_toe_reach: Reach | None = None
    take_off: TakeOff
    approach: Approach
    level: Level
    training_age_years: Annotated[float, Field(ge=0, le=60)] | None = (
        None  # for the coach; no figure follows from it yet
    )
    recent_load: RecentLoad | None = None
    training: Training
    equipment: Equipment = Equipment()
    practices: Seq[Fixture] = ()
    matches: Seq[Fixture] = ()
    landing: Literal["holds", "not-yet"]
    joints: Seq[JointState] = ()
    stature_records: Seq[StatureRecord] = ()
    target: Target
    # The leg that tests weaker beyond the error: like the other, or a set more of its one-leg lifts in load weeks.
    weaker_leg: Literal["same", "extra-set"] = "same"
    bans: Seq[MovementId] = ()
    pins: Seq[Pin] = ()
    allow: Seq[Allowance] = ()
    template: str | None = None
    print_as: Preferences = Preferences()
    tests: Annotated[Seq[Test], Field(min_length=1)]
    note: Text | None = None
