"""Athlete, estimate, library and template become the Problem. What cannot be planned at all is refused here."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from planner.domain.athlete import Athlete
from planner.domain.findings import Finding, UserError
from planner.domain.library import Library
from planner.domain.movement import Movement
from planner.domain.template import DayPlan, Scheme, SchemeWeek, Template
from planner.domain.terms import LEVELS, LOAD_ROLES, Leg, Level, Quality, Side
from planner.estimate.strength import OutOfRange, percent_of_max
from planner.problem.bands import BudgetInputs, start_limits, week_bands
from planner.problem.calendar import age_years, first_start, routine, slot_dates, sport_days, sport_stress_units
from planner.problem.ceilings import joint_ceilings, refusing_pain
from planner.problem.dosage import PercentOfMax, dose_movement
from planner.problem.high_tier import why_closed
from planner.problem.last_week import all_close_to_the_test, closing_test_slot, last_week_shapes
from planner.problem.model import RETEST, Dosage, Entry, Phase, Problem, Slot, SportDay, StartLimits
from planner.problem.primer import bar_on
from planner.problem.retest import retest_dosage, retest_movement
from planner.problem.weaker_leg import extra_set

NO_WEAKER_LEG: Mapping[Quality, Leg] = {}
Doses = dict[tuple[int, str], Dosage]  # (week, movement)
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
    weaker_legs: Mapping[Quality, Leg] = NO_WEAKER_LEG,
    start: datetime.date | None = None,
) -> Problem:
    """Everything that rules, solver and audit share. Raises UserError where no block can be asked for at all."""
    start = start or first_start(athlete)
    is_minor = age_years(athlete.birth_date, start) < template.youth.under_years
    youth = is_minor or athlete.level == "novice"
    level = served_level(athlete, template, is_minor)
    plan = day_plan(athlete, template, level)
    _refuse_pain(athlete, template)
    slots, weeks = routine(athlete, start), len(template.weeks)
    dates = slot_dates(slots, start, weeks)
    away = frozenset(key for key, date in dates.items() if date in set(athlete.training.away))
    test_slot = closing_test_slot(slots, weeks, away)
    sport = sport_days(athlete, start, weeks)
    retest = retest_movement(athlete, library)
    budget = BudgetInputs(
        athlete=athlete,
        template=template,
        level=level,
        day_factor=plan.factor,
        high_tier_open=why_closed(athlete, template, template.levels[level], one_rm_kg, youth) is None,
        youth=youth,
        tilts=dict(tilts),
        strong_and_sure=strong_and_sure,
        weekly_sport_contacts=_weekly_sport_contacts(sport, start, weeks),
        **_weekly_time(slots, weeks, away, test_slot),
        only_the_test_jumps=youth and all_close_to_the_test(dates, weeks, test_slot, template.youth.days_apart),
    )
    limits = start_limits(budget)
    shapes = {shape.id: shape for shape in template.shapes}
    percent = _percent_by(load_table)
    usable = [library[name] for name in sorted(library.movements) if library[name].dose.scheme in template.schemes]
    reserve = max(template.levels[level].least_reserve, template.youth.least_reserve if youth else 0)
    doses = _doses(athlete, template, usable, reserve, weaker_legs, percent)
    test = _retest_entry(retest, template, athlete, weeks, test_slot, percent)
    return Problem(
        athlete=athlete,
        library=library,
        template=template,
        level=template.levels[level],
        youth=youth,
        start=start,
        phases=_phases(template),
        slots=slots,
        dates=dates,
        away=away,
        test_slot=test_slot,
        sport=sport,
        shapes=tuple(shapes[name] for name in plan.shapes),
        test_week_shapes=last_week_shapes(
            [shapes[name] for name in plan.test_week],
            dates,
            _training_slots(slots, weeks, away, test_slot),
            (weeks, test_slot),
            sport,
            template.youth.days_apart if youth else None,
        ),
        movements=tuple(library[name] for name in sorted(library.movements)),
        retest=retest,
        entries=_entries(usable, doses, test, dates, away, sport),
        bands=week_bands(budget, limits),
        start_limits=limits or NO_START_LIMITS,
        ceilings=joint_ceilings(athlete, template, template.levels[level].joint_stress, is_minor),
        sport_stress={date: sport_stress_units(day, template.sport_stress) for date, day in sport.items()},
        one_rm_kg=dict(one_rm_kg),
        tilts=dict(tilts),
        weaker_legs=dict(weaker_legs),
        load_table=dict(load_table),
    )


def served_level(athlete: Athlete, template: Template, is_minor: bool) -> Level:
    """The athlete's level, a minor's never above novice; the nearest below where the template does not serve it."""
    wanted: Level = "novice" if is_minor else athlete.level
    at_most = [name for name in LEVELS[: LEVELS.index(wanted) + 1] if name in template.levels]
    if not at_most:
        served = ", ".join(template.levels)
        raise UserError(
            [
                _finding(
                    ("level",),
                    "level",
                    f"the template '{template.id}' serves {served}, not {wanted}",
                    "choose another template with --template or the template: line",
                )
            ]
        )
    return at_most[-1]


def day_plan(athlete: Athlete, template: Template, level: Level) -> DayPlan:
    """The fullest week that the training days allow at this level; further days stay free."""
    days = len(athlete.training.days)
    serving = [plan for plan in template.day_plans if not plan.levels or level in plan.levels]
    fitting = [plan for plan in serving if plan.days <= days]
    if not fitting:
        fewest = min((plan.days for plan in serving), default=0)
        message = f"{days} training day(s) a week are too few for the template '{template.id}'"
        hint = f"add training days: it needs at least {fewest} for the level {level}"
        raise UserError([_finding(("training", "days"), "training-days", message, hint)])
    return max(fitting, key=lambda plan: plan.days)


def _refuse_pain(athlete: Athlete, template: Template) -> None:
    findings = [
        _finding(
            ("joints", athlete.joints.index(state), "pain"),
            "pain",
            f"pain {state.pain} of 10 in {state.joint}{f', {state.side}' if state.side else ''}"
            f"{' that is worse the next morning' if state.worse_next_morning else ''}: no block is planned over it",
            "stop loading it and see a clinician; plan again when it has settled",
        )
        for state in refusing_pain(athlete, template)
    ]
    if findings:
        raise UserError(findings)


def _finding(keys: tuple[str | int, ...], code: str, message: str, hint: str) -> Finding:
    return Finding(path="", line=0, column=0, code=code, message=message, hint=hint, keys=keys)


def _training_slots(slots: tuple[Slot, ...], weeks: int, away: frozenset[tuple[int, int]], test_slot: int) -> list[int]:
    return [s.number for s in slots if s.number < test_slot and (weeks, s.number) not in away]


def _phases(template: Template) -> tuple[Phase, ...]:
    names = list(dict.fromkeys(plan.phase for plan in template.weeks))
    return tuple(Phase(n, tuple(w for w, p in enumerate(template.weeks, start=1) if p.phase == n)) for n in names)


def _weekly_sport_contacts(sport: dict[datetime.date, SportDay], start: datetime.date, weeks: int) -> dict[int, int]:
    found = dict.fromkeys(range(1, weeks + 1), 0)
    for date, day in sport.items():
        week = (date - start).days // 7 + 1
        if week in found:
            found[week] += day.contacts
    return found


def _weekly_time(
    slots: tuple[Slot, ...], weeks: int, away: frozenset[tuple[int, int]], test_slot: int
) -> dict[str, Any]:
    """Gym minutes and days of each week, away days and the test day left out."""
    free = {
        week: [s for s in slots if (week, s.number) not in away and (week < weeks or s.number < test_slot)]
        for week in range(1, weeks + 1)
    }
    taken = {week: sum(1 for s in slots if (week, s.number) in away) for week in free}
    return {
        "day_share": {week: 1 - taken[week] / len(slots) for week in free},
        "weekly_minutes": {week: sum(slot.gym_minutes for slot in days) for week, days in free.items()},
        "weekly_days": {week: len(days) for week, days in free.items()},
    }


def _percent_by(table: Mapping[int, float]) -> PercentOfMax:
    """Percent of the maximum by this table; None outside it."""

    def percent(reps: float) -> float | None:
        try:
            return percent_of_max(reps, table=table)
        except OutOfRange:
            return None

    return percent


def _doses(
    athlete: Athlete,
    template: Template,
    usable: Sequence[Movement],
    least_reserve: int,
    weaker_legs: Mapping[Quality, Leg],
    percent: PercentOfMax,
) -> Doses:
    found: Doses = {}
    for week, plan in enumerate(template.weeks, start=1):
        gets_extra = weaker_legs if plan.role in LOAD_ROLES else NO_WEAKER_LEG
        for movement in usable:
            dosage = dose_movement(
                movement,
                template=template,
                week=week,
                take_off=athlete.take_off,
                least_reserve=least_reserve,
                percent_of_max=percent,
            )
            extra = extra_set(movement, dosage, gets_extra)
            found[week, movement.id] = dosage if extra is None else replace(dosage, extra=extra)
    return found


def _entries(
    usable: Sequence[Movement],
    doses: Doses,
    test: Entry,
    dates: dict[tuple[int, int], datetime.date],
    away: frozenset[tuple[int, int]],
    sport: dict[datetime.date, SportDay],
) -> dict[tuple[int, int], tuple[Entry, ...]]:
    """Of every week and training day, the test's own and nothing after it."""
    found: dict[tuple[int, int], tuple[Entry, ...]] = {}
    for week, slot in sorted(dates):
        if week == test.week and slot >= test.slot:
            found[week, slot] = (test,) if slot == test.slot else ()
            continue
        bar = bar_on((week, slot), dates, away, sport)
        found[week, slot] = tuple(Entry(week, slot, m, doses[week, m.id], bar(m)) for m in usable)
    return found


def _retest_entry(
    retest: Movement, template: Template, athlete: Athlete, week: int, slot: int, percent: PercentOfMax
) -> Entry:
    one_jump = Scheme(source="", weeks=(SchemeWeek(sets=(1, 1), reps=1),) * week)
    with_test = template.model_copy(update={"schemes": {RETEST: one_jump}})
    per_jump = dose_movement(
        retest, template=with_test, week=week, take_off=athlete.take_off, least_reserve=0, percent_of_max=percent
    )
    per_jump = Dosage(**{**vars(per_jump), "set_seconds": template.test_day.jump_s + template.test_day.rest_s})
    return Entry(week, slot, retest, retest_dosage(per_jump, template), None)
