"""How what was done is followed: maxima from session to session, loads of the next cards, jump days, pain."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import Fraction, Model, Name, Pain, Percent, Seq
from planner.domain.fields import About, FileKind, Source
from planner.domain.next_block_rule import NextBlockRule
from planner.domain.outcome_rule import OutcomeRule
from planner.domain.terms import Tier

Reps = Annotated[float, Field(ge=0, le=20)]
SheetField = Literal[
    "session",
    "date",
    "movement",
    "set",
    "load",
    "reps",
    "left",
    "touch",
    "effort",
    "minutes",
    "pain",
    "missed",
    "written",
    "body-mass",
    "note",
    "test",
    "side",
    "result",
]


class LiftFollowing(Model):
    """One reading a session and lift, its first working set; maxima as a level that drifts, in percent."""

    form_percent: Percent = Field(description="How far a day's form moves a reading, as a standard deviation.")
    reserve_error_reps: Reps = Field(description="Standard deviation of stated reps in reserve where none is left.")
    reserve_error_per_rep: Reps = Field(description="How much that grows with each rep in reserve.")
    most_reps: int = Field(ge=1, le=30, description="A set of more reps and reserve together gives no reading.")
    test_error_percent: Percent = Field(description="How closely a tested maximum repeats; the level begins there.")
    ratio_error_percent: Percent = Field(
        description="Added where a movement's maximum comes from another lift's test by its ratio."
    )
    drift_percent_a_week: float = Field(ge=-5, le=5, description="Gain a week that is expected before any reading.")
    drift_error_percent: Percent = Field(description="How far athletes differ in it, as a standard deviation.")
    wander_percent: Percent = Field(description="How far the level wanders in a week on top of the drift.")
    source: Source


class LoadSteps(Model):
    """What the reps left in the first working set say about the next load."""

    rep_percent: Percent = Field(description="What one rep more or less is of the load.")
    raise_share: Fraction = Field(description="Share of that by which a load is raised; a drop takes all of it.")
    raise_if_left_more: int = Field(
        ge=1, le=10, description="Raise after two sessions running with this many more left."
    )
    raise_at_once: int = Field(ge=1, le=10, description="Raise after one session with this many more left.")
    most_raise_percent: Percent = Field(description="The most that a load is raised at once.")
    drop_if_left_less: int = Field(ge=1, le=10, description="Drop after one session with this many fewer left.")
    most_drop_percent: Percent = Field(description="The most that a load is dropped at once.")
    least_left_guarded: int = Field(ge=0, le=10, description="Reps that the young and novices always keep in reserve.")
    source: Source


class JumpDays(Model):
    """Best touch of a day against the days before."""

    days_before: int = Field(ge=1, le=20, description="How many jump days before it make the mean.")
    days_low: int = Field(ge=1, le=10, description="Lower by more than a day's spread on this many days running.")
    keep_share: Fraction = Field(description="Share of high contacts that the next session then keeps.")
    source: Source


class PainLadderStep(Model):
    name: Name = Field(description="What is open on this step and on all below it, as printed.")
    tiers: Seq[Tier] = Field(default=(), description="Tiers open with both legs.")
    one_leg_tiers: Seq[Tier] = Field(default=(), description="Tiers open on one leg.")


class PainWatch(Model):
    """What pain of a joint means for the next session."""

    green_up_to: Pain = Field(description="Up to this pain nothing changes, where the morning is no worse.")
    amber_up_to: Pain = Field(description="Up to this pain jumps go down a step; above it no plan.")
    morning_red_above: Pain = Field(description="A morning worse than before the session by more than this: no plan.")
    rising_week: Annotated[float, Field(gt=0, le=10)] = Field(
        description="Pain is rising when the mean of seven days is this much above that of the seven before."
    )
    green_to_step_up: int = Field(ge=1, le=20, description="Green sessions that it takes to go up a step.")
    days_between_high: int = Field(ge=0, le=14, description="Days between such sessions with high jumps.")
    restart_share: Fraction = Field(description="Share of the last pain-free week's contacts of a tier to restart at.")
    steps: Seq[PainLadderStep] = Field(min_length=2, max_length=12, description="What is open, least first.")
    source: Source


class SheetColumn(Model):
    """A column of a spreadsheet of sets."""

    means: SheetField = Field(description="What the column holds.")
    names: Seq[Annotated[str, Field(min_length=1, max_length=60)]] = Field(
        min_length=1, description="Headings taken for it, in small letters; add your own."
    )


class FollowUp(Model):
    file: FileKind[Literal["follow-up/1"]]
    about: About[str | None] = None
    lifts: LiftFollowing = Field(description="How maxima are followed.")
    loads: LoadSteps = Field(description="When a load is raised, held or dropped.")
    jumps: JumpDays = Field(description="When jumps are taken back for a tired athlete.")
    pain: PainWatch = Field(description="What pain changes.")
    sheet: Seq[SheetColumn] = Field(default=(), description="Headings of spreadsheets of sets.")
    next_block: NextBlockRule | None = Field(
        default=None, description="What a block after another starts from; left out, as in the planner's own file."
    )
    outcome: OutcomeRule | None = Field(
        default=None, description="How a retest is read; left out, as in the file that comes with the planner."
    )
