"""A spreadsheet of sets, one row a set, as entries of a log. Every finding names its cell; all are told at once."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import get_args

from planner.domain.block import Block, Item, Session
from planner.domain.findings import Finding, UserError
from planner.domain.follow_up import SheetColumn, SheetField
from planner.domain.training_log import WHY_MISSED, WRITTEN, LoggedItem, LoggedPain, WhyMissed, Written
from planner.files.cells import Cell, heading_row, read_rows
from planner.files.suggest import did_you_mean
from planner.files.typed_figures import is_bare
from planner.files.typed_sets import read_pain
from planner.units import UNITS, Dimension, QuantityError, Unreadable, parse_quantity

_UNIT = re.compile(r"\(([A-Za-z]+)\)\s*$")
_FEWEST_KNOWN = 2  # headings that make a row the row of headings


@dataclass
class SheetSession:
    """What a sheet says of one session; None for what it does not say."""

    session: Session
    date: datetime.date | None = None
    effort: int | None = None
    minutes: int | None = None
    body_mass: float | None = None
    note: str | None = None
    pain: tuple[LoggedPain, ...] | None = None
    missed: WhyMissed | None = None
    written: Written | None = None
    items: list[LoggedItem] = field(default_factory=list)


@dataclass(frozen=True)
class _SetRow:
    session: Session
    item: Item | None
    number: int
    load: float | None
    reps: int | None
    left: int | None
    touch: float | None
    whole: dict[str, object]  # of the session, not of the set


@dataclass(frozen=True)
class Column:
    """What a column holds, and the unit that its heading gives."""

    means: SheetField
    unit: str | None


def read_sets(path: Path, display: str, headings: Sequence[SheetColumn], block: Block) -> list[SheetSession]:
    """Every session of the sheet. UserError with all findings where there is any."""
    rows = read_rows(path, display)
    at, columns = find_columns(rows, headings, display, ("session", "date"))
    reader = _Reader({s.id: s for s in block.sessions}, columns)
    read = [row for cells in rows[at + 1 :] if (row := reader.row(cells)) is not None]
    if reader.findings:
        raise UserError(sorted(reader.findings))
    if not read:
        raise UserError([Finding(display, 0, 0, "no-sets", "there is no row below the headings", "add one row a set")])
    return list(_sessions(read))


def find_columns(
    rows: list[list[Cell]], headings: Sequence[SheetColumn], display: str, one_of: tuple[SheetField, ...]
) -> tuple[int, dict[int, Column]]:
    """The row of headings, and what each of its columns means. UserError where there is none that has ``one_of``."""
    known = {name: heading.means for heading in headings for name in heading.names}
    at, columns = heading_row(rows, lambda cell: _column(cell, known))
    means = [column.means for column in columns.values()]
    if len(means) < _FEWEST_KNOWN or not set(one_of) & set(means):
        message = f"no row of headings with a {' or a '.join(one_of)} was found"
        hint = f"name the columns {', '.join(get_args(SheetField))}; other names go into templates/follow-up"
        raise UserError([Finding(display, 0, 0, "no-headings", message, hint)])
    return at, columns


def cells_by_meaning(cells: list[Cell], columns: dict[int, Column]) -> dict[SheetField, Cell]:
    """The filled cells of a row by what their columns hold."""
    pairs = ((column.means, cells[number]) for number, column in columns.items() if number < len(cells))
    return {means: cell for means, cell in pairs if cell.value is not None}


def _column(cell: Cell, known: dict[str, SheetField]) -> Column | None:
    text = cell.text.casefold()
    unit = _UNIT.search(cell.text)
    name = _UNIT.sub("", text).strip() if unit else text
    return Column(known[name], unit.group(1) if unit else None) if name in known else None


class _Reader:
    def __init__(self, sessions: dict[str, Session], columns: dict[int, Column]) -> None:
        self._sessions, self._columns = sessions, columns
        self._units = {column.means: column.unit for column in columns.values()}
        self.findings: list[Finding] = []

    def row(self, cells: list[Cell]) -> _SetRow | None:
        """The row's figures; None where it has findings."""
        before = len(self.findings)
        by, units = cells_by_meaning(cells, self._columns), self._units
        self.findings += [cell.finding("error-cell", *cell.problem) for cell in by.values() if cell.problem]
        if len(self.findings) > before or not by:
            return None
        day = self._day(by.get("date"))
        session = self._session(by, day)
        item = self._item(by.get("movement"), session)
        whole = {
            "date": day,
            "effort": self._whole(by.get("effort"), 10),
            "minutes": self._whole(by.get("minutes"), 600),
            "body_mass": self._quantity(by.get("body-mass"), "mass", units.get("body-mass")),
            "pain": self._pain(by.get("pain")),
            "missed": self._word(by.get("missed"), WHY_MISSED, "no-reason", "why a session is missed"),
            "written": self._word(by.get("written"), WRITTEN, "not-a-choice", "when it was written down"),
            "note": by["note"].text if "note" in by else None,
        }
        row = (
            self._whole(by.get("set"), 60) or 0,
            self._quantity(by.get("load"), "mass", units.get("load")),
            self._whole(by.get("reps"), 200),
            self._whole(by.get("left"), 10),
            self._quantity(by.get("touch"), "length", units.get("touch")),
        )
        if len(self.findings) > before or session is None:
            return None
        return _SetRow(session, item, *row, whole={name: value for name, value in whole.items() if value is not None})

    def _find(self, cell: Cell, code: str, message: str, hint: str) -> None:
        self.findings.append(cell.finding(code, message, hint))

    def _day(self, cell: Cell | None) -> datetime.date | None:
        if cell is not None and cell.day is None:
            self._find(cell, "not-a-date", f"'{cell.text}' is not a day", "write year-month-day, such as 2026-03-17")
        return None if cell is None else cell.day

    def _session(self, by: dict[SheetField, Cell], day: datetime.date | None) -> Session | None:
        if "session" in by:
            name = by["session"].text.casefold()
            if name not in self._sessions:
                hint = did_you_mean(name, self._sessions)
                self._find(by["session"], "unknown-session", f"the block has no session '{by['session'].text}'", hint)
            return self._sessions.get(name)
        planned = [session for session in self._sessions.values() if session.date == day]
        if not planned and "date" in by and day is not None:
            hint = "add a column 'session' with the card's name, such as w3s2"
            self._find(by["date"], "unknown-session", f"no session is planned for {day}", hint)
        if "date" not in by:
            first = next(iter(by.values()))
            self._find(first, "unknown-session", "this row has neither session nor date", "write one of them")
        return planned[0] if planned else None

    def _item(self, cell: Cell | None, session: Session | None) -> Item | None:
        if cell is None or session is None:
            return None
        wanted = cell.text.casefold()
        for number, item in enumerate(session.items, start=1):
            if wanted in (str(number), item.id, item.movement, item.name.casefold()):
                return item
        hint = did_you_mean(cell.text, [item.name for item in session.items])
        self._find(cell, "unknown-movement", f"{session.id} has no '{cell.text}'", hint)
        return None

    def _pain(self, cell: Cell | None) -> tuple[LoggedPain, ...] | None:
        if cell is None:
            return None
        try:
            return tuple(read_pain(one) for one in cell.text.split(";"))
        except Unreadable as error:
            self._find(cell, "not-a-pain", error.message, error.hint)
            return None

    def _word(self, cell: Cell | None, words: tuple[str, ...], code: str, what: str) -> str | None:
        if cell is None:
            return None
        found = next((word for word in words if word == cell.text.casefold()), None)
        if found is None:
            self._find(cell, code, f"'{cell.text}' is not {what}", did_you_mean(cell.text, words))
        return found

    def _whole(self, cell: Cell | None, most: int) -> int | None:
        if cell is None:
            return None
        number = int(cell.text) if cell.text.isdecimal() else None
        if number is None or number > most:
            self._find(cell, "not-a-count", f"'{cell.text}' is not a whole number up to {most}", "correct the cell")
        return number

    def _quantity(self, cell: Cell | None, dimension: Dimension, unit: str | None) -> float | None:
        """``unit``: of the heading, for a bare figure."""
        if cell is None:
            return None
        text = cell.text
        if unit is not None and unit in UNITS[dimension] and is_bare(text):
            text = f"{text} {unit}"
        try:
            return parse_quantity(text, dimension)
        except QuantityError as error:
            hint = f"{error.hint}, or the unit in the heading: {'load (kg)' if dimension == 'mass' else 'touch (m)'}"
            self._find(cell, "quantity", error.message, hint)
            return None


