"""Who cannot train on a day that is over, and what a coach may change for each: another movement, or another day.

Each remedy is tried: it breaks no hard rule of the block, and there is room among the starts of the others.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from planner.domain.block import Session
from planner.domain.findings import UserError
from planner.domain.terms import DAYS
from planner.jobs.change_block import AskedChange, change_block
from planner.jobs.squad_blocks import SquadBlocks, session_on
from planner.solve.start_times import StartPlan, plan_without_some
from planner.starts.day_rows import SquadDay, Start, clock, day_model, halls_of, openings
from planner.starts.first_fit import FirstFit
from planner.starts.timed_session import TimedSession, station_of, timed_session

MOST_TRIED = 6  # athletes; the others are named
MOST_SWAPS = 4  # movements tried for an athlete
DayAt = Callable[[datetime.date, Sequence[TimedSession]], SquadDay]


@dataclass(frozen=True)
class Remedy:
    """``change``: the options of ``jumpblock change`` after the session, "" where none was found; then no start.

    ``misses``: weekly ranges that the change leaves, in words.
    """

    athlete: str
    name: str
    session: str
    block: str
    change: str = ""
    date: datetime.date | None = None
    start: str = ""
    hall: str = ""
    misses: tuple[str, ...] = ()


@dataclass(frozen=True)
class Without:
    """``proved``: whether no fewer can be left out. ``untried``: names of athletes left out beyond ``remedies``."""

    proved: bool
    remedies: tuple[Remedy, ...]
    untried: tuple[str, ...]


def remedies(date: datetime.date, of: SquadDay, over: StartPlan, blocks: SquadBlocks, day_at: DayAt) -> Without | None:
    """None where even the starts without some were not found. ``day_at``: a day of the squad with these sessions."""
    plan = plan_without_some(of)
    if not plan.starts:
        return None
    placed = {start.athlete for start in plan.starts}
    left = [session for session in of.sessions if session.athlete not in placed]
    room = _Room(replace(of, sessions=tuple(one for one in of.sessions if one.athlete in placed)), plan.starts)
    found = []
    for session in left[:MOST_TRIED]:
        asked = _Asked(date, session, blocks)
        first = next(_swaps(asked, room, {one.resource for one in over.overflows}), None)
        found.append(first or next(_other_days(asked, of, day_at), asked.none))
    return Without(plan.status == "optimal", tuple(found), tuple(one.name for one in left[MOST_TRIED:]))


@dataclass
class _Room:
    """The starts that are settled so far."""

    of: SquadDay
    starts: tuple[Start, ...]

    def add(self, session: TimedSession) -> Start | None:
        """The start that the session gets among the others, kept; None where there is no room."""
        wider = replace(self.of, sessions=(*self.of.sessions, session))
        found = FirstFit(wider, day_model(wider, other_orders=True)).added(self.starts, session.athlete)
        if not found:
            return None
        self.of, self.starts = wider, found
        return next(one for one in found if one.athlete == session.athlete)


@dataclass(frozen=True)
class _Tried:
    timed: TimedSession
    date: datetime.date
    misses: tuple[str, ...]


@dataclass(frozen=True)
class _Asked:
    date: datetime.date
    timed: TimedSession
    blocks: SquadBlocks

    @property
    def path(self) -> Path:
        return self.blocks.paths[self.timed.athlete]

    @property
    def none(self) -> Remedy:
        return Remedy(self.timed.athlete, self.timed.name, self.timed.session, self.path.as_posix())

    def remedy(self, change: str, tried: _Tried, start: Start) -> Remedy:
        found = replace(self.none, change=change, date=tried.date, misses=tried.misses)
        return replace(found, start=clock(start.step), hall=start.hall)

    def tried(self, change: AskedChange, date: datetime.date) -> _Tried | None:
        """None where the change breaks a hard rule or cannot be made. ``date``: the session's day then."""
        try:
            done = change_block(self.path, change)
        except UserError:
            return None
        if any(one.level != "note" for one in done.broken):
            return None
        movements = self.blocks.movements[self.timed.athlete]
        (session,) = session_on(done.new, date)
        timed = timed_session(self.timed.athlete, self.timed.name, session, movements)
        return _Tried(timed, date, tuple(one.message for one in done.broken))


def _swaps(asked: _Asked, room: _Room, over: set[str]) -> Iterator[Remedy]:
    """Movements of the same part and patterns that need no station that is over."""
    (session,) = session_on(asked.blocks.blocks[asked.timed.athlete], asked.date)
    for old, new in list(_candidates(asked, room.of, session, over))[:MOST_SWAPS]:
        tried = asked.tried(AskedChange(session.id, swap=(old, new)), asked.date)
        start = room.add(tried.timed) if tried is not None else None
        if tried is not None and start is not None:
            yield asked.remedy(f"--swap {old}={new}", tried, start)


def _candidates(asked: _Asked, of: SquadDay, session: Session, over: set[str]) -> Iterator[tuple[str, str]]:
    movements = asked.blocks.movements[asked.timed.athlete]
    block = asked.blocks.blocks[asked.timed.athlete]
    used = {item.movement for one in block.sessions for item in one.items}
    gym = {one for movement in used & movements.keys() for one in movements[movement].equipment}
    for hall in halls_of(of.squad, asked.timed.athlete):
        for item, timed in zip(session.items, asked.timed.orders[0], strict=False):
            station, old = station_of(timed, hall), movements.get(item.movement)
            if old is None or station is None or not any(one.startswith(station.name) for one in over):
                continue
            for new in movements.values():
                alike = new.id != old.id and new.part == old.part and set(new.patterns) == set(old.patterns)
                there = station_of(replace(timed, equipment=new.equipment), hall)
                if alike and set(new.equipment) <= gym and (there is None or there.name not in over):
                    yield old.id, new.id


def _other_days(asked: _Asked, of: SquadDay, day_at: DayAt) -> Iterator[Remedy]:
    """Days of the same week on which a hall is open for so long and everybody who trains then still has a start."""
    block = asked.blocks.blocks[asked.timed.athlete]
    week = next(one for one in block.weeks if any(session.date == asked.date for session in one.sessions))
    for number in range(7):
        date = week.start + datetime.timedelta(days=number)
        day = DAYS[date.weekday()]
        times = [one for hall in halls_of(of.squad, asked.timed.athlete) for one in openings(hall, day)]
        if date == asked.date or all(len(one) < asked.timed.steps for one in times):
            continue
        tried = asked.tried(AskedChange(asked.timed.session, move=day), date)
        if tried is None:
            continue
        there = day_at(date, [tried.timed])
        starts = FirstFit(there, day_model(there)).place()
        if starts:
            start = next(one for one in starts if one.athlete == asked.timed.athlete)
            yield asked.remedy(f"--move {day}", tried, start)
