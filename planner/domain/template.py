"""A template: the shape of a block that a coach may copy and argue with. Everything that is a limit lives here."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import Count, Fraction, Model, MovementId, Name, Seq, Text
from planner.domain.template_limits import Counting, Deload, Factor, LoadLimits, Ratio, SteadyProgress, Taper
from planner.domain.template_prices import ChangePrices, NearPrices, Preferences, Prices
from planner.domain.terms import Joint, Level, Part, Pattern, Quality, Role, Tier

Reps = Annotated[int, Field(ge=1, le=40)]
SetRange = Annotated[Seq[Annotated[int, Field(ge=0, le=20)]], Field(min_length=2, max_length=2)]


class WeekPlan(Model):
    phase: MovementId
    role: Role


class SchemeWeek(Model):
    """One week of a loading wave. ``sets`` [low, high] per session; [0, 0] bars the scheme in that week.

    ``percent`` of the one-repetition maximum, ``reserve`` in repetitions; load, reps and reserve must agree within
    about one repetition of the load-repetition table (the ``load-agrees`` rule).
    """

    sets: SetRange
    reps: Reps | None = None
    percent: Annotated[float, Field(ge=20, le=100)] | None = None
    reserve: Annotated[int, Field(ge=0, le=10)] | None = None
    hold_s: Annotated[int, Field(ge=3, le=120)] | None = None


class SchemeHead(Model):
    """What a loading wave is. ``ramp_s``: seconds of warm-up sets before the first working set of a session."""

    about: Text | None = None
    source: Text
    ramp_s: Annotated[int, Field(ge=0, le=1200)] = 0


class Scheme(SchemeHead):
    """A loading wave."""

    weeks: Seq[SchemeWeek]


class ShapePart(Model):
    """A part of a session: between so many movements of it, limited to these patterns where any are named."""

    part: Part
    items: SetRange
    patterns: Seq[Pattern] = ()


class Shape(Model):
    """A kind of session: its parts in the order done, and the highest jump tier it takes."""

    id: MovementId
    name: Name
    why: Text
    parts: Seq[ShapePart]
    highest_tier: Tier
    items: SetRange
    warm_up_minutes: Annotated[int, Field(ge=0, le=30)]
    low_contacts_only_up_to: Count | None = None  # a primer: no more contacts than this, all low


class DayPlan(Model):
    """The sessions of a week with so many training days. ``factor`` scales the week's budgets.

    ``shapes`` stand in the order a coach would have them; the solver moves one to another day where it must.
    ``test_week`` is in order of date.
    """

    days: Annotated[int, Field(ge=1, le=6)]
    levels: Seq[Level] = ()  # none named: every level that the template serves
    factor: Factor
    shapes: Seq[MovementId]
    # The test itself is the last day of the block and no shape.
    test_week: Seq[MovementId]


class WeekBudget(Model):
    """What one week aims at, before day factor and emphasis: centres of the bands."""

    sets: dict[Quality, Annotated[float, Field(ge=0, le=40)]]
    contacts: Count
    medium: Count
    high: Count
    approach: Count = 0  # maximal jumps off the run-up, part of the high tier
    sprints: Count


class Growth(Model):
    """Limit on a load week against the last load week: at most ``ratio`` times it plus ``step``."""

    ratio: Ratio
    step: Count


class GrowthLimits(Model):
    sets: Growth
    contacts: Growth
    low: Growth
    medium: Growth
    high: Growth
    sprints: Growth
    joint_stress: Growth  # points of a joint and leg


class StressCeilings(Model):
    """Points per joint and leg; contacts of tag-3 jumps a leg."""

    session: Annotated[float, Field(ge=0, le=300)]
    two_days: Annotated[float, Field(ge=0, le=300)]
    week: Annotated[float, Field(ge=0, le=300)]
    tag3_contacts_session: Count
    tag3_contacts_week: Count


class LevelLimits(Model):
    session_contacts: Count
    highest_tier: Tier
    least_reserve: Annotated[int, Field(ge=0, le=6)]
    joint_stress: StressCeilings
    growth: GrowthLimits


class LevelPlan(LevelLimits):
    weeks: Seq[WeekBudget]


class BandWidth(Model):
    """Half-width of a band: a fraction of its centre, never under half of the least width."""

    fraction: Fraction
    least_sets: Factor
    least_contacts: Count
    least_approach: Count
    least_sprints: Count


class Floors(Model):
    """The least a quality gets, as a share of its sets before the emphasis, by role, never more than the week aims at;
    the least a sport week keeps as primer."""

    sets: dict[Role, Fraction]
    contacts: dict[Role, Fraction]
    primer_contacts: Count


class HardDay(Model):
    """What makes a day hard, and how far apart hard days stay (in dates)."""

    high_contacts_leg: Count
    sprints: Count
    sprint_speed_percent: Annotated[int, Field(ge=50, le=100)]
    days_apart: Annotated[int, Field(ge=1, le=5)]
    days_before_match: Annotated[int, Field(ge=0, le=5)]
    days_before_test: Annotated[int, Field(ge=0, le=7)]


class PainStep(Model):
    """Up to this pain (0-10): the factor on stress ceilings, the share of tag-3 work kept."""

    up_to: Annotated[int, Field(ge=0, le=10)]
    ceiling_factor: Factor
    tag3_share: Fraction


class SportStress(Model):
    """Joint stress of an hour of practice, points a leg; a match counts ``match_factor`` times."""

    per_hour: dict[Joint, Annotated[float, Field(ge=0, le=50)]]
    match_factor: Factor


class Youth(Model):
    """Limits below ``under_years`` or for novices, whatever the template; a coach's word does not lift them."""

    under_years: Annotated[int, Field(ge=10, le=21)]
    jump_days: Annotated[int, Field(ge=1, le=5)]
    contacts_week: Count  # the most in any week
    least_reserve: Annotated[int, Field(ge=0, le=6)]
    days_apart: Annotated[int, Field(ge=1, le=5)]  # between jump days
    growth_cm_month: Factor
    growth_days: Annotated[int, Field(ge=1, le=365)]  # first and last stature at least this far apart
    # A file from before these lines is read as the packaged one: two readings, or a whole year's, tell no growth.
    growth_readings: Annotated[int, Field(ge=3, le=12)] = 3
    growth_weeks: Annotated[int, Field(ge=1, le=52)] = 12  # statures of these last weeks make the slope
    stature_error_cm: Annotated[float, Field(ge=0, le=3)] = 0.4
    growth_factor: Factor


