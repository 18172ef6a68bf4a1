"""Joint-stress ceilings of each joint and leg: the level's, lowered by pain and by a growth spurt."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from planner.domain.athlete import Athlete, JointState, StatureRecord
from planner.domain.template import PainStep, StressCeilings, Template, Youth
from planner.domain.terms import Joint, Leg
from planner.problem.model import STRESS_UNITS_PER_POINT, Ceilings, joint_legs

DAYS_PER_MONTH = 365.25 / 12


def pain_step(template: Template, pain: int) -> PainStep | None:
    """The template's line for this pain; None above the last: stop and refer."""
    return next((step for step in sorted(template.pain, key=lambda s: s.up_to) if pain <= step.up_to), None)


def pain_at(joints: Sequence[JointState], joint: Joint, leg: Leg) -> int:
    """The worst pain that the athlete reports in this joint and leg; a line without a side speaks for both."""
    return max((state.pain for state in joints if state.joint == joint and state.side in (None, leg)), default=0)


def growth_cm_per_month(records: Sequence[StatureRecord], least_days: int) -> float | None:
    """Growth over the last two statures at least so many days apart; None where there are none."""
    ordered = sorted(records, key=lambda record: record.date)
    for earlier in reversed(ordered[:-1]):
        days = (ordered[-1].date - earlier.date) / datetime.timedelta(days=1)
        if days >= least_days:
            return 100 * (ordered[-1].stature - earlier.stature) / (days / DAYS_PER_MONTH)
    return None


def growth_factor(athlete: Athlete, youth: Youth) -> float:
    growth = growth_cm_per_month(athlete.stature_records, youth.growth_days)
    return youth.growth_factor if growth is not None and growth > youth.growth_cm_month else 1.0


def joint_ceilings(
    athlete: Athlete, template: Template, base: StressCeilings, is_minor: bool
) -> dict[tuple[Joint, Leg], Ceilings]:
    spurt = growth_factor(athlete, template.youth) if is_minor else 1.0
    found: dict[tuple[Joint, Leg], Ceilings] = {}
    for joint, leg in joint_legs():
        step = pain_step(template, pain_at(athlete.joints, joint, leg)) or template.pain[-1]
        factor = STRESS_UNITS_PER_POINT * spurt * step.ceiling_factor
        found[joint, leg] = Ceilings(
            session=round(base.session * factor),
            two_days=round(base.two_days * factor),
            week=round(base.week * factor),
            tag3_session=int(base.tag3_contacts_session * step.tag3_share),
            tag3_week=int(base.tag3_contacts_week * step.tag3_share),
        )
    return found


def refusing_pain(athlete: Athlete, template: Template) -> list[JointState]:
    """Joints whose pain stops the planning: above the template's last step, or worse the next morning."""
    return [s for s in athlete.joints if pain_step(template, s.pain) is None or (s.pain and s.worse_next_morning)]
