"""A squad: who trains, in which halls with what in them, who watches, and what new athletes' files begin with."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from planner.domain.athlete import Approach, Equipment, Fixture, Training
from planner.domain.base import CalendarDate, Model, Rise, Seq, TimeOfDay, Touch
from planner.domain.fields import FileKind, PrintedName, Remark
from planner.domain.terms import Day, HeightMethod, Part

Setting = Literal["secondary-school", "college"]
AthleteWord = Annotated[str, Field(min_length=1, max_length=120)]
_ATHLETE = "The name of the athlete's file without .yaml."


class Opening(Model):
    """When a hall is open, or a coach is there."""

    days: Seq[Day] = Field(min_length=1, max_length=7, description="Weekdays.")
    start: TimeOfDay = Field(alias="from", description="Time of day it begins, such as 16:00.")
    end: TimeOfDay = Field(alias="to", description="Time of day by which everybody has finished.")


class Station(Model):
    """A resource of a hall, such as its racks. An item of a session goes to the first station that takes it."""

    name: PrintedName[Annotated[str, Field(min_length=1, max_length=24)]]
    number: int = Field(ge=1, le=200, description="How many there are.")
    share: int = Field(default=1, ge=1, le=12, description="Athletes who share one at the same time.")
    loads_alike: bool = Field(
        default=False, description="Whether those who share one must lift loads near one another."
    )
    equipment: Seq[Annotated[str, Field(max_length=60)]] = Field(
        default=(), description="Takes items that need one of these, by the ids of equipment.yaml."
    )
    parts: Seq[Part] = Field(default=(), description="Takes all items of these parts of a session.")


class Hall(Model):
    name: PrintedName[Annotated[str, Field(min_length=1, max_length=24)]]
    open: Seq[Opening] = Field(min_length=1, max_length=30, description="When it is open.")
    people: Annotated[int, Field(ge=1, le=1000)] | None = Field(
        default=None, description="The most athletes in it at once; left out, stations and coaches decide."
    )
    stations: Seq[Station] = Field(default=(), max_length=30, description="What is in it.")


class Coach(Model):
    name: PrintedName[Annotated[str, Field(min_length=1, max_length=60)]]
    hall: str | None = Field(default=None, description="The hall; may be left out where there is one.")
    there: Seq[Opening] = Field(default=(), max_length=30, description="When; left out, whenever the hall is open.")
    watches: Annotated[int, Field(ge=1, le=100)] | None = Field(
        default=None, description="Athletes at once; left out, the benchmark of the squad's setting."
    )


class SquadGroup(Model):
    """Athletes who start together where that can be."""

    name: PrintedName[Annotated[str, Field(min_length=1, max_length=40)]]
    athletes: Seq[AthleteWord] = Field(min_length=1, max_length=300, description=_ATHLETE)
    hall: str | None = Field(default=None, description="Only in this hall; left out, in any.")


class SquadWish(Model):
    """When an athlete or a group would like to start."""

    athlete: AthleteWord | None = Field(default=None, description=_ATHLETE)
    group: str | None = Field(default=None, description="The name of a group; one of athlete and group is given.")
    days: Seq[Day] = Field(default=(), max_length=7, description="On these weekdays; left out, on all.")
    time: TimeOfDay = Field(description="Time of day, such as 17:30.")


class SquadTarget(Model):
    """The target of athletes whose sheet has none."""

    touch: Touch | None = Field(default=None, description="Mark to touch, the same for all.")
    rise: Rise | None = Field(default=None, description="Rise of the centre of mass, the same for all.")
    gain: Rise | None = Field(default=None, description="This much above the athlete's own test.")
    method: HeightMethod = Field(description="How the target's height is taken; it must be the test's own.")
    by: CalendarDate | None = Field(default=None, description="Date it is wanted by.")


class Squad(Model):
    file: FileKind[Literal["squad/1"]]
    name: PrintedName[Annotated[str, Field(min_length=1, max_length=80)]]
    athletes: Seq[Annotated[str, Field(min_length=1, max_length=300)]] = Field(
        min_length=1, max_length=1000, description="Folders of athletes' files, or single files, relative to this file."
    )
    blocks: Annotated[str, Field(min_length=1, max_length=300)] = Field(
        default="blocks", description="Folder of the squad's blocks, relative to this file."
    )
    setting: Setting = Field(default="secondary-school", description="Which benchmark says how many a coach watches.")
    training: Training | None = Field(default=None, description="Training days written into new athletes' files.")
    equipment: Equipment | None = Field(default=None, description="The gym written into new athletes' files.")
    approach: Approach | None = Field(default=None, description="The run-up where the sheet has no steps.")
    target: SquadTarget | None = Field(default=None, description="The target where the sheet has none.")
    template: str | None = Field(default=None, description="The template written into new athletes' files.")
    practices: Seq[Fixture] = Field(default=(), description="Practices written into new athletes' files.")
    matches: Seq[Fixture] = Field(default=(), description="Matches written into new athletes' files.")
    halls: Seq[Hall] = Field(default=(), max_length=20, description="Where the squad trains.")
    coaches: Seq[Coach] = Field(default=(), max_length=60, description="Who watches.")
    groups: Seq[SquadGroup] = Field(default=(), max_length=60, description="Who starts together.")
    wishes: Seq[SquadWish] = Field(default=(), max_length=600, description="Preferred starts.")
    note: Remark = None
