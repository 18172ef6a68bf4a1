"""What no block can be planned for at all: pain, an age, a date, a level or training days that the template lacks."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from planner.domain.athlete import Athlete, JointState
from planner.domain.base import LAST_DATE, OLDEST_years, YOUNGEST_years
from planner.domain.findings import Finding, UserError
from planner.domain.template import DayPlan, Template
from planner.domain.terms import JOINT_NAMES, LEVELS, Level
from planner.problem.ceilings import refusing_pain
from planner.units import counted


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


def refuse_pain(athlete: Athlete, template: Template) -> None:
    """Raises UserError for each joint whose pain no block is planned over."""
    findings = []
    for state in refusing_pain(athlete.joints, template):
        hint = "stop loading it and see a clinician; plan again when it has settled"
        keys = ("joints", athlete.joints.index(state), "pain")
        findings.append(Finding("", 0, 0, "pain", _not_planned_over(state), hint, keys=keys))
    if findings:
        raise UserError(findings)


def refuse_logged_pain(told: Sequence[JointState], template: Template, log: str, settled: str) -> None:
    """The same for pain that the log at ``log`` tells of and the athlete's file does not.

    ``settled``: what to do once it is better.
    """
    hint = f"stop loading it and see a clinician; when it has settled, {settled}"
    states = refusing_pain(told, template)
    if states:
        raise UserError([Finding(log, 0, 0, "pain", f"by the log, {_not_planned_over(one)}", hint) for one in states])


def _not_planned_over(state: JointState) -> str:
    where = " ".join(filter(None, ("the", state.side, JOINT_NAMES[state.joint])))
    morning = " that is worse the next morning" if state.worse_next_morning else ""
    return f"pain {state.pain} of 10 in {where}{morning}: no block is planned over it"


def refuse_unknown_phases(athlete: Athlete, template: Template) -> None:
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


def refuse_age(athlete: Athlete, start: datetime.date) -> None:
    """The file's own check covers the days of tests; the first day may be any that was asked for."""
    age = athlete.age_years(start)
    if not YOUNGEST_years <= age <= OLDEST_years:
        said = f"{counted(age, 'year')} old" if age >= 0 else "not born yet"
        message = f"birth_date: {athlete.birth_date}: on the first day, {start}, the athlete is {said}"
        hint = "check the year, and --start where it was given"
        raise UserError([Finding("", 0, 0, "age", message, hint, keys=("birth_date",))])


def refuse_late_end(start: datetime.date, template: Template) -> None:
    """No file can hold a date after the last of the calendar."""
    if start > LAST_DATE - datetime.timedelta(weeks=len(template.weeks)):
        message = f"a block from {start} on would end after {LAST_DATE}, the last date of a file"
        hint = "check the years of the tests, and --start where it was given"
        raise UserError([Finding("", 0, 0, "too-late", message, hint, keys=("tests",))])
