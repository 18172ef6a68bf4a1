"""A template: the shape of a block that a coach may copy and argue with. Everything that is a limit lives here."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field

from planner.domain.base import Count, Fraction, Model, MovementId, Name, Seq, T, Text
from planner.domain.fields import (
    About,
    FileKind,
    Id,
    InReserve,
    PercentOfMaximum,
    PrintedName,
    Source,
    Sprints,
    WarmUpMinutes,
    WeekRole,
)
from planner.domain.template_limits import (
    BandWidth,
    ComingBack,
    Counting,
    DeloadLimits,
    Factor,
    FewestInReserve,
    Floors,
    Gates,
    HardDay,
    LoadLimits,
    LoadProgress,
    MinutesPer,
    PainStep,
    Ratio,
    SeparationDays,
    SportStress,
    SteadyProgressLimits,
    TaperLimits,
    TestPlan,
    Youth,
)
from planner.domain.template_prices import ChangePrices, NearPrices, PreferencePrices, Prices, RevisePrices
from planner.domain.template_weekly import WeeklySections
from planner.domain.terms import Joint, Level, Part, Pattern, Quality, Role, Tier

Reps = Annotated[int, Field(ge=1, le=40)]
SetRange = Annotated[Seq[Annotated[int, Field(ge=0, le=20)]], Field(min_length=2, max_length=2)]


LevelsServed = Annotated[T, Field(description="Budgets, ceilings and limits for each level served.")]
Waves = Annotated[T, Field(description="The planned progressions, by name.")]
MediumContacts = Annotated[T, Field(description="Contacts of the medium tier.")]
HighContacts = Annotated[T, Field(description="Contacts of the high tier.")]


class WeekPlan(Model):
    phase: MovementId = Field(description="Its phase.")
    role: WeekRole


class SchemeWeek(Model):
    """One week of a loading wave. Load, reps and reserve must agree (the ``load-agrees`` rule)."""

    sets: SetRange = Field(
        description="Least and most working sets in one session; [0, 0] keeps the work out of the week."
    )
    reps: Reps | None = Field(default=None, description="Reps of a set.")
    percent: PercentOfMaximum[Annotated[float, Field(ge=20, le=100)] | None] = None
    reserve: InReserve = None
    hold_s: Annotated[int, Field(ge=3, le=120)] | None = Field(default=None, description="Length of a hold, seconds.")


class SchemeHead(Model):
    """What a loading wave is."""

    about: About[Text | None] = None
    source: Source
    ramp_s: int = Field(
        default=0, ge=0, le=1200, description="Warm-up sets before the first working set of a session, seconds."
    )


class Scheme(SchemeHead):
    """A loading wave."""

    weeks: Seq[SchemeWeek] = Field(description="One entry a week, in order.")


class ShapePart(Model):
    """A part of a session."""

    part: Part = Field(description="Which part.")
    items: SetRange = Field(description="Least and most movements of it.")
    patterns: Seq[Pattern] = Field(default=(), description="Only movements of one of these patterns.")


# What a session's reason may speak of. run-up-jump, target-jump: the athlete's own jump, off the run-up or either way;
# easy-tendons: another day of the week has more Achilles points; match: the athlete plays matches.
Claim = Literal[
    "run-up-jump", "target-jump", "high-jump", "jump", "no-jump", "sprint", "squat", "hinge", "easy-tendons", "match"
]


class Reason(Model):
    """A reason that is printed only where it is true."""

    holds: Seq[Claim] = Field(min_length=1, description="What must be so; all of it.")
    says: Text = Field(description="The reason, printed on the card.")


class Shape(Model):
    """A kind of session."""

    id: Id[MovementId]
    name: PrintedName[Name]
    why: Text = Field(description="What the session is for; printed on the card.")
    why_if: Seq[Reason] = Field(
        default=(), description="Reasons that come first, each where what it speaks of is on the card."
    )
    parts: Seq[ShapePart] = Field(description="Its parts in the order done.")
    highest_tier: Tier = Field(description="The highest tier of jump it takes.")
    items: SetRange = Field(description="Least and most movements.")
    warm_up_minutes: WarmUpMinutes[Annotated[int, Field(ge=0, le=30)]]
    low_contacts_only_up_to: Count | None = Field(default=None, description="A primer: no more contacts than this.")


KindsOfSession = Annotated[Seq[Shape], Field(min_length=1, description="The kinds of session.")]


class DayPlan(Model):
    """The sessions of a week with this number of training days."""

    days: int = Field(ge=1, le=6, description="Number of training days.")
    levels: Seq[Level] = Field(default=(), description="For these levels only; left out, for all.")
    factor: Factor = Field(description="Factor on the week's budgets.")
    set_factors: dict[Quality, Factor] = Field(
        default={}, description="Factor on the sets of a quality, in place of the one on all."
    )
    shapes: Seq[MovementId] = Field(
        description="The sessions in the coach's order, one a day; the solver moves one to another day where it must."
    )
    # The test itself is the last day of the block and no shape.
    test_week: Seq[MovementId] = Field(description="The sessions of the test week, in order of date.")


class WeekBudget(Model):
    """What one week aims at, before day factor and emphasis: centres of the bands."""

    sets: dict[Quality, Annotated[float, Field(ge=0, le=40)]] = Field(description="Working sets of each quality.")
    contacts: Count = Field(description="Contacts in all.")
    medium: MediumContacts[Count]
    high: HighContacts[Count]
    approach: Count = Field(default=0, description="Maximal jumps off the run-up; the high ones include them.")
    sprints: Sprints[Count]


class Growth(Model):
    """The most that a load week may be, measured against the last one."""

    ratio: Ratio = Field(description="Times the last load week.")
    step: Count = Field(description="Added to that.")


class GrowthLimits(Model):
    sets: Growth = Field(description="Of working sets.")
    contacts: Growth = Field(description="Of contacts in all.")
    low: Growth = Field(description="Contacts of the low tier.")
    medium: MediumContacts[Growth]
    high: HighContacts[Growth]
    sprints: Sprints[Growth]
    joint_stress: Growth = Field(description="Of the points of a joint and leg.")


class StressCeilings(Model):
    """Points per joint and leg; contacts of tag-3 jumps a leg."""

    session: float = Field(ge=0, le=300, description="In one session.")
    two_days: float = Field(ge=0, le=300, description="On a day and the next.")
    week: float = Field(ge=0, le=300, description="In a week.")
    tag3_contacts_session: Count = Field(description="Contacts a leg of tag-3 jumps in a session.")
    tag3_contacts_week: Count = Field(description="The same in a week.")


class LevelLimits(Model):
    session_contacts: Count = Field(description="The most contacts in a session.")
    highest_tier: Tier = Field(description="The highest tier of jump at this level.")
    least_reserve: FewestInReserve
    joint_stress: StressCeilings = Field(description="Ceilings, points a joint and leg.")
    growth: GrowthLimits = Field(description="The most that a load week may grow over the last.")


class LevelPlan(LevelLimits):
    weeks: Seq[WeekBudget] = Field(description="The budget of each week.")


class Older(Model):
    """What age takes off the ceilings of some joints, and off how fast joint stress grows."""

    from_years: int = Field(ge=25, le=90, description="The age from which it holds.")
    joints: Seq[Joint] = Field(description="The joints whose ceilings are lowered.")
    ceiling_factor: Fraction = Field(description="Factor on their stress ceilings.")
    stress_growth: Growth = Field(
        description="The most that the points of a joint and leg grow, in place of the level's."
    )


class FileHead(Model):
    file: FileKind[str]
    id: Id[MovementId]
    name: PrintedName[Name]
    about: About[Text]
    source: Source


class LimitSections(WeeklySections, FileHead):
    """Limits that templates may share; a limits file holds them all."""

    required_patterns: dict[Role, Seq[Pattern]] = Field(description="Patterns that every week of a role must hold.")
    band_width: BandWidth = Field(description="How wide the weekly ranges around the budgets are.")
    floors: Floors = Field(description="The least sets and contacts that each role keeps.")
    deload: DeloadLimits = Field(description="A deload week's share of the reference week.")
    taper: TaperLimits = Field(description="A taper week's share of the reference week.")
    steady_progress: SteadyProgressLimits = Field(description="How much a movement's sets may rise through a phase.")
    tag3_least_share: Fraction = Field(description="The least share of a budget from movements that train it in full.")
    rules: dict[MovementId, dict[str, Any]] = Field(
        default_factory=dict, description="What single rules ask, each under its id; left out, they ask nothing."
    )
    counting: Counting = Field(description="What a set counts as, by its tags.")
    start_growth: Factor = Field(description="The most that week 1 may be of the recent load.")
    unknown_load_weeks: int = Field(
        ge=0, le=52, description="How many weeks are planned a level down where the recent load is not known."
    )
    # Trunk and hamstrings carry few tags.
    sets_per_credited_set: float = Field(
        gt=0, le=5, description="Working sets a week for each that the four qualities are credited with."
    )
    maintenance_share: Fraction = Field(
        description="Share of the sets of maximal strength kept once more is surely not needed."
    )
    maintenance_waves: Annotated[dict[str, str], Field(max_length=40)] = Field(
        default_factory=dict,
        description="The planned progression of a lift that is only kept, by the one in whose place it comes.",
    )
    hard_day: HardDay = Field(description="What makes a day hard, and how far apart hard days are.")
    separations: SeparationDays = Field(description="Days kept between hard hamstring work and sprints.")
    pain: Seq[PainStep] = Field(min_length=1, description="What pain takes off, mildest first.")
    sport_stress: SportStress = Field(description="What practices and matches load.")
    gates: Gates = Field(description="What an athlete and a gym need for high jumps and sprints.")
    youth: Youth = Field(description="Limits below an age, and for novices.")
    older: Older | None = Field(default=None, description="Limits above an age.")
    loads: LoadLimits = Field(description="Steps of machines, and how well load, reps and reserve agree on the card.")
    progress: LoadProgress | None = Field(
        default=None, description="How work rises that no planned percentage leads: novices, and work without a load."
    )
    minutes_per: MinutesPer = Field(description="What work takes in minutes, to fit the weekly ranges.")
    prices: Prices = Field(description="What a unit over or under costs, in the solver's first stage.")
    preferences: PreferencePrices = Field(description="What makes one block better to run than another.")
    changes: ChangePrices = Field(
        description="What each change weighs where there is no block and the cheapest is looked for."
    )
    near: NearPrices = Field(description="What each change from the block in use weighs, with --near.")
    coming_back: ComingBack | None = Field(
        default=None, description="What a running block makes of days lost to illness or travel."
    )
    revise: RevisePrices | None = Field(
        default=None, description="What each change weighs when the rest of a running block is planned anew."
    )
    test_day: TestPlan = Field(description="The test that closes the block.")
    cautions: Seq[Text] = Field(min_length=1, description="Printed on every card.")


class Template(LimitSections):
    file: FileKind[Literal["template/1"]]
    weeks: Seq[WeekPlan] = Field(min_length=2, max_length=52, description="Phase and role of each week.")
    reference_week: int = Field(ge=1, le=52, description="The week that deload and taper are measured against.")
    levels: LevelsServed[dict[Level, LevelPlan]]
    day_plans: Seq[DayPlan] = Field(min_length=1, description="The sessions of a week, by its number of training days.")
    shapes: KindsOfSession
    schemes: Waves[dict[str, Scheme]]
