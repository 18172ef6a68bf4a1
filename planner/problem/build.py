"""Athlete, estimate, library and template become the Problem. What cannot be planned at all is refused here."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import fields, replace

from planner.domain.athlete import Athlete
from planner.domain.block_before import BlockBefore
from planner.domain.movement_library import Library
from planner.domain.template import DayPlan, Template
from planner.domain.terms import Leg, Level, Quality, Side
from planner.estimate.emphasis import NOTHING_FREED, Freed
from planner.estimate.uncertainty import Estimate
from planner.problem.after_block import asked_after
from planner.problem.block_calendar import BlockCalendar, Piece, calendar_of
from planner.problem.by_hand import ByHand
from planner.problem.ceilings import joint_ceilings, level_at_age, sport_stress_units
from planner.problem.coming_back import light_day, with_easy_weeks, with_light_day
from planner.problem.entries import NO_WEAKER_LEG, all_entries
from planner.problem.high_tier import ANCHOR, Gate, gate_of
from planner.problem.last_week import last_week_shapes
from planner.problem.model import SORE_TENDONS, Deficit, Problem, StartLimits
from planner.problem.not_plannable import (
    day_plan,
    refuse_age,
    refuse_late_end,
    refuse_pain,
    refuse_unknown_phases,
    served_level,
)
from planner.problem.other_waves import with_kept_strength, with_known_lifts
from planner.problem.retest import retest_movement
from planner.problem.revised import Since
from planner.problem.training_days import first_start
from planner.problem.week_bands import start_limits, week_bands
from planner.problem.week_centres import BudgetInputs

NO_DEFICITS: Mapping[Quality, Deficit] = {}
NO_ERRORS: Mapping[tuple[str, Side], float] = {}
NO_START_LIMITS = StartLimits(sets=10**6, contacts=10**6, high=10**6, sprints=10**6)


def build_problem(
    *,
    athlete: Athlete,
    library: Library,
    template: Template,
    tilts: Mapping[Quality, float],
    strong_and_sure: bool,
    one_rm_kg: Mapping[tuple[str, Side], float],
    load_table: Mapping[int, float],
    one_rm_se_kg: Mapping[tuple[str, Side], float] = NO_ERRORS,
    freed: Freed = NOTHING_FREED,
    surely_short: tuple[Quality, ...] = (),
    deficits: Mapping[Quality, Deficit] = NO_DEFICITS,
    weaker_legs: Mapping[Quality, Leg] = NO_WEAKER_LEG,
    start: datetime.date | None = None,
    later: Sequence[Piece] = (),
    since: Since | None = None,
    by_hand: ByHand | None = None,
    before: BlockBefore | None = None,
) -> Problem:
    """Everything that rules, solver and audit share. Raises UserError if no block can be planned at all.

    ``one_rm_se_kg``: standard errors of the tested maxima; one left out is taken as exact.
    ``freed``: what a surplus in every lift quality takes from the lifts and gives to sprints and jumps.
    ``surely_short``: lift qualities for which the others make room.
    ``later``: weeks at which the current phase is cut, in order, each with the routine from there on.
    ``since``: from when on a running block is planned anew; its phases are then cut there.
    ``by_hand``: what a coach changed of the block that is checked. ``before``: the block that it follows.
    """
    start = start or first_start(athlete)
    refuse_age(athlete, start)
    refuse_late_end(start, template)
    refuse_unknown_phases(athlete, template)
    is_minor = athlete.age_years(start) < template.youth.under_years
    youth = is_minor or athlete.level == "novice"
    library = _library_for(library, template, youth, strong_and_sure, {lift for lift, _ in one_rm_kg})
    level = served_level(athlete, template, is_minor)
    plan = day_plan(athlete, template, level)
    refuse_pain(athlete, template)
    days = calendar_of(athlete, template, start, later, since, by_hand)
    squat_kg = Estimate(one_rm_kg[ANCHOR], one_rm_se_kg.get(ANCHOR, 0.0)) if ANCHOR in one_rm_kg else None
    gate = gate_of(athlete, template, template.levels[level], squat_kg, youth)
    easy = since.easy_weeks(template, start) if since is not None and template.coming_back is not None else ()
    budget = replace(
        _budget(athlete, template, level, plan, days.as_planned, gate, youth, tilts, strong_and_sure),
        freed=asked_after(freed, before),
        follows=before is not None,
        surely_short=surely_short,
        easy_weeks=easy,
        easy_share=template.coming_back.easy_week_share if easy and template.coming_back else 1.0,
    )
    limits = start_limits(budget)
    retest = retest_movement(athlete, library)
    reserve = max(template.levels[level].least_reserve, template.youth.least_reserve if youth else 0)
    shapes = {shape.id: shape for shape in template.shapes}
    light = light_day(days, since, template.coming_back)
    entries = all_entries(athlete, library, template, reserve, retest, days, weaker_legs, load_table)
    entries = with_easy_weeks(entries, budget.easy_weeks, budget.easy_share)
    return Problem(
        athlete=athlete,
        library=library,
        template=template,
        level=level_at_age(template, level, athlete.age_years(start)),
        youth=youth,
        **{part.name: getattr(days, part.name) for part in fields(BlockCalendar)},
        shapes=tuple(shapes[name] for name in plan.shapes),
        test_week_shapes=last_week_shapes(
            [shapes[name] for name in plan.test_week], days.as_planned, template.youth.days_apart if youth else None
        ),
        movements=tuple(library[name] for name in sorted(library.movements)),
        retest=retest,
        entries=with_light_day(entries, light, template.levels[level].highest_tier),
        light=light,
        easy_weeks=budget.easy_weeks,
        bands=week_bands(budget, limits),
        start_limits=limits or NO_START_LIMITS,
        ceilings=joint_ceilings(
            athlete, template, template.levels[level].joint_stress, is_minor, athlete.age_years(start)
        ),
        sport_stress={date: sport_stress_units(day, template.sport_stress) for date, day in days.sport.items()},
        one_rm_kg=dict(one_rm_kg),
        gate=gate,
        tilts=dict(tilts),
        deficits=dict(deficits),
        weaker_legs=dict(weaker_legs),
        load_table=dict(load_table),
        gained={**(before.maxima if before else {}), **(since.maxima if since else {})},
        before=before,
    )


def _library_for(library: Library, template: Template, youth: bool, strong: bool, tested: set[str]) -> Library:
    """The library with other waves where they fit the athlete: lifts that a novice knows, strength that is kept."""
    if youth:
        return with_known_lifts(library, template, tested)
    return with_kept_strength(library, template) if strong else library


def _budget(
    athlete: Athlete,
    template: Template,
    level: Level,
    plan: DayPlan,
    days: BlockCalendar,
    gate: Gate,
    youth: bool,
    tilts: Mapping[Quality, float],
    strong_and_sure: bool,
) -> BudgetInputs:
    free = {week: days.working_days(week) for week in days.weeks}
    minutes = {slot.number: slot.gym_minutes for slot in days.slots}
    return BudgetInputs(
        athlete=athlete,
        template=template,
        level=level,
        day_factor=plan.factor,
        set_factors=plan.set_factors,
        high_tier_open=gate.shock_open,
        own_jump_open=gate.own_jump_open,
        most_high=_most_high(athlete, template),
        youth=youth,
        tilts=dict(tilts),
        strong_and_sure=strong_and_sure,
        weekly_sport_contacts=days.sport_contacts(),
        weekly_minutes={week: sum(minutes[slot] for slot in slots) for week, slots in free.items()},
        weekly_days={week: len(slots) for week, slots in free.items()},
        day_share={week: days.day_share(week) for week in free},
        only_the_test_jumps=youth and days.all_close_to_the_test(template.youth.days_apart),
    )


def _most_high(athlete: Athlete, template: Template) -> float | None:
    sore = any(state.pain and state.joint in SORE_TENDONS for state in athlete.joints)
    return float(template.recovery.sore_full_jumps_week) if sore and template.recovery else None


def usual_week_sets(athlete: Athlete, template: Template, start: datetime.date | None = None) -> dict[Quality, float]:
    """Working sets per quality of the reference week, at the athlete's level and number of training days.

    Raises UserError if the template does not serve the level or needs more training days.
    """
    is_minor = athlete.age_years(start or first_start(athlete)) < template.youth.under_years
    level = served_level(athlete, template, is_minor)
    plan = day_plan(athlete, template, level)
    sets = template.levels[level].weeks[template.reference_week - 1].sets
    return {quality: plan.set_factors.get(quality, plan.factor) * value for quality, value in sets.items()}


def high_tier_gate(
    athlete: Athlete,
    template: Template,
    squat_kg: Estimate | None,
    start: datetime.date | None = None,
) -> Gate:
    """The template's gate as ``build_problem`` has it. Raises UserError if the template does not serve the level."""
    is_minor = athlete.age_years(start or first_start(athlete)) < template.youth.under_years
    level = template.levels[served_level(athlete, template, is_minor)]
    return gate_of(athlete, template, level, squat_kg, is_minor or athlete.level == "novice")
