"""One set of a movement in one week: the template's wave applied to a movement of the library."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from planner.domain.movement import Movement, side_of
from planner.domain.template import SchemeWeek, Template
from planner.domain.template_limits import Counting
from planner.domain.terms import LEGS, LIFT_QUALITIES, Joint, Leg, Quality, TakeOff
from planner.estimate.strength import OutOfRange, percent_of_max
from planner.problem.model import STRESS_UNITS_PER_POINT, Dosage
from planner.problem.rising_work import own_week


def reps_on_a_side(movement: Movement, week: SchemeWeek) -> int | None:
    """Reps as the card prints them: for each leg if legs work apart; alternating sets share theirs between the legs."""
    if week.reps is None or movement.legs != "alternate":
        return week.reps
    return math.ceil(week.reps / 2)


def dose_movement(
    movement: Movement,
    *,
    template: Template,
    week: int,
    take_off: TakeOff,
    least_reserve: int,
    load_table: Mapping[int, float],
    is_novice: bool = False,
) -> Dosage:
    """The dosage of ``movement`` in ``week``. Raises KeyError if its scheme is not in the template."""
    scheme = template.schemes[movement.dose.scheme]
    plan = own_week(template, movement, week, is_novice)
    side = side_of(movement, take_off)
    legs_worked = [leg for leg in LEGS if side in ("both", "each", leg)]
    reps = reps_on_a_side(movement, plan)
    reserve = None if plan.reserve is None else max(plan.reserve, least_reserve)
    jump, sprint = movement.jump, movement.sprint
    contacts_a_leg = (reps or 0) * jump.contacts_per_rep if jump else 0
    contacts = contacts_a_leg * (2 if side == "each" else 1)
    fast_percent = template.hard_day.sprint_speed_percent
    dose_units = _dose_units(movement, plan, contacts_a_leg, template.counting)
    is_working_set = movement.kind in ("lift", "hold")
    sides = 2 if side == "each" and movement.legs == "one" else 1
    return Dosage(
        low_sets=plan.sets[0],
        high_sets=plan.sets[1],
        reps=reps,
        percent=_percent(plan, reps, reserve, load_table),
        reserve=reserve,
        hold_s=plan.hold_s,
        set_seconds=round(movement.dose.set_time * sides + movement.dose.rest),
        ramp_seconds=scheme.ramp_s,
        is_working_set=is_working_set,
        quarter_sets=_quarter_sets(movement, template.counting) if is_working_set else {},
        contacts=contacts,
        leg_contacts={leg: contacts_a_leg for leg in legs_worked if contacts_a_leg},
        tier=jump.tier if jump else None,
        approach_contacts=contacts if movement.is_maximal_approach else 0,
        sprints=int(sprint is not None),
        fast_sprints=int(sprint is not None and sprint.speed_percent >= fast_percent),
        sprint_m=round(sprint.distance) if sprint else 0,
        stress=_stress(movement, dose_units, legs_worked, template.counting),
        tag3_contacts=_tag3_contacts(movement, contacts_a_leg, legs_worked),
    )


def _percent(plan: SchemeWeek, reps: int | None, reserve: int | None, load_table: Mapping[int, float]) -> float | None:
    """The wave's percentage, lowered if the athlete's least reserve is more than the wave's."""
    if plan.percent is None or reserve is None or reps is None or reserve == plan.reserve:
        return plan.percent
    try:
        return min(plan.percent, percent_of_max(reps + reserve, table=load_table))
    except OutOfRange:
        return None


def _dose_units(movement: Movement, plan: SchemeWeek, contacts_a_leg: int, counting: Counting) -> int:
    """Stress units of one set at tag weight 1, on each leg that works; rounded up for sprints of no whole metres."""
    if movement.sprint:
        return math.ceil(round(STRESS_UNITS_PER_POINT * movement.sprint.distance / counting.sprint_m_per_dose, 6))
    if movement.jump:
        return STRESS_UNITS_PER_POINT * contacts_a_leg // counting.contacts_per_dose
    if plan.hold_s is not None:
        return STRESS_UNITS_PER_POINT * plan.hold_s // counting.hold_s_per_dose
    return 0 if movement.kind == "skill" else STRESS_UNITS_PER_POINT


def _stress(movement: Movement, dose_units: int, legs: list[Leg], counting: Counting) -> dict[tuple[Joint, Leg], int]:
    return {
        (joint, leg): points
        for joint, tag in movement.stress.items()
        for leg in legs
        if (points := _by_tag(counting.stress_weights, tag) * dose_units)
    }


def _tag3_contacts(movement: Movement, contacts_a_leg: int, legs: list[Leg]) -> dict[tuple[Joint, Leg], int]:
    return {
        (joint, leg): contacts_a_leg
        for joint, tag in movement.stress.items()
        for leg in legs
        if tag == 3 and contacts_a_leg
    }


def _quarter_sets(movement: Movement, counting: Counting) -> dict[Quality, int]:
    tags = {quality: movement.qualities.get(quality, 0) for quality in LIFT_QUALITIES}
    return {quality: n for quality, tag in tags.items() if (n := _by_tag(counting.quality_quarters, tag))}


def _by_tag(figures: Sequence[int], tag: int) -> int:
    return (0, *figures)[tag]
