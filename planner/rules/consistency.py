"""Whether a block's printed figures (contacts, minutes, totals) agree with each other; not a coaching rule."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from planner.domain.terms import LEGS, LIFT_QUALITIES, QUALITY_NAMES, TIERS
from planner.rules.figure_words import counted
from planner.rules.joint_stress import sport_points
from planner.rules.rule import Address, Breach, CountedItem, CountedSession, CountedWeek, Plan
from planner.rules.session_minutes import counted_minutes
from planner.units import format_run

UNIT = "figures"
PRINTED_TO_m, PRINTED_TO_points = 0.1, 0.1


def inconsistencies(plan: Plan) -> Iterator[Breach]:
    """Figures that a hand edit forgot: an item changed, but its contacts, the minutes or the totals did not."""
    for week in plan.weeks:
        for session in week.sessions:
            for item in session.items:
                yield from _contacts(session, item)
            yield from _minutes(plan, session)
            if session.session.hard_day != (session.is_hard(plan.problem) and not session.is_test):
                said, found = ("hard", "it is not") if session.session.hard_day else ("not hard", "it is")
                yield _off(session.at, f"{session.where} is marked {said}; by its items {found}")
        yield from _totals(week, plan.problem.athlete.print_as.length)
        yield from _stress(plan, week)


def _contacts(session: CountedSession, item: CountedItem) -> Iterator[Breach]:
    jump = item.movement.jump
    per_rep = 0 if jump is None else jump.contacts_per_rep * (2 if item.item.side == "each" else 1)
    expected = item.item.sets * (item.item.reps or 0) * per_rep
    at, says = session.at_item(item), f"{item.name} in {session.where} says"
    if item.item.contacts != expected:
        yield _off(at, f"{says} {counted(item.item.contacts, 'contact')}; its sets and reps make {expected}")
    if jump is not None and item.item.contacts and item.item.tier != jump.tier:
        yield _off(at, f"{says} tier {item.item.tier}; the library says {jump.tier}")


def _minutes(plan: Plan, session: CountedSession) -> Iterator[Breach]:
    needed = counted_minutes(plan.problem, session)
    if not session.is_test and abs(session.session.minutes - needed) > 1:
        yield _off(session.at, f"{session.where} says {session.session.minutes} min; its items take {needed:.0f}")


def _totals(week: CountedWeek, unit: Literal["cm", "in"]) -> Iterator[Breach]:
    totals, says = week.week.totals, f"week {week.number} says"
    for quality in LIFT_QUALITIES:
        said, found = totals.working_sets.get(quality, 0.0), week.quality_sets(quality)
        if abs(said - found) > 1e-6:
            yield _off(week.at, f"{says} {counted(said, 'set')} of {QUALITY_NAMES[quality]}; its items make {found:g}")
    for tier in TIERS:
        said, found = totals.contacts.get(tier, 0), week.tier_contacts(tier)
        if said != found:
            yield _off(week.at, f"{says} {counted(said, f'{tier} contact')}; its items make {found:g}")
    if totals.sprint_efforts != week.sprint_efforts:
        yield _off(week.at, f"{says} {counted(totals.sprint_efforts, 'sprint')}; its items make {week.sprint_efforts}")
    if abs(totals.sprint_m - week.sprint_m) > PRINTED_TO_m:
        made = format_run(week.sprint_m, unit)
        yield _off(week.at, f"{says} {format_run(totals.sprint_m, unit)} of sprints; its items make {made}")


def _stress(plan: Plan, week: CountedWeek) -> Iterator[Breach]:
    for joint, points in week.week.totals.joint_stress.items():
        sport = sport_points(plan.problem, week.week.start, 7, joint)
        for leg in LEGS:
            said, counted = getattr(points, leg), week.stress(joint, leg) + sport
            if abs(said - counted) > PRINTED_TO_points:
                told = f"week {week.number} says {said:g} points on the {leg} {joint}"
                yield _off(week.at, f"{told}; its work and sport make {counted:.1f}")


def _off(at: Address, sentence: str) -> Breach:
    return Breach("figures", at, sentence, 1, UNIT)
