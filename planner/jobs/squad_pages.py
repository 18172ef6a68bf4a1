"""What hangs on the wall and what is handed out: the day's stations by quarter of an hour, and its cards."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from planner.cards.squad_cards import DayCard, draw_day_cards
from planner.cards.wall_sheet import Stay, wall_table
from planner.cards.wide_table import WideTable, draw_tables
from planner.domain.findings import Finding, UserError
from planner.files.document import Loaded
from planner.jobs.print_block import layout_near
from planner.jobs.squad_blocks import SquadBlocks, session_on
from planner.jobs.squad_files import SquadFiles
from planner.jobs.squad_slots import DayStarts, day_data
from planner.prescription.session_words import dated
from planner.starts.timed_session import STEP_min, station_of
from planner.units import counted

FLOOR = "floor"  # items that need no station
_ROW = (
    "A row names all who are there in any part of its quarter of an hour; at no time are there more than fit. "
    "The warm-up comes first."
)
_PLACES, _NO_PLACE = "Places × athletes at each", f"{FLOOR}: what needs no place"


def wall_sheets(squad: SquadFiles, days: Sequence[DayStarts], paper: str = "a4") -> bytes:
    """A page a day and hall in which anybody starts. UserError where no day has starts."""
    sheets = [sheet for day in days for sheet in _sheets(squad, day)]
    if not sheets:
        message, hint = "there are no start times to print", "jumpblock squad slots says what is over"
        raise UserError([Finding(squad.loaded.path, 0, 0, "no-starts", message, hint)])
    return draw_tables(sheets, paper=paper)


def _sheets(squad: SquadFiles, day: DayStarts) -> Iterator[WideTable]:
    for hall in squad.squad.halls:
        own = [start for start in day.plan.starts if start.hall == hall.name]
        if not own:
            continue
        short = _short_names([day.session(start).name for start in own])
        stays = []
        for start in own:
            session, begins = day.session(start), start.step * STEP_min
            for item in session.orders[start.order]:
                station = station_of(item, hall)
                where = station.name if station is not None else FLOOR
                stays.append(Stay(short[session.name], where, begins + item.start, begins + item.end))
        starts = sorted((start.step * STEP_min, short[day.session(start).name]) for start in own)
        counts = ", ".join(f"{one.name} {one.number} × {one.share}" for one in hall.stations)
        title = f"{hall.name}, {day.date:%A} {day.date.day} {day.date:%B %Y}"
        who = f"{squad.squad.name}: {counted(len(own), 'athlete')}."
        subtitle = f"{who} {_ROW}\n{_PLACES}: {counts}; {_NO_PLACE}."
        columns = [station.name for station in hall.stations] + [FLOOR]
        yield wall_table(title, subtitle, columns, starts, stays)


def _short_names(names: Sequence[str]) -> dict[str, str]:
    """First name and initial, as far as it tells athletes apart; else the whole name."""
    short = {name: " ".join([*name.split()[:1], *[part[0] + "." for part in name.split()[1:]]]) for name in names}
    taken = list(short.values())
    return {name: one if taken.count(one) == 1 else name for name, one in short.items()}


def day_cards(squad: SquadFiles, blocks: SquadBlocks, day: DayStarts, folder: Path, paper: str | None = None) -> bytes:
    """All cards of a day, in the order of starting. UserError where the day has no starts."""
    if not day.possible:
        message, hint = f"there are no start times on {day.date}", "jumpblock squad slots says what is over"
        raise UserError([Finding(squad.loaded.path, 0, 0, "no-starts", message, hint)])
    cards = []
    for start in day_data(day)["starts"]:
        block = blocks.blocks[start["athlete"]]
        (session,) = session_on(block, day.date)
        week = next(one for one in block.weeks if session in one.sessions)
        path = squad.block(start["athlete"], folder).as_posix()
        cards.append(DayCard(block, week, session, _when(start), Loaded(block, (), "", path)))
    layout = layout_near(squad.loaded.path)
    first = cards[0]
    title = f"{squad.squad.name}, {dated(first.session, first.block.for_athlete, layout)}"
    return draw_day_cards(cards, layout, paper=paper or first.block.for_athlete.paper, title=title)


def _when(start: dict[str, Any]) -> str:
    """``16:30 Gym · rack 16:50–17:15``: neighbouring items at one station are one stay."""
    stays: list[tuple[str, str, str]] = []
    for item in start["items"]:
        if item["station"] and stays and stays[-1][0] == item["station"] and stays[-1][2] == item["from"]:
            stays[-1] = (stays[-1][0], stays[-1][1], item["to"])
        elif item["station"]:
            stays.append((item["station"], item["from"], item["to"]))
    said = "".join(f" · {name} {begins}–{ends}" for name, begins, ends in stays)
    other = "" if start["as_on_the_card"] else f" · order: {', '.join(item['name'] for item in start['items'])}"
    return f"{start['start']} {start['hall']}{said}{other}"
