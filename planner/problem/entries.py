"""Every movement that may be done on each training date, with its dosage there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial

from planner.domain.athlete import Athlete
from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.template import Scheme, SchemeWeek, Template
from planner.domain.terms import LOAD_ROLES, Leg, Quality
from planner.problem.block_calendar import BlockCalendar
from planner.problem.dosage import dose_movement
from planner.problem.model import RETEST, Dosage, Entry
from planner.problem.primer import bar_on
from planner.problem.retest import retest_dosage
from planner.problem.weaker_leg import extra_set

NO_WEAKER_LEG: Mapping[Quality, Leg] = {}


def all_entries(
    athlete: Athlete,
    library: Library,
    template: Template,
    reserve: int,
    retest: Movement,
    days: BlockCalendar,
    weaker_legs: Mapping[Quality, Leg],
    load_table: Mapping[int, float],
) -> dict[tuple[int, int], tuple[Entry, ...]]:
    """Every movement on every training date; on the test day only the test, and nothing after it."""
    usable = [library[name] for name in sorted(library.movements) if library[name].dose.scheme in template.schemes]
    is_novice = athlete.level == "novice"
    dose = partial(dose_movement, take_off=athlete.take_off, load_table=load_table, is_novice=is_novice)
    doses: dict[tuple[int, str], Dosage] = {}
    for week, plan in enumerate(template.weeks, start=1):
        gets_extra = weaker_legs if plan.role in LOAD_ROLES else NO_WEAKER_LEG
        for movement in usable:
            dosage = dose(movement, template=template, week=week, least_reserve=reserve)
            doses[week, movement.id] = replace(dosage, extra=extra_set(movement, dosage, gets_extra))
    found: dict[tuple[int, int], tuple[Entry, ...]] = {}
    for week, slot in sorted(days.dates):
        if week == days.last_week and slot >= days.test_slot:
            found[week, slot] = ()
            continue
        bar = bar_on(days, week, slot)
        found[week, slot] = tuple(Entry(week, slot, m, doses[week, m.id], bar(m)) for m in usable)
    one_jump = Scheme(source="", weeks=(SchemeWeek(sets=(1, 1), reps=1),) * days.last_week)
    with_test = template.model_copy(update={"schemes": {RETEST: one_jump}})
    per_jump = dose(retest, template=with_test, week=days.last_week, least_reserve=0)
    test = Entry(days.last_week, days.test_slot, retest, retest_dosage(per_jump, template), None)
    return {**found, (test.week, test.slot): (test,)}
