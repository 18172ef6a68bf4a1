"""The block: weeks of sessions, the proof, and where every input came from. Cards need only this."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from planner.domain.athlete import JointState
from planner.domain.base import CalendarDate, Model, MovementId, Seq, T, Text
from planner.domain.block_before import BlockBefore
from planner.domain.block_parts import LegPoints, Reference
from planner.domain.completeness import require_few_sums
from planner.domain.fields import (
    Cautions,
    Cues,
    Date,
    FigureUnit,
    FileKind,
    Id,
    InReserve,
    JumpsOff,
    ObstacleHeight,
    OnSide,
    Paper,
    PercentOfMaximum,
    PrintedName,
    Rest,
    Sprints,
    WarmUpMinutes,
    WeekRole,
)
from planner.domain.gap_record import Gap
from planner.domain.terms import DateStyle, Day, Implement, Joint, Leg, Part, Quality, Side, Tier
from planner.domain.training_log import OtherWork

# The note of a load that is split over both hands; a card shows the two dumbbells instead.
HALF_IN_EACH_HAND = "two of half each"


Outcome = Annotated[T, Field(description="What came of it.")]


HISTORY = "History, "  # how a caution begins that says what a joint has been through; it is private
PAIN = "Pain when planned, "  # how one begins that says which joint hurt on the day of planning; it is on every card


class Stage(Model):
    name: PrintedName[str]
    status: Outcome[Literal["optimal", "feasible", "skipped"]]
    objective: int | None = Field(default=None, description="What was reached.")
    bound: int | None = Field(default=None, description="What no block can be better than.")
    unit: FigureUnit


class Proof(Model):
    """``optimal`` means stage 1 (bands) proved over the whole library."""

    status: Literal["optimal", "feasible"] = Field(
        description="optimal: no block of the whole library comes closer to its weekly ranges."
    )
    scope: Literal["library", "shortlist"] = Field(description="Always the library in new blocks.")
    stages: Seq[Stage] = Field(description="The solver's stages in order.")


class Shortfall(Model):
    """A soft rule not met in full, in its own unit."""

    rule: str = Field(description="The rule that is not met in full.")
    where: str = Field(description="Week, or week and session.")
    amount: float = Field(description="How much is short or over.")
    unit: FigureUnit
    sentence: str = Field(description="The same in words.")


class Band(Model):
    low: float = Field(description="The least asked for.")
    high: float = Field(description="The most asked for.")


class Bands(Model):
    """What the week was asked for. Working sets per quality, contacts in all and per tier, sprint efforts."""

    working_sets: dict[Quality, Band] = Field(description="Weekly range of each quality.")
    contacts: Band = Field(description="Weekly range of all contacts.")
    tiers: dict[Tier, Band] = Field(description="Weekly range of each tier.")
    sprint_efforts: Band = Field(description="Weekly range of sprint efforts.")
    joint_stress: dict[Joint, float] = Field(description="Weekly ceiling of each joint, points a leg.")


class Totals(Model):
    """Programmed work of the week, without sport except in joint stress."""

    working_sets: dict[Quality, float] = Field(description="Credited sets of each quality.")
    contacts: dict[Tier, int] = Field(description="Contacts of each tier.")
    sprint_efforts: Sprints[int]
    sprint_m: float = Field(description="Metres sprinted.")
    joint_stress: dict[Joint, LegPoints] = Field(description="Points of each joint and leg, sport included.")


class Item(Model):
    """One line of a session. A sprint's effort is a set of one rep."""

    id: str = Field(description="Week, session and item, such as w1s1i1.")
    part: Part | Literal["test"] = Field(description="The part of the session.")
    movement: MovementId = Field(description="Id in the library.")
    name: PrintedName[str]
    side: Side = Field(description="both legs at once, each in turn, or one leg only.")
    sets: int = Field(ge=0, le=60, description="Sets; 0 where this date bars it, with the reason in note.")
    extra_set: Leg | None = Field(
        default=None,
        description="The weaker leg, which goes first and gets one set more; null where both get the same.",
    )
    reps: Annotated[int, Field(ge=0, le=60)] | None = Field(
        default=None, description="Reps of a set, of one leg where legs are worked apart."
    )
    load_kg: Annotated[float, Field(ge=0, le=1000)] | None = Field(
        default=None, description="Load on the bar or in the hands, as the gym can make it."
    )
    implement: Implement | None = Field(default=None, description="What the load is built from.")
    percent: PercentOfMaximum[Annotated[float, Field(ge=0, le=120)] | None] = None
    percent_with_body: bool = Field(
        default=False, description="Whether that is a percentage of load and body mass together."
    )
    reps_in_reserve: InReserve = None
    distance_m: Annotated[float, Field(ge=0, le=400)] | None = Field(default=None, description="Distance of an effort.")
    fly_in_m: Annotated[float, Field(gt=0, le=400)] | None = Field(
        default=None, description="Build-up before the distance of a flying sprint."
    )
    height_m: ObstacleHeight[Annotated[float, Field(ge=0, le=3)] | None] = None
    height_of: Literal["box", "hurdle"] | None = Field(default=None, description="Whether that is a box or a hurdle.")
    drop_m: Annotated[float, Field(ge=0, le=3)] | None = Field(
        default=None, description="Height of the box it is stepped off from."
    )
    hold_s: Annotated[int, Field(ge=0, le=600)] | None = Field(default=None, description="Length of a hold.")
    rest_s: Rest[Annotated[int, Field(ge=0, le=1800)] | None] = None
    contacts: int = Field(default=0, ge=0, le=2000, description="Landings of the whole item, all sets, both legs.")
    tier: Tier | None = Field(default=None, description="Tier of the jump.")
    cues: Cues[Seq[Text]] = ()
    cautions: Cautions[Seq[Text]] = ()
    note: Text | None = Field(default=None, description="Why 0 sets, or how to find the load.")


