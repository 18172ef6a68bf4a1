"""Days that do not pile up: what follows a hard day, a match, a sore tendon; and minutes that are spread."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from itertools import pairwise

from planner.domain.block import Session
from planner.domain.terms import DAYS, LEGS
from tests.coach.block_read import Line, Read
from tests.coach.checking import Break, at, check

MOST_AFTER_HARD = 8.0  # Achilles points of the day after a hard day
FULL_JUMPS_A_WEEK, DAYS_APART = 8, 3  # with a sore tendon; 72 h
HIGH_CONTACTS, FAST_SPRINTS, FAST_percent = 6, 3, 95  # of a hard day
TIRING_SETS = 2  # of one-leg strength, the day before a day on fresh legs
FRESH = re.compile(r"\bfresh\b", re.I)
LEFT_OVER, FULL = 0.6, 0.95  # of a day's minutes
MAGNUSSON = "Magnusson et al. 2010 for the turnover, from memory; the caps are common practice, no source"


def _is_hard(read: Read, session: Session) -> bool:
    """By what is on the card, or by the mark on it."""
    week = read.dated[session.date][0]
    lines = read.of(week, session)
    high = max(sum(line.leg_contacts(leg) for line in lines if line.item.tier == "high") for leg in LEGS)
    fast = sum(
        line.item.sets * (line.item.reps or 1)
        for line in lines
        if line.movement.sprint is not None and line.movement.sprint.speed_percent >= FAST_percent
    )
    return session.hard_day or high >= HIGH_CONTACTS or fast >= FAST_SPRINTS


@check("11", "the day after a hard day with more than 8 Achilles points")
def day_after_hard_is_easy(read: Read) -> Iterator[Break]:
    for date, (week, session) in read.dated.items():
        before = read.day_before(session)
        hard = (before is not None and _is_hard(read, before)) or read.hard_sport_on(date - datetime.timedelta(days=1))
        points = read.points(session, "achilles-ankle")
        if hard and points > MOST_AFTER_HARD:
            yield Break(f"{points:.1f} Achilles points the day after a hard day", week.number, date)


def _is_full(line: Line) -> bool:
    """A jump at full effort: the high tier, or the run-up jump at its whole."""
    jump = line.movement.jump
    return line.item.tier == "high" or (
        jump is not None and line.item.part == "approach-jump" and jump.effort_percent >= 95
    )


def _is_sore(read: Read) -> bool:
    return read.pain("achilles-ankle", "patellar-knee") >= 1


def _full_on_sore_leg(read: Read, lines: list[Line]) -> float:
    sore = [
        state.side for state in read.athlete.joints if state.pain and state.joint in ("achilles-ankle", "patellar-knee")
    ]
    legs = [leg for leg in LEGS if leg in sore or None in sore]
    return max(sum(line.leg_contacts(leg) for line in lines if _is_full(line)) for leg in legs)


@check(
    "11", "more than 8 full jumps a week on a sore tendon, or two such days within 72 h", to=_is_sore, source=MAGNUSSON
)
def sore_tendon_jumps_little(read: Read) -> Iterator[Break]:
    for week in read.block.weeks:
        count = _full_on_sore_leg(read, read.of(week))
        if count > FULL_JUMPS_A_WEEK:
            yield Break(f"{count:g} full jumps on the sore leg", week.number)
    days = [(week, session) for week, session in read.dated.values() if _full_on_sore_leg(read, read.of(week, session))]
    for (_, before), (week, after) in pairwise(days):
        apart = (after.date - before.date).days
        if apart < DAYS_APART:
            yield Break(f"full jumps again after {apart} days on a sore tendon", week.number, after.date)


@check("11", "a maximal jump the day after a match", to=lambda read: bool(read.athlete.matches))
def no_maximal_jump_after_a_match(read: Read) -> Iterator[Break]:
    for line in read.where(_is_full):
        if read.matches_on(line.session.date - datetime.timedelta(days=1)):
            yield at(line, f"{line.item.contacts} maximal jumps the day after a match")


def _loads_calf(line: Line) -> bool:
    return line.item.part == "calf" and line.is_lift and line.loaded


@check("11", "the calf loaded on two days running")
def calf_rests_a_day(read: Read) -> Iterator[Break]:
    for week, session in read.dated.values():
        before = read.day_before(session)
        loaded = [line for line in read.of(week, session) if _loads_calf(line)]
        if before is not None and loaded and any(map(_loads_calf, read.of(read.dated[before.date][0], before))):
            yield at(loaded[0], f"the calf is loaded on {before.date:%a} and {session.date:%a}")


@check("11", "one-leg strength the day before a day on fresh legs")
def fresh_legs_are_fresh(read: Read) -> Iterator[Break]:
    for week, session in read.dated.values():
        before = read.day_before(session)
        if before is None or not FRESH.search(session.why):
            continue
        tiring = [
            line for line in read.of(read.dated[before.date][0], before) if line.item.part == "one-leg" and line.is_lift
        ]
        if sum(line.item.sets for line in tiring) > TIRING_SETS:
            sets = sum(line.item.sets for line in tiring)
            yield Break(f"'fresh', and {before.date:%a} had {sets} sets of one-leg strength", week.number, session.date)


def _minutes_of(read: Read, session: Session) -> int:
    days = {day.day: day.minutes - day.own_work_minutes for day in read.athlete.training.days}
    return days.get(DAYS[session.date.weekday()], 0)


@check("should", "a day half empty while another of the week is full")
def minutes_are_spread(read: Read) -> Iterator[Break]:
    for week in read.load_weeks:
        # A primer, of easy landings alone, is short on purpose.
        working = [s for s in week.sessions if any(line.item.part != "landing" for line in read.of(week, s))]
        shares = [(s, s.minutes / has) for s in working if (has := _minutes_of(read, s))]
        full = [session for session, share in shares if share >= FULL]
        for session, share in shares:
            if full and share < LEFT_OVER:
                said = f"{session.minutes} of {_minutes_of(read, session)} minutes, and {full[0].date:%A} is full"
                yield Break(said, week.number, session.date)


def _is_one_leg_hinge(line: Line) -> bool:
    return line.item.part == "one-leg" and "hinge" in line.movement.id


def _is_bar_hinge(line: Line) -> bool:
    return line.item.part == "main-lift" and "hinge" in line.movement.patterns and line.item.implement == "barbell"


@check("should", "a new one-leg hinge and a new bar hinge on the same day")
def new_hinges_on_different_days(read: Read) -> Iterator[Break]:
    known = set(read.lifts)
    for week, session in read.dated.values():
        lines = read.of(week, session)
        new = [line for line in lines if line.movement.id not in known]
        one_leg, bar = (next(filter(kind, new), None) for kind in (_is_one_leg_hinge, _is_bar_hinge))
        if one_leg is not None and bar is not None:
            yield at(one_leg, f"new on the same day as {bar.movement.id}")
        known |= {line.movement.id for line in lines}


def _may_not_land(read: Read) -> bool:
    return read.athlete.landing == "not-yet"


@check("should", "landings that do not hold yet, and a session with jumps but without landing work", to=_may_not_land)
def landing_work_to_the_end(read: Read) -> Iterator[Break]:
    for week, session in read.dated.values():
        lines = read.of(week, session)
        jumps = any(line.item.contacts for line in lines)
        if jumps and not any("landing" in line.movement.patterns for line in lines):
            yield Break("jumps, and no landing work", week.number, session.date)
