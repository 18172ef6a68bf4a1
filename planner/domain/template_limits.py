"""Small limits of a template, each a section of its own: shares of another week, progress, loads on the card."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AfterValidator, Field
from pydantic_core import PydanticCustomError

from planner.domain.base import Count, Fraction, Model, Seq
from planner.domain.fields import MinutesLong
from planner.domain.terms import Joint, Role

Factor = Annotated[float, Field(ge=0, le=5)]


def _to_three_places(ratio: float) -> float:
    if ratio != round(ratio, 3):
        raise PydanticCustomError(
            "quantity", "{reason}", {"reason": f"{ratio} has more than three decimal places", "hint": "round it"}
        )
    return ratio


# Rows are whole numbers: with more places the solver and the audit would not mean the same.
Ratio = Annotated[Factor, AfterValidator(_to_three_places)]


FewestInReserve = Annotated[int, Field(ge=0, le=6, description="The fewest reps left in reserve.")]
LargestShare = Annotated[Fraction, Field(description="The largest share of it.")]


class DeloadLimits(Model):
    """A deload week, measured against the last load week."""

    low: Fraction = Field(description="The least share of the last load week.")
    high: LargestShare
    aim_under: Fraction = Field(description="The weekly ranges aim this far under the largest share.")


class TaperLimits(Model):
    """A taper week, measured against the reference week."""

    low: Fraction = Field(description="The least share of the reference week.")
    high: LargestShare
    small: Count = Field(description="Where the week has fewer of something than this, one more or less is allowed.")


# Those by which the solver's smallest part of a point can be divided, so that rows and recount agree to the last bit.
DoseParts = Literal[1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 24, 30, 40, 60, 120]


class Counting(Model):
    """What a set counts as, by its tags. A dose is a working set, or what counts as one."""

    quality_quarters: Seq[Annotated[int, Field(ge=0, le=4)]] = Field(
        min_length=3, max_length=3, description="Quarters of a set for a quality, for a tag of 1, 2 and 3."
    )
    stress_weights: Seq[Annotated[int, Field(ge=0, le=20)]] = Field(
        min_length=3, max_length=3, description="Points of a joint a dose, for a tag of 1, 2 and 3."
    )
    contacts_per_dose: DoseParts = Field(description="Contacts of a leg that count as one working set does.")
    hold_s_per_dose: DoseParts = Field(description="Seconds of holding that count as one working set does.")
    sprint_m_per_dose: DoseParts = Field(description="Metres of sprinting that count as one working set does.")


class SteadyProgressLimits(Model):
    """How much a movement's sets may rise to the next load week of a phase."""

    more_sets: Count = Field(description="The most that a lift's or hold's sets rise to the next load week.")
    more_efforts: Count = Field(description="The same for jumps and sprints.")


class LoadLimits(Model):
    """Loads on the card, and how far load, reps and reserve may be from the load-repetition table."""

    machine_step_kg: float = Field(gt=0, le=20, description="Step of stacks, vests and single plates held, kg.")
    most_reps_off: Factor = Field(
        description="A load that the gym can only make further from the planned reps than this, is not printed."
    )
    agree_reps: Factor = Field(description="Load, reps and reserve agree within this many reps.")
    agree_percent: Factor = Field(description="Load and percentage agree within this, percent of the maximum.")
    easy_reserve: int = Field(
        ge=0,
        le=10,
        description="With this many reps in reserve or more, work is easy and fast and any lighter load agrees.",
    )


class LoadProgress(Model):
    """How work rises that no wave's percentage leads: a novice's tested lifts, and what is done without a load.

    Left out, as in templates of earlier releases: the wave's reps and reserve for everybody.
    """

    novice_gain_percent_a_week: float = Field(
        default=0, ge=0, le=10, description="What a novice's tested lift is planned to gain a week, percent."
    )
    novice_reps: Annotated[Seq[Count], Field(min_length=2, max_length=2)] = Field(
        description="Fewest and most reps of a novice's tested lift: reps rise, then the next load of the gym comes."
    )
    unloaded_more_reps: Count = Field(
        description="Reps that work without a load gains each load week; no reserve is printed for it."
    )
    most_unloaded_reps: Count = Field(description="The most reps of work without a load.")
    fewest_reps_offered: int = Field(
        ge=1,
        le=20,
        description="Where the gym has no load for the planned reps, its nearest one if it allows this many reps.",
    )


class BandWidth(Model):
    """Half-width of a band: a fraction of its centre, never under half of the least width."""

    fraction: Fraction = Field(description="Half-width as a share of the middle.")
    least_sets: Factor = Field(description="Least width in sets.")
    least_contacts: Count = Field(description="Least width in contacts.")
    least_approach: Count = Field(description="Least width in maximal jumps off the run-up.")
    least_sprints: Count = Field(description="Least width in sprints.")


class Floors(Model):
    """The least that stays, whatever the emphasis; never more than the week aims at."""

    sets: dict[Role, Fraction] = Field(description="Share of a quality's sets kept, by role.")
    contacts: dict[Role, Fraction] = Field(description="Share of the contacts kept, by role.")
    primer_contacts: Count = Field(description="Contacts kept as a primer in a week full of sport.")


class HardDay(Model):
    """What makes a day hard, and how far apart hard days are, in dates."""

    high_contacts_leg: Count = Field(description="High-tier contacts a leg that make a day hard.")
    sprints: Count = Field(description="Fast sprints that make a day hard.")
    sprint_speed_percent: int = Field(ge=50, le=100, description="Speed from which a sprint is fast.")
    days_apart: int = Field(ge=1, le=5, description="Days between hard days.")
    days_before_match: int = Field(ge=0, le=5, description="Days kept easy before a match.")
    days_before_test: int = Field(ge=0, le=7, description="Days kept easy before the test.")


