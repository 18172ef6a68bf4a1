"""Athlete, estimate, library and template become the Problem. What cannot be planned at all is refused here."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import fields, replace
from functools import partial

from planner.domain.athlete import Athlete
from planner.domain.base import LAST_DATE, OLDEST_years, YOUNGEST_years
from planner.domain.block_before import BlockBefore
from planner.domain.findings import Finding, UserError
from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.template import DayPlan, Scheme, SchemeWeek, Template
from planner.domain.terms import LEVELS, LIFT_QUALITIES, LOAD_ROLES, Leg, Level, Quality, Side
from planner.estimate.emphasis import NOTHING_FREED, Freed
from planner.estimate.uncertainty import Estimate
from planner.problem.block_before import asked_after
from planner.problem.block_calendar import BlockCalendar, Piece, calendar_of
from planner.problem.by_hand import ByHand
from planner.problem.ceilings import joint_ceilings, level_at_age, refusing_pain, sport_stress_units
from planner.problem.coming_back import light_day, with_easy_weeks, with_light_day
from planner.problem.dosage import dose_movement
from planner.problem.high_tier import ANCHOR, Gate, gate_of
from planner.problem.last_week import last_week_shapes
from planner.problem.model import RETEST, SORE_TENDONS, Deficit, Dosage, Entry, Problem, StartLimits
from planner.problem.other_waves import with_kept_strength, with_known_lifts
from planner.problem.primer import bar_on
from planner.problem.retest import retest_dosage, retest_movement
from planner.problem.revised import Since
from planner.problem.sore_quality import hurts
from planner.problem.training_days import first_start
from planner.problem.weaker_leg import extra_set
from planner.problem.week_bands import BudgetInputs, start_limits, week_bands

NO_WEAKER_LEG: Mapping[Quality, Leg] = {}
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
    sure_errors: float | None = None,
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
    ``sure_errors``: standard errors beyond which a deficit is sure, and its band has its middle as its low end.
    ``later``: weeks at which the current phase is cut, in order, each with the routine from there on.
    ``since``: from when on a running block is planned anew; its phases are then cut there.
    ``by_hand``: what a coach changed of the block that is checked. ``before``: the block that it follows.
    """
    start = start or first_start(athlete)
    _refuse_age(athlete, start)
    _refuse_late_end(start, template)
    _refuse_unknown_phases(athlete, template)
    is_minor = athlete.age_years(start) < template.youth.under_years
    youth = is_minor or athlete.level == "novice"
    if youth:
        library = with_known_lifts(library, template, {lift for lift, _ in one_rm_kg})
    elif strong_and_sure:
        library = with_kept_strength(library, template)
    level = served_level(athlete, template, is_minor)
    plan = day_plan(athlete, template, level)
    refuse_pain(athlete, template)
    days = calendar_of(athlete, template, start, later, since, by_hand)
    squat_kg = Estimate(one_rm_kg[ANCHOR], one_rm_se_kg.get(ANCHOR, 0.0)) if ANCHOR in one_rm_kg else None
    gate = gate_of(athlete, template, template.levels[level], squat_kg, youth)
    budget = _budget(
        athlete, template, level, plan, days.as_planned, gate, youth=youth, tilts=tilts, strong_and_sure=strong_and_sure
    )
    sure = [q for q in LIFT_QUALITIES if sure_errors and q in deficits and deficits[q].is_sure(sure_errors)]
    freed = asked_after(freed, before)
    budget = replace(
        budget, freed=freed, follows=before is not None, surely_short=tuple(q for q in sure if not hurts(athlete, q))
    )
    if since is not None and template.coming_back is not None:
        easy = since.easy_weeks(template, start)
        budget = replace(budget, easy_weeks=easy, easy_share=template.coming_back.easy_week_share)
    limits = start_limits(budget)
    retest = retest_movement(athlete, library)
    reserve = max(template.levels[level].least_reserve, template.youth.least_reserve if youth else 0)
    shapes = {shape.id: shape for shape in template.shapes}
    entries = _entries(athlete, library, template, reserve, retest, days, weaker_legs, load_table)
    light = light_day(days, since, template.coming_back)
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