class Gates(Model):
    """What opens the high tier: a squat of so many body masses, and landings that hold."""

    high_tier_squat_body_mass: Factor
    heavy_body_kg: Annotated[float, Field(ge=60, le=200)]
    heavy_body_drop_m: Fraction
    sprint_run_out_m: Annotated[float, Field(ge=0, le=50)]  # runway left over to slow down in
    approach_runway_m: Annotated[float, Field(ge=0, le=60)]  # for jumps off a run-up
    closed_high_as_medium: Fraction  # of the high contacts, where the tier is closed


class Separations(Model):
    """Days that must lie between: eccentric hamstring work, or a heavy hinge, and the next sprints."""

    eccentric_before_sprint_days: Annotated[int, Field(ge=0, le=5)]
    heavy_hinge_before_sprint_days: Annotated[int, Field(ge=0, le=5)]


class MinutesPer(Model):
    """What work takes, rests included: used to fit the bands to the week's minutes before the solver starts."""

    day: Annotated[float, Field(ge=0, le=60)]  # warm-up and ramp-up sets
    set: Factor
    low_contact: Factor
    medium_contact: Factor
    high_contact: Factor
    sprint: Factor


class TestLine(Model):
    """A counted test at the end of the block: trials, and what they cost in contacts."""

    __test__ = False
    practice_jumps: Count
    counted_jumps: Count
    jump_s: Count
    rest_s: Count
    minutes: Count


class FileHead(Model):
    file: str
    id: MovementId
    name: Name
    about: Text
    source: Text


class LimitSections(FileHead):
    """Limits that templates may share; a limits file holds them all."""

    required_patterns: dict[Role, Seq[Pattern]]
    band_width: BandWidth
    floors: Floors
    deload: Deload
    taper: Taper
    steady_progress: SteadyProgress
    tag3_least_share: Fraction
    counting: Counting
    start_growth: Factor
    unknown_load_weeks: Annotated[int, Field(ge=0, le=52)]  # a level down, where the recent load is not known
    # Working sets for each set that the four qualities are credited with: trunk and hamstrings carry few tags.
    sets_per_credited_set: Annotated[float, Field(gt=0, le=5)]
    maintenance_share: Fraction  # of the sets of maximal strength, once more of it is surely not needed
    hard_day: HardDay
    separations: Separations
    pain: Annotated[Seq[PainStep], Field(min_length=1)]
    sport_stress: SportStress
    gates: Gates
    youth: Youth
    loads: LoadLimits
    minutes_per: MinutesPer
    prices: Prices
    preferences: Preferences
    changes: ChangePrices
    near: NearPrices
    test_day: TestLine
    cautions: Annotated[Seq[Text], Field(min_length=1)]


class Template(LimitSections):
    file: Literal["template/1"]
    weeks: Annotated[Seq[WeekPlan], Field(min_length=2, max_length=52)]
    reference_week: Annotated[int, Field(ge=1, le=52)]
    levels: dict[Level, LevelPlan]
    day_plans: Annotated[Seq[DayPlan], Field(min_length=1)]
    shapes: Annotated[Seq[Shape], Field(min_length=1)]
    schemes: dict[str, Scheme]
