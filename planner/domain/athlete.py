"""An athlete's file: the body, the target, the week, the gym, the tests."""

from __future__ import annotations

import datetime
from typing import Annotated, Any, Literal

from pydantic import Field, model_validator

from planner.domain.base import (
    BodyMass,
    CalendarDate,
    Count,
    Distance,
    Load,
    Loads,
    LONGEST_DAY_minutes,
    Minutes,
    Model,
    MovementWord,
    Name,
    Pain,
    Reach,
    Rise,
    Seq,
    Stature,
    Text,
    TimeOfDay,
    Touch,
)
from planner.domain.completeness import require_few_sums
from planner.domain.fields import Date, FileKind, JumpsOff, MinutesLong, OnSide, Paper, PrintedName, Remark
from planner.domain.measure import Test
from planner.domain.terms import DateStyle, Day, HeightMethod, Joint, Leg, Level, TakeOff
from planner.units import is_imperial


class Approach(Model):
    """The run-up of the target jump. Zero steps: a jump from a stand."""

    steps: int = Field(ge=0, le=20, description="Steps of the run-up; 0 from a stand.")
    line: Literal["straight", "curved"] = Field(default="straight", description="Straight or curved.")
    landing: Literal["both", "left", "right"] = Field(default="both", description="Landing on both feet, or on one.")


class RecentLoad(Model):
    """What a usual week of the last four held, all sport included. Week 1 of the block grows from here."""

    weekly_contacts: Count = Field(description="Landings a week.")
    # Left out: the template's first week counts.
    weekly_high_contacts: Count | None = Field(
        default=None, description="Of these, the maximal ones; leave it out where not known."
    )
    weekly_sprints: Count = Field(description="Sprint efforts a week.")
    weekly_working_sets: Count = Field(description="Working sets a week, warm-ups left out.")


class TrainingDay(Model):
    """A weekday with its gym time."""

    day: Day = Field(description="Weekday.")
    minutes: int = Field(ge=15, le=LONGEST_DAY_minutes, description="Minutes available, warm-up included.")
    own_work_minutes: Minutes = Field(default=0, description="Of these, minutes kept for the athlete's own work.")
    time: TimeOfDay | None = Field(
        default=None, description="Time of day it begins, such as 17:30; only the calendar uses it."
    )


class Training(Model):
    days: Seq[TrainingDay] = Field(min_length=1, max_length=6, description="The weekdays of training in the gym.")
    away: Seq[CalendarDate] = Field(default=(), description="Dates without training.")


class Fixture(Model):
    """A practice or a match: on a weekday every week, or on one date."""

    day: Day | None = Field(default=None, description="Weekday, where it is every week.")
    date: CalendarDate | None = Field(default=None, description="Date, where it is once.")
    minutes: MinutesLong[Annotated[int, Field(ge=1, le=300)]]
    hardness: Literal["light", "medium", "hard"] = Field(
        default="medium", description="A practice is a hard day only when hard."
    )
    contacts: Count = Field(default=0, description="Landings in it.")


class Equipment(Model):
    """What the gym has."""

    items: Seq[Annotated[str, Field(max_length=60)]] = Field(default=(), description="Ids of equipment.yaml.")
    bar: Load | None = Field(default=None, description="Mass of the empty bar.")
    plates: Loads = Field(default=(), description="One entry for each pair of plates.")
    dumbbells: Loads = Field(default=(), description="One entry for each pair of dumbbells, the mass of one.")
    runway: Distance | None = Field(default=None, description="Longest straight floor in the gym.")

    @model_validator(mode="after")
    def _few_loads(self) -> Equipment:
        require_few_sums("plates", self.plates)
        return self

    @property
    def kit(self) -> frozenset[str]:
        """The listed items, plus barbell and dumbbells if their masses are given.

        The mass of a bar is a trap bar's where the gym lists that and no barbell.
        """
        iron = {"barbell": self.bar is not None and "trap-bar" not in self.items, "dumbbells": bool(self.dumbbells)}
        return frozenset([*self.items, *(name for name, there in iron.items() if there)])


class JointState(Model):
    """A joint with pain now, or with a history only."""

    joint: Joint = Field(description="Which joint.")
    side: OnSide[Leg | None] = None
    pain: Pain = Field(default=0, description="Pain now, 0 to 10, while loading it.")
    worse_next_morning: bool = Field(
        default=False, description="true if it is worse the morning after: stop, and refer to a clinician."
    )
    history: Text | None = Field(default=None, description="What was there before, in the coach's words.")


class Target(Model):
    """The jump aimed at: a rise of the centre of mass, or a mark to touch. Its method must be the test's own."""

    touch: Touch | None = Field(default=None, description="Mark to touch.")
    rise: Rise | None = Field(default=None, description="Rise of the centre of mass after take-off.")
    method: HeightMethod = Field(description="How the target's height is taken; it must be the test's own.")
    by: CalendarDate | None = Field(default=None, description="Date it is wanted by.")


