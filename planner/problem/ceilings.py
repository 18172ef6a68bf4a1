"""Joint stress: the ceilings of each joint and leg, lowered by pain and by a growth spurt, and what sport adds."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from planner.domain.athlete import Athlete, JointState, StatureRecord
from planner.domain.template import LevelPlan, StressCeilings, Template
from planner.domain.template_limits import PainStep, SportStress, Youth
from planner.domain.terms import Joint, Leg, Level
from planner.problem.model import STRESS_UNITS_PER_POINT, Ceilings, joint_legs
from planner.problem.training_days import SportDay

DAYS_PER_MONTH = 365.25 / 12
ONE_SIDED_95 = 1.645  # standard errors that chance exceeds once in twenty, upwards; a property of the normal curve


def pain_step(template: Template, pain: int) -> PainStep | None:
    """The template's step for this pain; None above the last one: stop and refer."""
    return next((step for step in sorted(template.pain, key=lambda s: s.up_to) if pain <= step.up_to), None)


def pain_at(joints: Sequence[JointState], joint: Joint, leg: Leg) -> int:
    """The worst pain reported in this joint and leg; a line without a side counts for both."""
    return max((state.pain for state in joints if state.joint == joint and state.side in (None, leg)), default=0)


@dataclass(frozen=True)
class GrowthSpurt:
    """How fast the athlete grows, with its standard error."""

    cm_per_month: float
    se: float


def growth_of(records: Sequence[StatureRecord], youth: Youth) -> GrowthSpurt | None:
    """How fast, by least squares over the last weeks' statures.

    None if it cannot be judged: too few readings, too close together, or an error so large that more than one in
    twenty athletes who do not grow would pass the template's limit.
    """
    if not records:
        return None
    last = max(record.date for record in records)
    recent = [record for record in records if (last - record.date).days <= 7 * youth.growth_weeks]
    months = [(record.date - last).days / DAYS_PER_MONTH for record in recent]
    if len(recent) < youth.growth_readings or -min(months) * DAYS_PER_MONTH < youth.growth_days:
        return None
    mean = sum(months) / len(months)
    spread = sum((month - mean) ** 2 for month in months)
    slope = sum((month - mean) * 100 * one.stature for month, one in zip(months, recent, strict=True)) / spread
    growth = GrowthSpurt(slope, youth.stature_error_cm / math.sqrt(spread))
    return growth if ONE_SIDED_95 * growth.se < youth.growth_cm_month else None


def growth_factor(athlete: Athlete, youth: Youth) -> float:
    growth = growth_of(athlete.stature_records, youth)
    return youth.growth_factor if growth is not None and growth.cm_per_month > youth.growth_cm_month else 1.0


def joint_ceilings(
    athlete: Athlete, template: Template, base: StressCeilings, is_minor: bool, years: float = 0.0
) -> dict[tuple[Joint, Leg], Ceilings]:
    """Ceilings of an athlete ``years`` old: the level's, lower with pain, in a growth spurt, and for older tendons."""
    spurt = growth_factor(athlete, template.youth) if is_minor else 1.0
    older = template.older if template.older and years >= template.older.from_years else None
    found: dict[tuple[Joint, Leg], Ceilings] = {}
    for joint, leg in joint_legs():
        step = pain_step(template, pain_at(athlete.joints, joint, leg)) or template.pain[-1]
        aged = older.ceiling_factor if older and joint in older.joints else 1.0
        factor = STRESS_UNITS_PER_POINT * spurt * step.ceiling_factor * aged
        found[joint, leg] = Ceilings(
            session=round(base.session * factor),
            two_days=round(base.two_days * factor),
            week=round(base.week * factor),
            tag3_session=int(base.tag3_contacts_session * step.tag3_share),
            tag3_week=int(base.tag3_contacts_week * step.tag3_share),
        )
    return found


def level_at_age(template: Template, level: Level, years: float) -> LevelPlan:
    """The level's limits; from the template's age on, joint stress grows more slowly."""
    plan, older = template.levels[level], template.older
    if older is None or years < older.from_years:
        return plan
    return plan.model_copy(update={"growth": plan.growth.model_copy(update={"joint_stress": older.stress_growth})})


def refusing_pain(joints: Sequence[JointState], template: Template) -> list[JointState]:
    """Joints whose pain rules out a block: above the template's last step, or worse the next morning."""
    return [s for s in joints if pain_step(template, s.pain) is None or (s.pain and s.worse_next_morning)]


def sport_stress_units(day: SportDay, sport: SportStress) -> dict[Joint, int]:
    """Joint stress of a day's sport on each leg, in stress units; a match minute counts ``match_factor`` times.

    Rounded up, or a block at its ceiling would be over it by the audit's count.
    """
    weighted_minutes = (day.minutes - day.match_minutes) + day.match_minutes * sport.match_factor
    return {
        joint: math.ceil(round(points * weighted_minutes * STRESS_UNITS_PER_POINT / 60, 6))
        for joint, points in sport.per_hour.items()
    }
