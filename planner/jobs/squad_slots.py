"""Who starts when in which hall, day by day, from the blocks of a squad."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from planner.domain.findings import Finding, UserError
from planner.domain.terms import DAYS
from planner.files.load import load_squad_rules
from planner.files.locate import locate_squad_rules
from planner.jobs.squad_blocks import Progress, SquadBlocks, sessions_on
from planner.jobs.squad_files import SquadFiles
from planner.jobs.squad_remedies import DayAt, Without, remedies
from planner.solve.start_times import StartPlan, plan_day
from planner.starts.day_rows import SquadDay, Start, clock, halls_of, openings
from planner.starts.timed_session import STEP_min, TimedSession, clock_at, station_of


@dataclass(frozen=True)
class DayStarts:
    """One day: what was asked, and the answer. ``too_long``: sessions that no opening of a hall holds, in words.

    ``without``: where nothing holds, who would have to be left out, and what could be changed for them.
    """

    date: datetime.date
    of: SquadDay
    plan: StartPlan
    too_long: tuple[str, ...] = ()
    without: Without | None = None

    @property
    def possible(self) -> bool:
        return bool(self.plan.starts)

    def session(self, start: Start) -> TimedSession:
        return next(one for one in self.of.sessions if one.athlete == start.athlete)


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

    def day_at(date: datetime.date, more: Sequence[TimedSession] = ()) -> SquadDay:
        return SquadDay(DAYS[date.weekday()], squad.squad, rules, (*sessions_on(blocks, date), *more))

    found = []
    for number in range(days):
        date = since + datetime.timedelta(days=number)
        of = day_at(date)
        if of.sessions:
            progress(f"start times of {date}")
            found.append(_day(date, of, blocks, day_at))
    if not found:
        message, hint = f"nobody trains from {since} on for {days} days", "name another day with --from"
        raise UserError([*blocks.told, Finding(squad.loaded.path, 0, 0, "no-sessions", message, hint)])
    return found


def _day(date: datetime.date, of: SquadDay, blocks: SquadBlocks, day_at: DayAt) -> DayStarts:
    if too_long := tuple(_too_long(of)):
        return DayStarts(date, of, StartPlan("impossible"), too_long)
    plan = plan_day(of)
    return DayStarts(date, of, plan, (), None if plan.starts else remedies(date, of, plan, blocks, day_at))


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
        "without": None if day.without is None else _without_data(day.without),
    }


def _without_data(without: Without) -> dict[str, Any]:
    remedies = [{**vars(one), "date": one.date.isoformat() if one.date else None} for one in without.remedies]
    return {"proved": without.proved, "athletes": remedies, "untried": list(without.untried)}


def _time(step: int, minutes: float) -> str:
    """The time of day, some minutes after a step."""
    return clock_at(step * STEP_min + round(minutes))
