"""An auditor of its own: a block held to the words of the main hard rules, counted again from its printed items.

Nothing here comes from ``planner/rules`` or ``planner/problem``: the words are those of ``jumpblock rules``, the
figures those of the template's file. What the words leave open is read in the block's favour.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from itertools import pairwise

from planner.domain.block import Session, Week
from planner.domain.terms import DAYS, LEGS, LEVELS
from tests.coach.block_read import Line, Read

Rule = Callable[[Read], Iterator[str]]
PRIMER_contacts = 20  # "only a short primer of low contacts"
MORE_share, MORE_contacts = 0.10, 10  # "contacts 10 % and 10 more"
ROUNDED_kg = 0.02
ONE_LEG_SETS = 2  # the day before a jump day
RULES: list[Rule] = []


def rule(one: Rule) -> Rule:
    RULES.append(one)
    return one


def own_audit(read: Read) -> list[str]:
    """Each breach in a sentence that begins with its check's name."""
    return [f"{one.__name__}: {said}" for one in RULES for said in one(read)]


def sessions(read: Read) -> list[tuple[Week, Session]]:
    return [(week, session) for week in read.block.weeks for session in week.sessions]


def under_youth_limits(read: Read) -> bool:
    return read.is_young or read.is_novice


def contacts(lines: list[Line], *tiers: str) -> int:
    return sum(line.item.contacts for line in lines if not tiers or line.item.tier in tiers)


def leg_contacts(lines: list[Line], tier: str) -> float:
    return max(sum(line.leg_contacts(leg) for line in lines if line.item.tier == tier) for leg in LEGS)


def fast_sprints(read: Read, lines: list[Line]) -> int:
    fast = read.template.hard_day.sprint_speed_percent
    of_ours = [line for line in lines if line.movement.sprint and line.movement.sprint.speed_percent >= fast]
    return sum(line.item.sets * (line.item.reps or 1) for line in of_ours)


def is_hard(read: Read, week: Week, session: Session) -> bool:
    lines, limit = read.of(week, session), read.template.hard_day
    return leg_contacts(lines, "high") >= limit.high_contacts_leg or fast_sprints(read, lines) >= limit.sprints


def is_test(session: Session) -> bool:
    return any(item.part == "test" for item in session.items)


def lost_days(read: Read, week: Week) -> bool:
    """Whether an away date takes a training day out of the week."""
    trained = {day.day for day in read.athlete.training.days}
    dates = [week.start + datetime.timedelta(days=later) for later in range(7)]
    return any(date in read.athlete.training.away and DAYS[date.weekday()] in trained for date in dates)


@rule
def dates(read: Read) -> Iterator[str]:
    days = {day.day for day in read.athlete.training.days}
    seen: set[datetime.date] = set()
    for week, session in sessions(read):
        away = session.date in read.athlete.training.away
        if away or DAYS[session.date.weekday()] not in days or session.date in seen:
            yield f"{session.id} is on {session.date:%a %d %b}"
        if not 0 <= (session.date - week.start).days < 7:
            yield f"{session.id} is outside its week"
        seen.add(session.date)


@rule
def session_minutes(read: Read) -> Iterator[str]:
    """Without ramp-up sets and the rest after a movement's last set; the test with the rests on its card."""
    there = {day.day: day.minutes - day.own_work_minutes for day in read.athlete.training.days}
    for week, session in sessions(read):
        lines = read.of(week, session)
        works = session.warm_up_minutes + sum(line.minutes - line.movement.dose.rest / 60 for line in lines)
        if is_test(session):
            works = session.warm_up_minutes + sum(item.sets * (item.rest_s or 0) for item in session.items) / 60
        if max(works, session.minutes) > there.get(DAYS[session.date.weekday()], 0):
            yield f"{session.id} takes {max(works, session.minutes):.0f} min"


@rule
def equipment_and_bans(read: Read) -> Iterator[str]:
    for line in read.lines:
        if not read.can_use(line.movement):
            yield f"{line.item.id} {line.movement.id}"


@rule
def runway(read: Read) -> Iterator[str]:
    for line in read.lines:
        sprint, needed = line.movement.sprint, line.movement.runway
        if sprint is not None:
            needed = sprint.distance + sprint.fly_in + read.template.gates.sprint_run_out_m
        if needed > read.runway_m:
            yield f"{line.movement.id} needs {needed:g} m"


@rule
def level(read: Read) -> Iterator[str]:
    own = "novice" if under_youth_limits(read) else read.athlete.level
    free = {*read.lifts, *(one.movement for one in read.athlete.allow if one.movement and not under_youth_limits(read))}
    for line in read.lines:
        if LEVELS.index(line.movement.level) > LEVELS.index(own) and line.movement.id not in free:
            yield f"{line.movement.id} is {line.movement.level}"


@rule
def youth(read: Read) -> Iterator[str]:
    limits = read.template.youth
    if not under_youth_limits(read):
        return
    for line in read.lines:
        jump = line.movement.jump
        if line.item.tier == "high" or (jump is not None and jump.drop is not None and jump.rebound):
            yield f"{line.movement.id}"
        if line.item.reps_in_reserve is not None and line.item.reps_in_reserve < limits.least_reserve:
            yield f"{line.item.id} leaves {line.item.reps_in_reserve}"
    for week in read.block.weeks:
        if contacts(read.of(week)) > limits.contacts_week:
            yield f"week {week.number} has {contacts(read.of(week))} contacts"
        if sum(contacts(read.of(week, session), "medium", "high") > 0 for session in week.sessions) > limits.jump_days:
            yield f"week {week.number} has too many jump days"