class RaisesGate(Model):
    """One-leg heel raises from which calf work on two legs without a load is too easy to train."""

    strict: int = Field(ge=1, le=60, description="Raises by a metronome, at full height.")
    free: int = Field(ge=1, le=60, description="Raises in free form, which count less.")


class Gates(Model):
    """What opens the high tier and the sprints."""

    high_tier_squat_body_mass: Factor = Field(description="Squat that opens the high tier, body masses.")
    squat_errors: Factor | None = Field(
        default=None, description="Standard errors of the squat's test that may be missing; left out: none."
    )
    own_jump_recent_contacts: Count | None = Field(
        default=None,
        description="High contacts of a usual week from which a weak squat leaves the own jump open; left out: never.",
    )
    heavy_body_kg: float = Field(ge=60, le=200, description="Body mass from which drops are lowered, kg.")
    heavy_body_drop_m: Fraction = Field(description="The highest drop then, metres.")
    sprint_run_out_m: float = Field(ge=0, le=50, description="Floor left over to slow down in, metres.")
    approach_runway_m: float = Field(ge=0, le=60, description="Floor that a run-up takes, metres.")
    one_leg_raises: RaisesGate | None = Field(
        default=None, description="Raises on one leg that close calf work on two legs without a load."
    )
    closed_high_as_medium: Fraction = Field(
        description="Share of the high contacts done as medium ones where the high tier is closed."
    )
    tested_lift_closes_beginners: bool = Field(
        default=False,
        description="true if, above novice, a tested main lift closes the beginners' main lifts of its pattern.",
    )


class SeparationDays(Model):
    """Days between eccentric hamstring or heavy hinge work and the next sprints."""

    eccentric_before_sprint_days: int = Field(ge=0, le=5, description="Days from eccentric hamstring work to a sprint.")
    heavy_hinge_before_sprint_days: int = Field(ge=0, le=5, description="Days from a heavy hinge to a sprint.")


class ComingBack(Model):
    """After days lost in a running block, from the first session missed to the first day planned anew."""

    go_on_up_to_days: Count = Field(description="Up to this many days lost, the block goes on as it is.")
    light_up_to_days: Count = Field(
        description="After more, up to this many, the first session back is light, its jumps a tier lower."
    )
    easy_up_to_days: Count = Field(
        default=0, description="After more, up to this many, a whole week is easy too; after still more, a new block."
    )
    easy_week_share: Fraction = Field(default=1.0, description="What an easy week aims at, of what it would else.")

    @property
    def most_days(self) -> int:
        """Days lost after which the rest is no longer the same block."""
        return max(self.light_up_to_days, self.easy_up_to_days)


class PainStep(Model):
    """What pain takes off."""

    up_to: int = Field(ge=0, le=10, description="Up to this pain, 0 to 10.")
    ceiling_factor: Factor = Field(description="Factor on the stress ceilings.")
    tag3_share: Fraction = Field(description="Share of tag-3 contacts kept.")


class SportStress(Model):
    """Joint stress of practices and matches."""

    per_hour: dict[Joint, Annotated[float, Field(ge=0, le=50)]] = Field(
        description="Points a leg for an hour of practice."
    )
    match_factor: Factor = Field(description="How many times a match counts.")


class Youth(Model):
    """Limits for the young and for novices, whatever the template; a coach's word does not lift them."""

    under_years: int = Field(ge=10, le=21, description="The age below which these limits hold.")
    jump_days: int = Field(ge=1, le=5, description="The most jump days a week.")
    contacts_week: Count = Field(description="The most contacts a week.")
    least_reserve: FewestInReserve
    days_apart: int = Field(ge=1, le=5, description="Days between jump days.")
    growth_cm_month: Factor = Field(description="Growth that counts as a spurt, cm a month.")
    growth_days: int = Field(ge=1, le=365, description="Fewest days from the first stature to the last.")
    # A file from before these lines is read as the packaged one: two readings, or a whole year's, tell no growth.
    growth_readings: int = Field(default=3, ge=3, le=12, description="Fewest statures that growth is judged from.")
    growth_weeks: int = Field(
        default=12, ge=1, le=52, description="Growth is the slope over the statures of these last weeks."
    )
    stature_error_cm: float = Field(default=0.4, ge=0, le=3, description="Standard error of one stature, cm.")
    growth_factor: Factor = Field(description="Factor on the stress ceilings in a spurt.")
    waves_of_tested_lifts: Annotated[dict[str, str], Field(max_length=40)] = Field(
        default_factory=dict,
        description="A tested lift is open whatever its level: by its own planned progression, the one in its place.",
    )


class MinutesPer(Model):
    """What work takes, rests included, to fit the bands to the week's minutes before the solver starts."""

    day: float = Field(ge=0, le=60, description="Warm-up and ramp-up sets of a day.")
    set: Factor = Field(description="A working set with its rest.")
    low_contact: Factor = Field(description="A low contact with its rest.")
    medium_contact: Factor = Field(description="A medium contact with its rest.")
    high_contact: Factor = Field(description="A high contact with its rest.")
    sprint: Factor = Field(description="A sprint with its rest.")


class TestPlan(Model):
    """A counted test at the end of the block: trials, and what they cost in contacts."""

    __test__ = False
    practice_jumps: Count = Field(description="Jumps before the counted ones.")
    counted_jumps: Count = Field(description="Jumps that count.")
    jump_s: Count = Field(description="A jump itself, seconds.")
    rest_s: Count = Field(description="Rest between them, seconds.")
    minutes: MinutesLong[Count]