class Session(Model):
    id: str = Field(description="Week and session, such as w1s1.")
    date: Date
    minutes: int = Field(description="Planned length, warm-up and rests included.")
    hard_day: bool = Field(description="Whether it counts as a hard day.")
    why: Text = Field(description="What the session is for.")
    focus: str = Field(description="The session shape's id.")
    title: Text | None = Field(default=None, description="The session shape's name.")
    warm_up_minutes: WarmUpMinutes[int]
    items: Seq[Item] = Field(description="Its movements in order.")


class Week(Model):
    number: int = Field(ge=1, le=52, description="Counting from 1.")
    phase: str = Field(description="The template's phase.")
    role: WeekRole
    start: CalendarDate = Field(description="Its first day.")
    totals: Totals = Field(description="What it holds.")
    bands: Bands = Field(description="What was asked for.")
    sessions: Seq[Session] = Field(description="Its sessions by date.")


class Gym(Model):
    """What loads are built from."""

    bar_kg: float | None = Field(default=None, description="Mass of the bar, kg.")
    plates_kg: Seq[float] = Field(default=(), description="One entry for each pair of plates, kg.")
    dumbbells_kg: Seq[float] = Field(default=(), description="Dumbbells there are, kg.")

    @model_validator(mode="after")
    def _few_loads(self) -> Gym:
        require_few_sums("plates_kg", self.plates_kg)
        return self


class TestLine(Model):
    """A test as the athlete took it, so that the test day repeats it."""

    __test__ = False  # not a pytest class

    kind: str = Field(description="Kind of test, such as touch or lift.")
    movement: str | None = Field(default=None, description="Name of the lift.")
    side: OnSide[Leg | None] = None
    how: Seq[Text] = Field(default=(), description="Take-off, method, protocol.")
    trials: int = Field(default=1, ge=1, le=40, description="How many trials were taken.")
    date: Date
    result: Outcome[Text]


class AthleteLine(Model):
    """What a card needs of the athlete, copied so that cards read only the block."""

    name: PrintedName[str]
    level: str = Field(description="The athlete's level.")
    take_off: JumpsOff[str]
    target: str = Field(description="The target in words.")
    mass_unit: Literal["kg", "lb"] = Field(description="Unit of masses on the cards.")
    length_unit: Literal["cm", "in"] = Field(description="Unit of lengths on the cards.")
    paper: Paper
    dates: DateStyle = Field(default="iso", description="How dates are written.")
    gym: Gym | None = Field(default=None, description="The bar, plates and dumbbells there are.")
    runway_m: float | None = Field(
        default=None, description="Straight floor to run on, metres; null in blocks of earlier releases."
    )
    times: dict[Day, str] = Field(
        default_factory=dict,
        description="When training starts, by weekday, such as 17:30; days without a time are left out.",
    )
    tests: Seq[TestLine] = Field(default=(), description="The tests as they were taken.")