@rule
def hard_days_apart(read: Read) -> Iterator[str]:
    limit = read.template.hard_day
    apart = read.template.youth.days_apart if under_youth_limits(read) else limit.days_apart
    hard = [session.date for week, session in sessions(read) if is_hard(read, week, session)]
    for one, other in pairwise(hard):
        if (other - one).days < apart:
            yield f"{one} and {other}"
    for date in hard:
        if any(read.matches_on(date + datetime.timedelta(days=later)) for later in range(limit.days_before_match)):
            yield f"{date} is just before a match"


@rule
def marked_hard(read: Read) -> Iterator[str]:
    for week, session in sessions(read):
        if is_hard(read, week, session) and not session.hard_day:
            yield f"{session.id} is hard and not said to be"


@rule
def match_window(read: Read) -> Iterator[str]:
    for week, session in sessions(read):
        near = [session.date + datetime.timedelta(days=later) for later in (0, 1)]
        lines = read.of(week, session)
        much = contacts(lines, "medium", "high") or contacts(lines) > PRIMER_contacts
        if much and any(read.matches_on(date) for date in near):
            yield f"{session.id}"


@rule
def after_match(read: Read) -> Iterator[str]:
    for week, session in sessions(read):
        if read.matches_on(session.date - datetime.timedelta(days=1)) and contacts(read.of(week, session), "high"):
            yield f"{session.id}"


@rule
def growth(read: Read) -> Iterator[str]:
    whole = [week for week in read.load_weeks if not lost_days(read, week)]
    for before, after in pairwise(whole):
        was, now = contacts(read.of(before)), contacts(read.of(after))
        if now > was * (1 + MORE_share) + MORE_contacts:
            yield f"week {after.number} has {now} contacts after {was}"


@rule
def deload(read: Read) -> Iterator[str]:
    last: Week | None = None
    for week in read.block.weeks:
        if week.role == "deload" and last is not None and not lost_days(read, last):
            was, now = contacts(read.of(last)), contacts(read.of(week))
            if now > was * read.template.deload.high + 1:
                yield f"week {week.number} has {now} contacts after {was}"
        last = week if week in read.load_weeks else last


@rule
def one_of_family(read: Read) -> Iterator[str]:
    for week, session in sessions(read):
        names = [read.family(line) for line in read.of(week, session) if read.family(line)]
        for name in dict.fromkeys(names):
            movements = {line.movement.id for line in read.of(week, session) if read.family(line) == name}
            if len(movements) > 1:
                yield f"{session.id} has {sorted(movements)}"


@rule
def nothing_new_in_the_taper(read: Read) -> Iterator[str]:
    held: dict[str, set[str]] = {}
    for line in read.lines:
        held.setdefault(line.week.phase, set()).add(line.movement.id)
    for before, week in pairwise(read.block.weeks):
        new = held.get(week.phase, set()) - held.get(before.phase, set())
        if week.role == "taper" and before.phase != week.phase and new:
            yield f"week {week.number} begins {sorted(new)}"


@rule
def test_closes_the_block(read: Read) -> Iterator[str]:
    listed = sessions(read)
    last = listed[-1][1]
    if not is_test(last):
        yield "the last session is no test"
    for week, session in listed[:-1]:
        if is_hard(read, week, session) and (last.date - session.date).days < read.template.hard_day.days_before_test:
            yield f"{session.id} is hard and close to the test"


@rule
def landing_work(read: Read) -> Iterator[str]:
    if read.athlete.landing != "not-yet":
        return
    for week, session in sessions(read):
        lines = read.of(week, session)
        if contacts(lines) and not any(line.item.part == "landing" for line in lines):
            yield f"{session.id}"


@rule
def pain(read: Read) -> Iterator[str]:
    open_up_to = max((step.up_to for step in read.template.pain if step.tag3_share > 0), default=0)
    for line in read.lines:
        for state in read.athlete.joints:
            spared = line.item.side in LEGS and state.side in LEGS and line.item.side != state.side
            if line.movement.stress.get(state.joint) == 3 and state.pain > open_up_to and not spared:
                yield f"{line.movement.id} on a sore {state.joint}"


@rule
def fresh_legs(read: Read) -> Iterator[str]:
    for week, session in sessions(read):
        before = read.day_before(session)
        if before is None or not contacts(read.of(week, session), "medium", "high"):
            continue
        lines = read.of(read.dated[before.date][0], before)
        if sum(line.item.sets for line in lines if line.is_lift and line.item.part == "one-leg") > ONE_LEG_SETS:
            yield f"{before.id} before {session.id}"


@rule
def counted_again(read: Read) -> Iterator[str]:
    """The week's sums on the overview are those of its cards; the test's jumps are in the test week's."""
    for week in read.block.weeks[:-1]:
        for tier, said in week.totals.contacts.items():
            if contacts(read.of(week), tier) != said:
                yield f"week {week.number}: {contacts(read.of(week), tier)} {tier} contacts, {said} said"


@rule
def loads_can_be_built(read: Read) -> Iterator[str]:
    gym = read.athlete.equipment
    sums = {0.0}
    for plate in gym.plates:
        sums |= {one + plate for one in sums}
    bar = [gym.bar + 2 * one for one in sums] if gym.bar is not None else []
    loads = {"barbell": bar, "dumbbell": list(gym.dumbbells), "pair-of-dumbbells": [2 * one for one in gym.dumbbells]}
    for line in read.lines:
        there, load_kg = loads.get(line.item.implement or ""), line.item.load_kg
        if there is not None and load_kg and not any(abs(one - load_kg) <= ROUNDED_kg for one in there):
            yield f"{line.item.id}: {load_kg:g} kg"
