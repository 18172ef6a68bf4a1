"""Small limits of a template: what every load week holds, how jumps get harder, and what the body needs to recover."""

from __future__ import annotations

from pydantic import Field

from planner.domain.base import Count, Fraction, Model, Seq
from planner.domain.terms import Pattern


class TargetJump(Model):
    """How much of the target jump itself a load week holds, for one kind of target."""

    least: Count = Field(description="The fewest a week in the first load phase.")
    later_least: Count = Field(description="The fewest a week in later ones.")
    effort_percent: int = Field(ge=30, le=100, description="Only jumps of this effort or more count.")


class TargetJumps(Model):
    """The jump that the target asks for, week by week."""

    standing: TargetJump = Field(description="For a target from a stand.")
    run_up: TargetJump = Field(description="For a target off a run-up.")
    more_later: Count = Field(default=0, description="How many more a week a later load phase holds than the first.")
    other_jumps_standing: Count = Field(
        default=0, description="Medium contacts that a week aims at as well, where the target jump is a medium one."
    )
    other_jumps_run_up: Count = Field(default=0, description="The same off a run-up.")
    least_with_pain: Count = Field(description="The fewest if the Achilles tendon or the knee hurts.")
    much_sport_contacts: Count = Field(description="A sport with this many contacts a week jumps by itself.")
    least_with_much_sport: Count = Field(description="The fewest with such a sport.")


class SprintWork(Model):
    """What kind of sprints later load phases hold."""

    long_m: float = Field(ge=5, le=100, description="A sprint is long from this distance, fly-in included, metres.")
    long_share: Fraction = Field(description="The least share of long sprints after the first load phase.")
    flying: Count = Field(description="The fewest flying sprints a week after the first load phase.")
    short_of_speed: Fraction = Field(
        description="From this deficit of speed, every load phase holds flying sprints or drop jumps."
    )


class PrimerWork(Model):
    """What the primer before the test holds, as far as the athlete's gym, runway and joints allow."""

    families: Seq[str] = Field(description="Families of the library whose low contacts count.")
    contacts: Count = Field(description="The fewest such contacts.")
    sprints: Count = Field(description="The fewest short sprints.")
    sprint_m: float = Field(ge=5, le=100, description="A sprint is short up to this distance, metres.")
    run_up_jumps: Count = Field(description="The fewest jumps off the run-up, all below the maximum.")


class BuildUp(Model):
    """How maximal jumps off the run-up are built up to, on the day and before the test."""

    scheme: str = Field(
        min_length=1,
        max_length=60,
        description="The planned progression of the jumps that come before maximal ones in the same session.",
    )
    primer: PrimerWork = Field(description="What a primer before the test holds.")


class JumpProgress(Model):
    """How jumps get harder from phase to phase."""

    held_contact_s: float = Field(gt=0, le=1, description="The longest contact of a drop jump that was held, seconds.")
    hops_calf_short: Fraction = Field(description="A calf shorter than this closes one-leg forward hops.")


class Recovery(Model):
    """What the body needs after hard days, with a sore tendon, and after a match."""

    after_hard_day_points: float = Field(
        ge=0, le=100, description="The most Achilles points of a leg on the day after a hard day."
    )
    sore_full_jumps_week: Count = Field(description="The most full jumps a week on a leg with a sore tendon.")
    sore_days_apart: int = Field(ge=1, le=5, description="Days between such jumps.")
    one_leg_sets_before_jumps: Count = Field(description="The most sets of one-leg lifts the day before a jump day.")
    calf_days_apart: int = Field(ge=1, le=4, description="Days between loaded calf work.")


class WeeklySets(Model):
    """Sets of a pattern that every load week holds."""

    pattern: Pattern = Field(description="Which pattern.")
    sets: Count = Field(description="The fewest sets.")
    on_top: Count = Field(
        default=0,
        description="How many of them come on top of the week's usual sets; the rest takes the place of like work.",
    )


class WeeklySections(Model):
    """The sections above, each for some rules; a file from before them asks nothing of the kind."""

    weekly_sets: Seq[WeeklySets] = Field(default=(), description="Sets of some patterns that every load week holds.")
    target_jumps: TargetJumps | None = Field(default=None, description="How much of the target jump a load week holds.")
    sprint_work: SprintWork | None = Field(default=None, description="What kind of sprints later load phases hold.")
    build_up: BuildUp | None = Field(default=None, description="How maximal jumps off the run-up are built up to.")
    jump_progress: JumpProgress | None = Field(default=None, description="How jumps get harder from phase to phase.")
    recovery: Recovery | None = Field(default=None, description="What follows hard days, pain and matches.")
