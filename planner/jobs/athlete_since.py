"""What has changed in an athlete's file since a block was planned, as far as the block keeps it."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.athlete import Athlete
from planner.domain.block import Block, TestLine
from planner.domain.movement_library import Library
from planner.domain.terms import DAYS, JOINTS, LEGS, Leg
from planner.prescription.athlete_line import athlete_line, joint_in_words, pain_caution
from planner.units import format_length, format_mass

MOST_TOLD = 5
MOST_PAIN = 10
MASS_TOLD_FROM_kg = 0.05  # less is not seen in a printed mass


def changed_lines(block: Block, athlete: Athlete) -> str:
    """The changes, each after the word of its line in the file; empty where the block keeps none of what changed."""
    found = [*_pain(block, athlete), *_days(block, athlete), *_words(block, athlete), *_tests(block, athlete)]
    more = f"; and {len(found) - MOST_TOLD} more" if len(found) > MOST_TOLD else ""
    return "; ".join(found[:MOST_TOLD]) + more


def _pain(block: Block, athlete: Athlete) -> Iterator[str]:
    now = {(state.joint, state.side): state.pain for state in athlete.joints}
    sides: tuple[Leg | None, ...] = (None, *LEGS)
    for joint, side in ((joint, side) for joint in JOINTS for side in sides):
        where = joint_in_words(joint, side)
        then = next((pain for pain in range(1, MOST_PAIN + 1) if pain_caution(where, pain) in block.cautions), 0)
        if now.get((joint, side), 0) != then:
            yield f"joints: {where}, pain {now.get((joint, side), 0)} of 10 (planned with {then})"


def _days(block: Block, athlete: Athlete) -> Iterator[str]:
    """Sessions that their weekday does not hold any more; the test's minutes follow the day's."""
    minutes = {day.day: day.minutes - day.own_work_minutes for day in athlete.training.days}
    sessions = block.sessions
    for day in DAYS:
        longest = max((one.minutes for one in sessions if DAYS[one.date.weekday()] == day), default=0)
        if longest and day not in minutes:
            yield f"training: no {day} (planned with sessions of up to {longest} min)"
        elif longest > minutes.get(day, 0):
            yield f"training: {day} has {minutes[day]} min (planned with sessions of up to {longest})"
    lost = [session.id for session in sessions if session.date in athlete.training.away]
    if lost:
        yield f"training: away on the day of {', '.join(lost[:MOST_TOLD])}"


def _words(block: Block, athlete: Athlete) -> Iterator[str]:
    then, now = block.for_athlete, athlete_line(athlete, Library({}, {}, {}))
    mass_kg = block.gap.body_mass_kg
    if abs(athlete.body_mass - mass_kg) >= MASS_TOLD_FROM_kg:
        said = [format_mass(mass, athlete.print_as.mass) for mass in (athlete.body_mass, mass_kg)]
        yield f"body_mass: {said[0]} (planned with {said[1]})"
    for line in ("name", "level", "take_off", "target"):
        before, after = getattr(then, line), getattr(now, line)
        if before != after:
            yield f"{line}: {after} (planned with {before})"
    if then.gym != now.gym:
        yield "equipment: another bar, other plates or dumbbells"
    if then.runway_m is not None and then.runway_m != now.runway_m:
        said = [format_length(length or 0.0) for length in (now.runway_m, then.runway_m)]
        yield f"equipment: runway {said[0]} (planned with {said[1]})"


def _tests(block: Block, athlete: Athlete) -> Iterator[str]:
    """By kind, leg, day and result; a lift's name may have changed in the library alone."""
    now = athlete_line(athlete, Library({}, {}, {})).tests
    then = block.for_athlete.tests
    for one in now if then else ():  # blocks of earlier releases keep none
        if _key(one) not in {_key(other) for other in then}:
            yield f"tests: {one.kind} of {one.date} ({one.result}) is new"
    for one in then:
        if _key(one) not in {_key(other) for other in now}:
            yield f"tests: {one.kind} of {one.date} ({one.result}) is gone"


def _key(test: TestLine) -> tuple[object, ...]:
    return test.kind, test.side, test.date, test.result
