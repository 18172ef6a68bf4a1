"""Progress in a minute's read: planned and done, maxima, jump days, pain, and the loads of the next session."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator

from planner.domain.terms import JOINT_NAMES, JOINTS, LEGS, TIERS, side_and_joint
from planner.estimate.words import Words
from planner.files.typed_sets import touch_text
from planner.past.jump_days import JumpLine, are_low
from planner.past.lift_course import LiftCourse
from planner.past.pain_course import PainCourse
from planner.prescription.iron import MassUnit
from planner.report.advice_text import advice_line
from planner.report.followed import Followed
from planner.report.terminal import fit, table, wrap
from planner.rules.recount import CountedWeek
from planner.units import INCH_m, format_mass

_MOST_LIFTS, _MOST_DAYS = 8, 6
_COUNTED: tuple[tuple[str, Callable[[CountedWeek], int]], ...] = (
    ("sets", lambda week: week.working_sets),
    ("contacts", lambda week: week.contacts),
    ("sprints", lambda week: week.sprint_efforts),
)
RECORD = (
    "Session load is effort × minutes; monotony is the week's mean load a day over the spread of its days, higher "
    "where they are alike. Both are records: no rule acts on them."
)
REFER = "no jumps or sprints, and no plan, until a clinician has seen it"


def progress_text(followed: Followed) -> str:
    parts = [
        "PROGRESS\n" + wrap(what_was_done(followed)),
        *_lines("Planned and done", table(_table(followed)), wrap(done_so_far(followed))),
        *_lines("Joint stress, points of the leg that had more, done of planned", table(_stress(followed))),
        *_lines("Maxima, from the first working set of each day, with the 90 % range", *_maxima(followed)),
        *_lines("Jump days, best touch of the day", *_jumps(followed)),
        *_lines("Pain", *(wrap(pain_words(course, followed), "  ") for course in followed.pain)),
        *_lines("Outside the block", *_extra(followed)),
        *_next(followed),
    ]
    return fit("\n\n".join(parts) + "\n")


def _lines(heading: str, *lines: str) -> Iterator[str]:
    said = [line for line in lines if line]
    if said:
        yield "\n".join([heading, *said])


def what_was_done(followed: Followed) -> str:
    block, through = followed.block, followed.through
    planned = [s for s in block.sessions if s.date <= through]
    missed = [f"{one.planned.id} ({one.entry.why})" for one in followed.done if one.missed]
    real = sum(not one.missed for one in followed.done)
    parts = [f"{real} of {len(planned)} sessions done to {through:%a} {through}"]
    parts += [f"{len(missed)} missed: {', '.join(missed)}"] if missed else []
    begun = {entry.session for entry in followed.log.sessions if entry.done == "unfinished"}
    open_ones = [f"{one.id} (unfinished)" if one.id in begun else one.id for one in followed.open_sessions]
    recalled = [one.planned.id for one in followed.done if one.entry.written == "later"]
    parts += [f"{len(open_ones)} without an entry: {', '.join(open_ones)}"] if open_ones else []
    parts += [f"{len(recalled)} written from memory: {', '.join(recalled)}"] if recalled else []
    week = f"week {followed.weeks[-1].week.number} of {len(block.weeks)}"
    return f"{block.for_athlete.name}: {block.template_name}, {week}. {'; '.join(parts)}."


def _table(followed: Followed) -> list[list[str]]:
    rows = [["week", "sets", "contacts", "high", "sprints", "minutes", "effort × min", "monotony"]]
    for one in followed.weeks:
        monotony = "" if one.load.monotony is None else f"{one.load.monotony:.2f}"
        rows.append(
            [
                f"  {one.week.number} {one.week.role}{'' if one.is_whole else ' so far'}",
                _of(one.done.working_sets, one.planned.working_sets),
                _of(one.done.contacts, one.planned.contacts),
                _of(one.done.tier_contacts("high"), one.planned.tier_contacts("high")),
                _of(one.done.sprint_efforts, one.planned.sprint_efforts),
                _of(one.minutes_done, one.minutes_planned),
                f"{one.load.total:,.0f}" if one.load.total else "",
                monotony,
            ]
        )
    return rows


def _of(done: float, planned: float) -> str:
    return f"{done:g} of {planned:g}"


def done_so_far(followed: Followed) -> str:
    shares = []
    for name, count in _COUNTED:
        planned = sum(count(one.planned) for one in followed.weeks)
        if planned:
            shares.append(f"{100 * sum(count(one.done) for one in followed.weeks) / planned:.0f} % of the {name}")
    unknown = sum(one.load.without_effort for one in followed.weeks)
    unsaid = f" {unknown} session{'s' if unknown > 1 else ''} without effort or minutes." if unknown else ""
    return f"Done so far: {', '.join(shares)}. {RECORD}{unsaid}"


def _stress(followed: Followed) -> list[list[str]]:
    rows = [["week", *JOINT_NAMES.values()]]
    for one in followed.weeks:
        points = [
            _of(*(round(max(week.stress(joint, leg) for leg in LEGS)) for week in (one.done, one.planned)))
            for joint in JOINTS
        ]
        rows.append([f"  {one.week.number}", *points])
    return rows


def _maxima(followed: Followed) -> list[str]:
    unit = followed.block.for_athlete.mass_unit
    lifts = sorted(followed.lifts, key=lambda one: -len(one.readings))[:_MOST_LIFTS]
    return [wrap(f"{one.name}: {lift_words(one, unit)}", "  ") for one in lifts]


def lift_words(one: LiftCourse, mass_unit: MassUnit) -> str:
    """``149 kg (143 to 155), +0.9 ± 0.5 % a week; tested 144 kg; 9 readings``."""
    words = Words(mass_unit=mass_unit)
    low, high = (words.load_number(value, 0) for value in (one.low_kg, one.high_kg))
    drift = f"{one.drift_percent_a_week:+.1f} ± {one.drift_error_percent:.1f} % a week"
    tested = ""
    if one.tested is not None:
        how = "tested" if one.tested.own else "from another lift's test"
        tested = f"; {how} {format_mass(one.tested.load_kg, mass_unit, 0)}"
    count = len(one.readings)
    return f"{words.load(one.now_kg, 0)} ({low} to {high}), {drift}{tested}; {count} reading{'s' if count > 1 else ''}"


def _jumps(followed: Followed) -> list[str]:
    found = []
    unit = followed.block.for_athlete.length_unit
    for line in followed.jumps:
        days = line.days[-_MOST_DAYS:]
        said = ", ".join(f"{day.date} {touch_text(day.best_m, unit)}{' (test)' if day.is_test else ''}" for day in days)
        found.append(wrap(f"{line.name}: {said}. {jump_words(line, followed)}", "  "))
    return found


def jump_words(line: JumpLine, followed: Followed) -> str:
    last, rule = line.days[-1], followed.rules.jumps
    unit = followed.block.for_athlete.length_unit
    spread = f"A day's best differs by {_length(last.spread_m, unit)} by chance"
    if last.mean_before_m is None:
        return f"{spread}; the trend shows after {rule.days_before + 1} days."
    change = last.best_m - last.mean_before_m
    side = "above" if change >= 0 else "below"
    said = f"the last is {_length(abs(change), unit)} {side} the mean of the {rule.days_before} days before."
    if are_low(line, rule):
        share = f"{100 * rule.keep_share:.0f} % of the next session's high contacts"
        said += f" Low on {rule.days_low} days running: {share}."
    return f"{spread}; {said}"


def _length(length_m: float, unit: str) -> str:
    return f"{length_m / INCH_m:.1f} in" if unit == "in" else f"{100 * length_m:.1f} cm"


def pain_words(course: PainCourse, followed: Followed) -> str:
    rule, last = followed.rules.pain, course.days[-1]
    where = side_and_joint(course.side, course.joint)
    head = f"{where}: {course.state} on {last.date:%a} {last.date} ({last.why})"
    earlier = [day for day in course.days[:-1] if day.state != "green"]
    if earlier:
        head += f", {earlier[-1].state} on {earlier[-1].date:%a} {earlier[-1].date} ({earlier[-1].why})"
    if course.state == "red":
        return f"{head}: {REFER}."
    top = len(rule.steps) - 1
    if course.step == top:
        return f"{head}; nothing is held back."
    wait = rule.green_to_step_up - course.green_since
    more = f"after {wait} more green session{'s' if wait > 1 else ''}"
    open_now = f"pain leaves open: {rule.steps[course.step].name} and below; {rule.steps[course.step + 1].name} {more}"
    return f"{head}; {open_now}{_restart(course, followed)}."


def _restart(course: PainCourse, followed: Followed) -> str:
    """Where the tier that opens next begins again: a share of the last week without pain in it."""
    rule = followed.rules.pain
    now, coming = rule.steps[course.step], rule.steps[course.step + 1]
    new = [tier for tier in TIERS if tier in (*coming.tiers, *coming.one_leg_tiers)]
    new = [tier for tier in new if tier not in (*now.tiers, *now.one_leg_tiers)] or new[-1:]
    hurt = min(day.date for day in course.days if day.state != "green")
    calm = [week for week in followed.weeks if week.is_whole and week.week.start + datetime.timedelta(days=7) <= hurt]
    contacts = calm[-1].done.tier_contacts(new[0]) if calm and new else 0
    if not contacts:
        return ""
    share = f"{100 * rule.restart_share:.0f} % of week {calm[-1].week.number}'s"
    return f", from {int(rule.restart_share * contacts)} {new[0]} contacts a week ({share})"


def _extra(followed: Followed) -> list[str]:
    return [
        wrap(f"{work.date:%a} {work.date} {work.what}: {work.minutes} min, {work.contacts} contacts", "  ")
        for work in followed.log.extra
    ]


def _next(followed: Followed) -> Iterator[str]:
    if not followed.coming:
        return
    session, athlete = followed.coming[0], followed.block.for_athlete
    advice = followed.load_advice(session)
    heading = f"Next: {session.id}, {session.date:%a} {session.date}"
    names = [item.id for item in session.items]
    lines = [
        wrap(f"{names.index(one.item.id) + 1}  {one.item.name}: {advice_line(one, athlete)}", "  ") for one in advice
    ]
    yield "\n".join([heading if lines else f"{heading}: loads as printed", *lines])
