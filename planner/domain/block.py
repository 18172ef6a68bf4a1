"""The block: weeks of sessions, the proof, and where every input came from. Cards need only this."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import Model, MovementId, Seq, Text
from planner.domain.gap import Gap
from planner.domain.terms import DateStyle, Day, Implement, Joint, Leg, Part, Quality, Role, Side, Tier

# The note of a load that is split over both hands; a card shows the two dumbbells instead.
HALF_IN_EACH_HAND = "two of half each"


class Reference(Model):
    """A file the block was made from: path relative to the block, and the digest of its bytes."""

    path: str
    sha256: str


class Stage(Model):
    name: str
    status: Literal["optimal", "feasible", "skipped"]
    objective: int | None = None
    bound: int | None = None
    unit: str


class Proof(Model):
    """``optimal`` means stage 1 (bands) proved over the whole library."""

    status: Literal["optimal", "feasible"]
    scope: Literal["library", "shortlist"]  # always the library in new blocks
    stages: Seq[Stage]


class Shortfall(Model):
    """A soft rule not met in full, in its own unit."""

    rule: str
    where: str
    amount: float
    unit: str
    sentence: str


class Band(Model):
    low: float
    high: float


class Bands(Model):
    """What the week was asked for. Working sets per quality, contacts in all and per tier, sprint efforts."""

    working_sets: dict[Quality, Band]
    contacts: Band
    tiers: dict[Tier, Band]
    sprint_efforts: Band
    joint_stress: dict[Joint, float]  # weekly ceiling, points a leg


class LegPoints(Model):
    left: float
    right: float


class Totals(Model):
    """Programmed work of the week; sport is left out, except in joint stress, which is all that the leg takes."""

    working_sets: dict[Quality, float]
    contacts: dict[Tier, int]
    sprint_efforts: int
    sprint_m: float
    joint_stress: dict[Joint, LegPoints]


class Item(Model):
    """One line of a session. ``reps`` are per set (per leg where ``side`` is each, left or right).

    ``contacts``: landings of the whole item, all sets and both legs together. ``percent``: of the one-repetition
    maximum, of the system lifted where the movement lifts body mass. A sprint's effort is a set of one rep.
    """

    id: str  # w1s1i1
    part: Part | Literal["test"]
    movement: MovementId
    name: str
    side: Side
    sets: Annotated[int, Field(ge=0, le=60)]
    extra_set: Leg | None = None  # one set more on this leg, which goes first; ``sets`` are those of both
    reps: Annotated[int, Field(ge=0, le=60)] | None = None
    load_kg: Annotated[float, Field(ge=0, le=1000)] | None = None
    implement: Implement | None = None  # what the load is built from; None where the block does not say
    percent: Annotated[float, Field(ge=0, le=120)] | None = None
    reps_in_reserve: Annotated[int, Field(ge=0, le=10)] | None = None
    distance_m: Annotated[float, Field(ge=0, le=400)] | None = None
    height_m: Annotated[float, Field(ge=0, le=3)] | None = None
    height_of: Literal["box", "hurdle"] | None = None  # what is that high; None where the block does not say
    drop_m: Annotated[float, Field(ge=0, le=3)] | None = None  # the height it is stepped off from
    hold_s: Annotated[int, Field(ge=0, le=600)] | None = None
    rest_s: Annotated[int, Field(ge=0, le=1800)] | None = None
    contacts: Annotated[int, Field(ge=0, le=2000)] = 0
    tier: Tier | None = None
    cues: Seq[Text] = ()
    cautions: Seq[Text] = ()
    note: Text | None = None  # why 0 sets, how to find the load


class Session(Model):
    id: str  # w1s1
    date: datetime.date
    minutes: int  # planned length, warm-up and rests included
    hard_day: bool
    why: Text
    focus: str  # the session shape's id
    title: Text | None = None  # the session shape's name
    warm_up_minutes: int
    items: Seq[Item]


class Week(Model):
    number: Annotated[int, Field(ge=1, le=52)]
    phase: str
    role: Role
    start: datetime.date
    totals: Totals
    bands: Bands
    sessions: Seq[Session]


class Gym(Model):
    """What loads are built from, in kg: the bar, the plates (one entry a pair), the dumbbells that exist."""

    bar_kg: float | None = None
    plates_kg: Seq[float] = ()
    dumbbells_kg: Seq[float] = ()


class TestLine(Model):
    """A test as the athlete took it, so that the test day repeats it: how, how often, and what came of it."""

    __test__ = False  # not a pytest class

    kind: str  # a kind of test, such as touch or lift
    movement: str | None = None  # the lift's name
    side: Leg | None = None
    how: Seq[Text] = ()  # take-off, method, protocol
    trials: Annotated[int, Field(ge=1, le=40)] = 1
    date: datetime.date
    result: Text


class AthleteLine(Model):
    """What a card needs of the athlete, copied so that cards read only the block.

    ``times``: when training starts on a weekday (``17:30``, the athlete's own clock); a day without is not here.
    """

    name: str
    level: str
    take_off: str
    target: str
    mass_unit: Literal["kg", "lb"]
    length_unit: Literal["cm", "in"]
    paper: Literal["a4", "a5", "letter", "half-letter"]
    dates: DateStyle = "iso"
    gym: Gym | None = None
    times: dict[Day, str] = Field(default_factory=dict)
    tests: Seq[TestLine] = ()


class Block(Model):
    file: Literal["block/1"]
    id: str
    athlete: Reference
    library: Reference
    template: Reference
    benchmarks: Reference
    made_with: str
    rules_version: str
    seed: int
    deterministic_time: float
    plan_sha256: str
    for_athlete: AthleteLine
    template_name: str
    gap: Gap
    proof: Proof
    shortfalls: Seq[Shortfall]
    cautions: Seq[Text]
    weeks: Annotated[Seq[Week], Field(min_length=1)]