class Pin(Model):
    """A movement the coach wants in the block: in every phase or in some, on any weekday or on one."""

    movement: MovementWord = Field(description="Id of the movement.")
    day: Day | None = Field(default=None, description="Weekday it is wanted on; left out, any.")
    phases: Seq[Annotated[str, Field(max_length=60)]] = Field(
        default=(), description="Phases of the template it is wanted in; left out, all but the last."
    )
    weeks: Seq[Annotated[int, Field(ge=1, le=52)]] = Field(
        default=(), description="Weeks whose phases it is wanted in, since a movement stays through its phase."
    )


class Allowance(Model):
    """A coach's word over a gate (never over youth or pain rules): what, why, when."""

    rule: str | None = Field(default=None, description="The rule lifted.")
    movement: MovementWord | None = Field(default=None, description="The movement opened.")
    reason: str = Field(min_length=3, max_length=400, description="Why, in the coach's words.")
    date: Date


class StatureRecord(Model):
    date: Date
    stature: Stature = Field(description="Height on that date.")


class Preferences(Model):
    """How cards are printed for this athlete."""

    mass: Literal["kg", "lb"] = Field(default="kg", description="Unit of masses [default: as body_mass is written].")
    length: Literal["cm", "in"] = Field(default="cm", description="Unit of lengths [default: as stature is written].")
    paper: Paper = "a4"
    dates: DateStyle = Field(default="iso", description="How dates are printed.")


class Athlete(Model):
    file: FileKind[Literal["athlete/1"]]
    name: PrintedName[Name]
    birth_date: CalendarDate = Field(description="Year-month-day; limits for the young depend on it.")
    sex: Literal["female", "male"] | None = Field(
        default=None, description="For whoever reads the file; nothing is planned from it."
    )
    sport: Text | None = Field(default=None, description="In the coach's words.")
    body_mass: BodyMass = Field(description="Body mass with its unit.")
    stature: Stature = Field(description="Height standing, without shoes.")
    standing_reach: Reach = Field(description="Highest touch with one hand, heels on the floor.")
    tip_toe_reach: Reach | None = Field(
        default=None, description="Highest touch on tip-toe; the difference is the heel rise that a touch test hides."
    )
    take_off: JumpsOff[TakeOff]
    approach: Approach = Field(description="The run-up of the target jump.")
    level: Level = Field(description="The coach's word for how trained this athlete is.")
    training_age_years: Annotated[float, Field(ge=0, le=60)] | None = Field(
        default=None,
        description="Years of regular strength and jump training, for the coach's own use; nothing is planned from it.",
    )
    recent_load: RecentLoad | None = Field(
        default=None, description="A usual week of the last four, all sport included; week 1 grows from here."
    )
    training: Training = Field(description="Training days with their minutes, and days away.")
    equipment: Equipment = Field(default=Equipment(), description="What the gym offers.")
    practices: Seq[Fixture] = Field(default=(), description="Practices of the sport, weekly or dated.")
    matches: Seq[Fixture] = Field(default=(), description="Matches, weekly or dated.")
    landing: Literal["holds", "not-yet"] = Field(
        description="Whether landings hold: knee over foot, quiet, balanced. Not yet: no high tier."
    )
    joints: Seq[JointState] = Field(default=(), description="Joints with pain now or a history.")
    stature_records: Seq[StatureRecord] = Field(default=(), description="Earlier heights, to see a growth spurt.")
    target: Target = Field(description="The jump aimed at.")
    weaker_leg: Literal["same", "extra-set"] = Field(
        default="same",
        description="extra-set gives a leg that tests weaker one set more of its one-leg lifts; same, or left out, "
        "does not.",
    )
    bans: Seq[MovementWord] = Field(default=(), description="Movements never to be planned.")
    pins: Seq[Pin] = Field(default=(), description="Movements wanted in the block.")
    allow: Seq[Allowance] = Field(
        default=(), description="The coach's word over a gate; never over limits for youth or pain."
    )
    template: str | None = Field(default=None, description="The template's name, or a path to one.")
    print_as: Preferences = Field(default=Preferences(), description="Units and paper of this athlete's cards.")
    tests: Seq[Test] = Field(min_length=1, description="Every test with every trial.")
    note: Remark = None

    @model_validator(mode="before")
    @classmethod
    def _printed_as_written(cls, data: Any) -> Any:
        """An athlete measured in pounds and inches reads pounds and inches, unless ``print_as`` says otherwise."""
        given = data.get("print_as", {}) if isinstance(data, dict) else None
        if not isinstance(given, dict):
            return data
        imperial = {"mass": ("body_mass", "lb"), "length": ("stature", "in")}
        own = {what: unit for what, (field, unit) in imperial.items() if is_imperial(data.get(field))}
        return {**data, "print_as": {**own, **given}} if own else data

    def age_years(self, on: datetime.date) -> int:
        """Whole years on this day; negative before birth."""
        had_birthday = (on.month, on.day) >= (self.birth_date.month, self.birth_date.day)
        return on.year - self.birth_date.year - (0 if had_birthday else 1)
