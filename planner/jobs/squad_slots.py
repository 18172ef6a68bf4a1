"""Who starts when in which hall, day by day, from the blocks of a squad."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from planner.domain.block import Block, Session
from planner.domain.findings import Finding, UserError
from planner.domain.movement import Movement
from planner.domain.squad_rules import SquadRules
from planner.domain.terms import DAYS
from planner.files.load import load_block, load_library, load_squad_rules
from planner.files.locate import locate_squad_rules
from planner.jobs.block_references import follow
from planner.jobs.changed_athlete import changed_athlete
from planner.jobs.squad_files import SquadFiles
from planner.solve.start_times import StartPlan, plan_day
from planner.starts.day_rows import SquadDay, Start, clock, halls_of, openings
from planner.starts.timed_session import STEP_min, TimedSession, station_of, timed_session

Progress = Callable[[str], None]


@dataclass(frozen=True)
class DayStarts:
    """One day: what was asked, and the answer. ``too_long``: sessions that no opening of a hall holds, in words."""

    date: datetime.date
    of: SquadDay
    plan: StartPlan
    too_long: tuple[str, ...] = ()

    @property
    def possible(self) -> bool:
        return bool(self.plan.starts)

    def session(self, start: Start) -> TimedSession:
        return next(one for one in self.of.sessions if one.athlete == start.athlete)


@dataclass
class SquadBlocks:
    """The blocks by athlete, with the movements that their items name; ``missing``: athletes without one.

    ``changed``: whose file is another one by now; ``sore``: whose pain no block is planned over, so that they get no
    start and no card.
    """

    blocks: dict[str, Block] = field(default_factory=dict)
    movements: dict[str, Mapping[str, Movement]] = field(default_factory=dict)
    missing: list[Finding] = field(default_factory=list)
    changed: list[Finding] = field(default_factory=list)
    sore: dict[str, list[Finding]] = field(default_factory=dict)

    @property
    def told(self) -> list[Finding]:
        return [*self.missing, *self.changed, *(one for found in self.sore.values() for one in found)]


def read_blocks(squad: SquadFiles, folder: Path | None = None, progress: Progress = lambda text: None) -> SquadBlocks:
    """UserError where there is no block at all, or one that cannot be read."""
    found = SquadBlocks()
    libraries: dict[Path, Mapping[str, Movement]] = {}
    broken: list[Finding] = []
    for name in squad.athletes:
        path = squad.block(name, folder)
        progress(f"reading {path.name}")
        if not path.is_file():
            message, hint = f"{name} has no block", "plan it: jumpblock squad plan"
            found.missing.append(Finding(path.as_posix(), 0, 0, "no-block", message, hint, level="warning"))
            continue
        loaded = load_block(path, path.as_posix())
        if loaded.value is None:
            broken += loaded.findings
            continue
        try:
            found.changed += changed_athlete(loaded, path.parent)
        except UserError as refusal:
            found.sore[name] = [replace(one, level="warning") for one in refusal.findings]
        library = follow(loaded.value.library.path, path.parent)
        if library not in libraries:
            libraries[library] = load_library(library, loaded.value.library.path).require().movements
        found.blocks[name], found.movements[name] = loaded.value, libraries[library]
    if broken:
        raise UserError(broken)
    if not found.blocks:
        message, hint = "no athlete of the squad has a block", "plan them: jumpblock squad plan"
        raise UserError([Finding(squad.loaded.path, 0, 0, "no-block", message, hint)])
    return found


def first_day(blocks: SquadBlocks) -> datetime.date:
    """The first day on which anybody of the squad trains."""
    return min(block.weeks[0].sessions[0].date for block in blocks.blocks.values())


def squad_slots(
    squad: SquadFiles,
    blocks: SquadBlocks,
    since: datetime.date,
    days: int,
    progress: Progress = lambda text: None,
) -> list[DayStarts]:
    """Every day on which somebody trains who is not too sore for it.

    UserError where the squad has no halls, or nobody trains in these days.
    """
    if not squad.squad.halls:
        message, hint = "the squad has no halls", "add halls with their opening times and stations"
        raise UserError([squad.loaded.finding((), "no-halls", message, hint)])
    at = locate_squad_rules(squad.loaded.path)
    rules = load_squad_rules(at.path, at.display).require()
    found = []
    for number in range(days):
        date = since + datetime.timedelta(days=number)
        sessions = tuple(_sessions(blocks, date))
        if sessions:
            progress(f"start times of {date}")
            found.append(_day(squad, rules, date, sessions))
    if not found:
        message, hint = f"nobody trains from {since} on for {days} days", "name another day with --from"
        raise UserError([*blocks.told, Finding(squad.loaded.path, 0, 0, "no-sessions", message, hint)])
    return found


def _sessions(blocks: SquadBlocks, date: datetime.date) -> Iterator[TimedSession]:
    for name, block in blocks.blocks.items():
        for session in session_on(block, date) if name not in blocks.sore else ():
            yield timed_session(name, block.for_athlete.name, session, blocks.movements[name])


def session_on(block: Block, date: datetime.date) -> list[Session]:
    return [session for week in block.weeks for session in week.sessions if session.date == date][:1]


def _day(squad: SquadFiles, rules: SquadRules, date: datetime.date, sessions: tuple[TimedSession, ...]) -> DayStarts:
    of = SquadDay(DAYS[date.weekday()], squad.squad, rules, sessions)
    too_long = tuple(_too_long(of))
    return DayStarts(date, of, StartPlan("impossible") if too_long else plan_day(of), too_long)


def _too_long(of: SquadDay) -> Iterator[str]:
    for session in of.sessions:
        halls = halls_of(of.squad, session.athlete)
        longest = max((len(one) for hall in halls for one in openings(hall, of.day)), default=0)
        if session.steps > longest:
            what = f"no hall is open longer than {longest * STEP_min}" if longest else "no hall is open"
            yield f"{session.name}: {session.session} takes {session.minutes} min, and {what}"


def day_data(day: DayStarts) -> dict[str, Any]:
    """The day as data: each start with its items, their stations and times of day."""
    halls = {hall.name: hall for hall in day.of.squad.halls}
    starts = []
    for start in sorted(day.plan.starts, key=lambda one: (one.step, one.hall, one.athlete)):
        session = day.session(start)
        items = [
            {
                "item": item.item,
                "name": item.name,
                "station": station.name if (station := station_of(item, halls[start.hall])) else None,
                "from": _time(start.step, item.start),
                "to": _time(start.step, item.end),
            }
            for item in session.orders[start.order]
        ]
        starts.append(
            {
                "athlete": start.athlete,
                "name": session.name,
                "session": session.session,
                "hall": start.hall,
                "start": clock(start.step),
                "end": _time(start.step, session.minutes),
                "as_on_the_card": start.order == 0,
                "items": items,
            }
        )
    over = [str(one) for one in day.plan.overflows]
    return {
        "date": day.date.isoformat(),
        "status": day.plan.status,
        "cost": day.plan.cost,
        "bound": day.plan.bound,
        "starts": starts,
        "over": [*day.too_long, *over],
    }


def _time(step: int, minutes: float) -> str:
    whole = step * STEP_min + round(minutes)
    return f"{whole // 60:02d}:{whole % 60:02d}"
