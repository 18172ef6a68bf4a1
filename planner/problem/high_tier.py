"""The gate to high-tier jumps: level, landings, and a strong enough squat or a coach's allowance."""

from __future__ import annotations

from collections.abc import Mapping

from planner.domain.athlete import Athlete
from planner.domain.template import LevelPlan, Template
from planner.domain.terms import Side

GATE = "high-tier-gate"  # its name in the athlete's ``allow``
ANCHOR: tuple[str, Side] = ("back-squat", "both")


def why_closed(
    athlete: Athlete, template: Template, level: LevelPlan, one_rm_kg: Mapping[tuple[str, Side], float], youth: bool
) -> str | None:
    """Why no high-tier jump may be planned, as the end of a sentence that begins with a jump; None if they may."""
    if youth or level.highest_tier != "high":
        return "is high tier, which novices and youth do not do"
    if athlete.landing != "holds":
        return "is high tier, and landings do not hold yet"
    squat_kg, needed_kg = one_rm_kg.get(ANCHOR, 0.0), template.gates.high_tier_squat_body_mass * athlete.body_mass
    if squat_kg < needed_kg and not any(allowance.rule == GATE for allowance in athlete.allow):
        shown = f"shows {squat_kg:.0f} kg" if squat_kg else "is not tested"
        return f"is high tier and requires a back squat of {needed_kg:.0f} kg; it {shown}"
    return None
