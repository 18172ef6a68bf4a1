"""A block that is being trained and its log: what was done, and from which day on the rest can be planned anew."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from planner.domain.athlete import Athlete, JointState
from planner.domain.block import Block, PastItem, PastSession, Revision, Session
from planner.domain.block_parts import Reference
from planner.domain.findings import Finding, UserError
from planner.domain.movement_library import Library
from planner.domain.terms import DAYS, TakeOff
from planner.domain.training_log import OtherWork, TrainingLog
from planner.files.document import Loaded
from planner.files.load import load_block, load_library, load_log
from planner.files.locate import Located
from planner.jobs.block_references import reference
from planner.jobs.check_log import against, log_path
from planner.jobs.follow_block import tested_maxima
from planner.jobs.follow_up_near import follow_up_near
from planner.past.done import DoneSession, done_sessions, last_day, not_logged
from planner.past.lift_course import lift_courses
from planner.past.pain_now import pain_now
from planner.problem.model import Problem
from planner.problem.revised import routines_of
from planner.problem.rising_work import gains
from planner.problem.training_days import ONE_DAY
from planner.rules.figure_words import listed

SHARE_DIGITS = 3
NOTHING = Reference(path="", sha256="")
NOT_REVISED = Revision.model_construct(first_day=datetime.date.min, block=NOTHING, routines=())


@dataclass(frozen=True)
class Running:
    """A block as read, and its log where there is one; both without errors."""

    path: Path
    loaded: Loaded[Block]
    log: Loaded[TrainingLog] | None

    @property
    def block(self) -> Block:
        return self.loaded.require()

    @property
    def earlier(self) -> Revision:
        """What the block was revised with before; an empty one for a block planned as a whole."""
        return self.block.revision or NOT_REVISED


def read_running(path: Path) -> Running:
    """The block and the log next to it. Raises UserError with the findings of either."""
    loaded = load_block(path)
    block = loaded.require()
    place = log_path(path)
    if not place.exists():
        return Running(path, loaded, None)
    log = against(load_log(place), block, path.parent, load_library)
    log.require()
    return Running(path, loaded, log)


def first_day_of(running: Running, asked: datetime.date | None) -> datetime.date:
    """The first day to be planned anew: ``asked``, else the day after the last one that the log tells of.

    Raises UserError where nothing of the block is past by then, nothing is left, or a logged session would change.
    """
    block, path = running.block, running.loaded.path
    sessions = block.sessions
    first = asked or _day_after_the_log(running)
    if first is None:
        hint = f"log what was done (jumpblock log {path}), or give the first day to plan with --from"
        raise UserError([Finding(path, 0, 0, "nothing-logged", "no log shows what was done so far", hint)])
    earliest = block.revision.first_day if block.revision is not None else sessions[0].date + ONE_DAY
    if first < earliest:
        before = f"the block was revised from {earliest} on" if block.revision else "no session is before that day"
        hint = f"name a day from {earliest} on" + ("" if block.revision else "; jumpblock plan makes a whole block")
        raise UserError([Finding(path, 0, 0, "too-early", f"the rest cannot begin on {first}: {before}", hint)])
    if first > sessions[-1].date:
        hint = "plan the next block: jumpblock plan"
        message = f"nothing is left to plan from {first} on: the block ends on {sessions[-1].date}"
        raise UserError([Finding(path, 0, 0, "too-late", message, hint)])
    _refuse_logged(running, first)
    return first


def _day_after_the_log(running: Running) -> datetime.date | None:
    """The day after the last entry, and after the day that the entry's session was planned for."""
    if running.log is None:
        return None
    log = running.log.require()
    planned = [s.date for s in running.block.sessions if log.entry(s.id) is not None]
    days = [*planned, day] if (day := last_day(log, running.block)) is not None else planned
    return max(days) + ONE_DAY if days else None


def _refuse_logged(running: Running, first: datetime.date) -> None:
    if running.log is None:
        return
    log = running.log.require()
    late = [s.id for s in running.block.sessions if s.date >= first and log.entry(s.id) is not None]
    if late:
        message = f"the log has entries for sessions from {first} on: {listed(late)}"
        raise UserError([running.log.finding(("sessions",), "logged-later", message, "name a later day with --from")])


def maxima_told(running: Running, first_day: datetime.date, problem: Problem) -> dict[str, float]:
    """Maxima of tested lifts by the log, as shares of the tested ones; else those that the block was revised with.

    Nothing for a novice, whose loads rise from week to week anyhow.
    """
    before = dict(running.earlier.maxima)
    if running.log is None or gains(problem):
        return before
    courses = lift_courses(
        _past(running, first_day, problem.library, problem.athlete.take_off),
        tested_maxima(problem),
        problem.library,
        follow_up_near(running.path).lifts,
        body_kg=problem.athlete.body_mass,
        start=running.block.weeks[0].start,
        until=first_day,
    )
    known = problem.gained  # what a test's figure has become before this block
    now = {
        c.movement: known.get(c.movement, 1) * c.now_kg / c.tested.load_kg
        for c in courses
        if c.tested is not None and c.tested.own
    }
    return before | {lift: round(share, SHARE_DIGITS) for lift, share in now.items() if share > 0}