class PastItem(Model):
    """An item that was not done as planned."""

    item: str = Field(description="Its id, such as w1s1i6.")
    movement: MovementId | None = Field(default=None, description="The movement done instead of the card's.")
    sets: int = Field(ge=0, le=60, description="Sets done.")
    contacts: int = Field(default=0, ge=0, le=5000, description="Landings in them.")


class PastSession(Model):
    """A session before the first day that was not done as planned."""

    session: str = Field(description="Its id, such as w1s1.")
    date: CalendarDate | None = Field(default=None, description="The day it was done, if that is another.")
    missed: Text | None = Field(default=None, description="Why it was missed; left out where it was done.")
    items: Seq[PastItem] = Field(default=(), description="Items with other sets, landings or movements.")


class Edit(Model):
    """A coach's own change of a session. The rest of a block is planned anew around it."""

    session: str = Field(description="Its id, such as w3s2.")
    what: Literal["swap", "sets", "move", "drop"] = Field(description="What was changed.")
    movement: MovementId | None = Field(default=None, description="The movement that was swapped or got other sets.")
    into: MovementId | None = Field(default=None, description="The movement in its place.")
    sets: Annotated[int, Field(ge=0, le=60)] | None = Field(default=None, description="Its sets.")
    date: CalendarDate | None = Field(default=None, description="The day that the session was on before.")


class Routine(Model):
    """The weekly training days of a block from a week on."""

    since: CalendarDate = Field(description="First day of the week from which they hold.")
    days: Seq[Day] = Field(description="The weekdays.")


class Revision(Model):
    """What a revised block starts from. Everything before the first day is kept as it was printed."""

    first_day: CalendarDate = Field(description="The first day that was planned anew.")
    block: Reference = Field(description="The block that was revised.")
    log: Reference | None = Field(default=None, description="The log that says what was done, if there was one.")
    routines: Seq[Routine] = Field(
        min_length=1, description="Weekly training days, each with the day from which they hold."
    )
    done: Seq[PastSession] = Field(default=(), description="Sessions that were not done as planned.")
    pain: Seq[JointState] = Field(default=(), description="Joints with pain on the first day, by the log.")
    extra: Seq[OtherWork] = Field(default=(), description="Work outside the block that the log tells of.")
    maxima: dict[str, float] = Field(
        default_factory=dict, description="Maxima by the log on the first day, as shares of those tested, by lift."
    )
    forced: Seq[Shortfall] = Field(
        default=(), description="Rules that what was done already breaks, whatever comes after it."
    )


class Block(Model):
    file: FileKind[Literal["block/1"]]
    id: Id[str]
    athlete: Reference = Field(description="The athlete's file this block was made from.")
    library: Reference = Field(description="The library it was made from.")
    template: Reference = Field(description="The template it was made from.")
    benchmarks: Reference = Field(description="The benchmarks it was made from.")
    made_with: str = Field(description="The release that made it.")
    rules_version: str = Field(description="Digest of the rules and their limits.")
    seed: int = Field(description="The solver's seed.")
    deterministic_time: float = Field(description="The solver's budget, the same on every machine.")
    plan_sha256: str = Field(
        description="Digest of the rest; after an edit by hand it no longer fits, and nothing calls the block proved."
    )
    for_athlete: AthleteLine = Field(description="What the cards print of the athlete.")
    template_name: str = Field(description="The template's name, printed on the overview.")
    gap: Gap = Field(description="The estimate that the block rests on.")
    proof: Proof = Field(description="What the solver proved.")
    shortfalls: Seq[Shortfall] = Field(description="Where a week is over or under its range, each in its own unit.")
    cautions: Cautions[Seq[Text]]
    revision: Revision | None = Field(
        default=None, description="What a revised block starts from; left out in a block planned as a whole."
    )
    before: BlockBefore | None = Field(
        default=None, description="The block before this one and what it left; left out where none was named."
    )
    edits: Seq[Edit] = Field(default=(), description="What a coach changed by jumpblock change, in order.")
    weeks: Seq[Week] = Field(min_length=1, description="The weeks.")

    @property
    def sessions(self) -> tuple[Session, ...]:
        """Of all weeks, in order."""
        return tuple(session for week in self.weeks for session in week.sessions)