def _sessions(rows: list[_SetRow]) -> Iterator[SheetSession]:
    """The rows of each session, in the order in which the sheet first names it."""
    found: dict[str, SheetSession] = {}
    sets: dict[str, dict[str, list[_SetRow]]] = {}
    for row in rows:
        one = found.setdefault(row.session.id, SheetSession(row.session))
        for name, value in row.whole.items():
            setattr(one, name, value)
        if row.item is not None:
            sets.setdefault(row.session.id, {}).setdefault(row.item.id, []).append(row)
    for session_id, one in found.items():
        for item_id, own in sets.get(session_id, {}).items():
            one.items.append(_logged(item_id, sorted(own, key=lambda row: row.number)))
        yield one


def _logged(item_id: str, rows: list[_SetRow]) -> LoggedItem:
    """The rows of one item; a lone row without the number of its set speaks for every set.

    Reps left are kept up to the first set that does not say them.
    """
    item = next(row.item for row in rows if row.item is not None)
    loads = [row.load for row in rows if row.load is not None]
    same = len(set(loads)) == 1
    reps = [row.reps for row in rows if row.reps is not None]
    touches = [row.touch for row in rows if row.touch is not None]
    left: list[int] = []
    for row in rows:
        if row.left is None:
            break
        left.append(row.left)
    whole = len(reps) == len(rows)
    if whole and len(rows) == 1 and not rows[0].number:  # a row without the number of its set is every set
        reps *= item.sets
    return LoggedItem.model_construct(
        item=item_id,
        movement=item.movement,
        load=loads[0] if same else None,
        loads=tuple(loads) if loads and not same and len(loads) == len(rows) else (),
        sets=None if whole or touches else len(rows),
        reps=tuple(reps) if whole else (),
        reps_in_reserve=tuple(left),
        touches=tuple(touches),
    )