def _budget(
    athlete: Athlete,
    template: Template,
    level: Level,
    plan: DayPlan,
    days: BlockCalendar,
    gate: Gate,
    *,
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


def served_level(athlete: Athlete, template: Template, is_minor: bool) -> Level:
    """The athlete's level, at most novice for a minor; the nearest below if the template does not serve it."""
    wanted: Level = "novice" if is_minor else athlete.level
    at_most = [name for name in LEVELS[: LEVELS.index(wanted) + 1] if name in template.levels]
    if not at_most:
        message = f"the template '{template.id}' serves {', '.join(template.levels)}, not {wanted}"
        hint = "choose another template with --template or the template: line"
        raise UserError([Finding("", 0, 0, "level", message, hint, keys=("level",))])
    return at_most[-1]


def day_plan(athlete: Athlete, template: Template, level: Level) -> DayPlan:
    """The fullest week that the training days allow at this level; any further days stay free."""
    days = len(athlete.training.days)
    serving = [plan for plan in template.day_plans if not plan.levels or level in plan.levels]
    fitting = [plan for plan in serving if plan.days <= days]
    if not fitting:
        fewest = min((plan.days for plan in serving), default=0)
        message = f"{days} training day(s) a week are too few for the template '{template.id}'"
        hint = f"add training days: it needs at least {fewest} for the level {level}"
        raise UserError([Finding("", 0, 0, "training-days", message, hint, keys=("training", "days"))])
    return max(fitting, key=lambda plan: plan.days)


def usual_week_sets(athlete: Athlete, template: Template, start: datetime.date | None = None) -> dict[Quality, float]:
    """Working sets per quality of the reference week, at the athlete's level and number of training days.

    Raises UserError if the template does not serve the level or needs more training days.
    """
    is_minor = athlete.age_years(start or first_start(athlete)) < template.youth.under_years
    level = served_level(athlete, template, is_minor)
    factor = day_plan(athlete, template, level).factor
    sets = template.levels[level].weeks[template.reference_week - 1].sets
    return {quality: factor * value for quality, value in sets.items()}


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


def refuse_pain(athlete: Athlete, template: Template) -> None:
    """Raises UserError for each joint whose pain no block is planned over."""
    findings = []
    for state in refusing_pain(athlete, template):
        message = f"pain {state.pain} of 10 in {state.joint}{f', {state.side}' if state.side else ''}"
        message += " that is worse the next morning" if state.worse_next_morning else ""
        hint = "stop loading it and see a clinician; plan again when it has settled"
        keys = ("joints", athlete.joints.index(state), "pain")
        findings.append(Finding("", 0, 0, "pain", f"{message}: no block is planned over it", hint, keys=keys))
    if findings:
        raise UserError(findings)


def _refuse_unknown_phases(athlete: Athlete, template: Template) -> None:
    """Raises UserError for pins in phases or weeks that the template does not have: they would ask for nothing."""
    names = dict.fromkeys(week.phase for week in template.weeks)
    found = []
    for number, pin in enumerate(athlete.pins):
        odd = [*(name for name in pin.phases if name not in names), *(w for w in pin.weeks if w > len(template.weeks))]
        if odd:
            message = f"the template '{template.id}' has no phase or week {odd[0]}"
            hint = f"its phases are {', '.join(names)}, its weeks 1 to {len(template.weeks)}"
            found.append(Finding("", 0, 0, "pin-phase", message, hint, keys=("pins", number)))
    if found:
        raise UserError(found)


def _refuse_age(athlete: Athlete, start: datetime.date) -> None:
    """The file's own check covers the days of tests; the first day may be any that was asked for."""
    age = athlete.age_years(start)
    if not YOUNGEST_years <= age <= OLDEST_years:
        said = f"{age} years old" if age >= 0 else "not born yet"
        message = f"birth_date: {athlete.birth_date}: on the first day, {start}, the athlete is {said}"
        hint = "check the year, and --start where it was given"
        raise UserError([Finding("", 0, 0, "age", message, hint, keys=("birth_date",))])


def _refuse_late_end(start: datetime.date, template: Template) -> None:
    """No file can hold a date after the last of the calendar."""
    if start > LAST_DATE - datetime.timedelta(weeks=len(template.weeks)):
        message = f"a block from {start} on would end after {LAST_DATE}, the last date of a file"
        hint = "check the years of the tests, and --start where it was given"
        raise UserError([Finding("", 0, 0, "too-late", message, hint, keys=("tests",))])


def _entries(
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