def _past(running: Running, first_day: datetime.date, library: Library, take_off: TakeOff) -> list[DoneSession]:
    """What the log says of the sessions before the first day; nothing without a log."""
    done = () if running.log is None else done_sessions(running.block, running.log.require(), library, take_off)
    return [one for one in done if one.planned.date < first_day]


def unlogged(running: Running, first_day: datetime.date) -> list[Finding]:
    """Sessions of the past that no entry tells of: they count as done as planned."""
    since = running.earlier.first_day
    log = None if running.log is None else running.log.require()
    missing: list[Session] = [session for session in running.block.sessions if since <= session.date < first_day]
    if log is not None:
        missing = [one for one in not_logged(running.block, log, first_day) if one.date >= since]
    if not missing:
        return []
    message = f"no entry for {listed([session.id for session in missing])}: counted as done as planned"
    hint = f"if that is wrong: jumpblock log {running.loaded.path} {missing[-1].id}"
    return [Finding(running.loaded.path, 0, 0, "not-logged", message, hint, level="note")]


def lost_to_come(running: Running, first_day: datetime.date, athlete: Athlete) -> list[Finding]:
    """Sessions to come on dates away, each with the free days of its week: whether it moves is the coach's to say."""
    away, path = set(athlete.training.away), running.loaded.path
    played = {match.date for match in athlete.matches}
    found = []
    for week in running.block.weeks:
        held = {session.date for session in week.sessions}
        dates = [week.start + number * ONE_DAY for number in range(7)]
        free = [date for date in dates if date >= first_day and date not in held | away | played]
        for session in (one for one in week.sessions if one.date >= first_day and one.date in away):
            message = f"{session.id} ({session.date:%a %d %b}) is on an away date and is left out"
            hint = "no other day of its week is free"
            if free:
                nearest = min(free, key=lambda date: (abs(date - session.date), date))
                days = listed([f"{date:%a %d %b}" for date in free])
                hint = f"free in its week: {days}; to keep it: jumpblock change {path} {session.id} --move "
                hint += f"{DAYS[nearest.weekday()]}, then revise"
            found.append(Finding(path, 0, 0, "day-lost", message, hint, level="note"))
    return found


def revision_of(
    running: Running, first_day: datetime.date, library: Library, athlete: Athlete, folder: Path
) -> Revision:
    """What the rest of the block starts from; ``folder``: where the revised block will be."""
    log, at = running.log, log_path(running.path)
    past = _past(running, first_day, library, athlete.take_off)
    return Revision(
        first_day=first_day,
        block=reference(Located(running.path, str(running.path), ""), running.loaded.sha256, folder),
        log=None if log is None else reference(Located(at, str(at), ""), log.sha256, folder),
        routines=routines_of(running.block, first_day, athlete.training),
        done=_changed_sessions(running, past),
        pain=_pain(running, past),
        extra=_other_work(running),
    )


def _changed_sessions(running: Running, past: Sequence[DoneSession]) -> tuple[PastSession, ...]:
    """Sessions that were not done as planned, by earlier revisions and by the log, in the block's order."""
    found = {one.session: one for one in running.earlier.done}
    found |= {one.session: one for one in map(_changed, past) if one is not None}
    return tuple(found[session.id] for session in running.block.sessions if session.id in found)


def _changed(done: DoneSession) -> PastSession | None:
    """What differs from the plan; None where it was done as planned."""
    if done.missed:
        return PastSession(session=done.planned.id, missed=done.entry.why or "other")
    items = tuple(_changed_items(done))
    date = done.date if done.date != done.planned.date else None
    return PastSession(session=done.planned.id, date=date, items=items) if items or date else None


def _changed_items(done: DoneSession) -> Iterator[PastItem]:
    for planned, item in zip(done.planned.items, done.session.items, strict=True):
        other = item.movement if item.movement != planned.movement else None
        if other or (item.sets, item.contacts) != (planned.sets, planned.contacts):
            yield PastItem(item=planned.id, movement=other, sets=item.sets, contacts=item.contacts)


def _pain(running: Running, past: Sequence[DoneSession]) -> tuple[JointState, ...]:
    """Pain by the log, else as the block was revised with, joint by joint."""
    now = pain_now(past, follow_up_near(running.path).pain) if past else ()
    told = {(state.joint, state.side) for state in now}
    return (*(state for state in running.earlier.pain if (state.joint, state.side) not in told), *now)


def _other_work(running: Running) -> tuple[OtherWork, ...]:
    """Work outside the block, by earlier revisions and by the log, in order of date."""
    known = running.earlier.extra
    told = running.log.require().extra if running.log is not None else ()
    return tuple(sorted([*known, *(one for one in told if one not in known)], key=lambda work: work.date))
