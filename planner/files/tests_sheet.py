"""A spreadsheet of test results, one row a trial or a test. Every finding names its cell; all are told at once."""

from __future__ import annotations

import datetime
import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from planner.domain.findings import Finding, UserError
from planner.domain.follow_up import SheetColumn, SheetField
from planner.domain.terms import LEGS
from planner.files.cells import Cell, read_rows
from planner.files.sets_sheet import cells_by_meaning, find_columns
from planner.files.typed_figures import is_bare

_PARTED = re.compile(r"[,+;:\s]+")


@dataclass(frozen=True)
class ToldTest:
    """A test's name, its leg in it where it has one, and its result as it would be typed. ``cell``: for findings."""

    day: datetime.date
    test: str
    text: str
    cell: Cell


def read_tests(
    path: Path, display: str, headings: Sequence[SheetColumn], day: datetime.date | None = None
) -> list[ToldTest]:
    """The sheet's tests, rows of one test and day together. ``day``: where a row has no date. UserError likewise."""
    rows = read_rows(path, display)
    at, columns = find_columns(rows, headings, display, ("test",))
    units = {column.means: column.unit for column in columns.values()}
    found: list[Finding] = []
    told: dict[tuple[datetime.date, str], ToldTest] = {}
    for cells in rows[at + 1 :]:
        row = _row(cells_by_meaning(cells, columns), units, day, found)
        if row is not None:
            before = told.get((row.day, row.test))
            text = row.text if before is None else f"{before.text}, {row.text}"
            told[row.day, row.test] = ToldTest(row.day, row.test, text, row.cell)
    if found:
        raise UserError(found)
    if not told:
        message, hint = "there is no row below the headings", "add one row a trial"
        raise UserError([Finding(display, 0, 0, "no-tests", message, hint)])
    return list(told.values())


def _row(
    by: dict[SheetField, Cell], units: dict[SheetField, str | None], usual: datetime.date | None, found: list[Finding]
) -> ToldTest | None:
    if not by:
        return None
    first, before = next(iter(by.values())), len(found)
    found += [cell.finding("error-cell", *cell.problem) for cell in by.values() if cell.problem]
    if "test" not in by:
        found.append(first.finding("no-test", "this row names no test", "write its number on the sheet, or its kind"))
    day = by["date"].day if "date" in by else usual
    if day is None:
        cell = by.get("date", first)
        found.append(cell.finding("not-a-date", f"'{cell.text}' is not a day", "write year-month-day, or give --date"))
    side = by["side"].text.casefold() if "side" in by else ""
    if side and side not in LEGS:
        found.append(by["side"].finding("not-a-choice", f"'{side}' is not a leg", "write left or right"))
    text = _text(by, units)
    if text is None:
        found.append(first.finding("no-result", "this row has no result", "fill in result, or load, reps and left"))
    if len(found) > before or day is None or text is None:
        return None
    return ToldTest(day, f"{by['test'].text} {side}".strip(), text, by.get("result", first))


def _text(by: dict[SheetField, Cell], units: dict[SheetField, str | None]) -> str | None:
    """As it would be typed: the result, or the load, reps and reps left of a lift."""
    if "result" in by:
        return _with_unit(by["result"], units.get("result"))
    if "load" in by and "reps" in by:
        left = f"; {by['left'].text} left" if "left" in by else ""
        return f"{_with_unit(by['load'], units.get('load'))} x {by['reps'].text}{left}"
    return None


def _with_unit(cell: Cell, unit: str | None) -> str:
    """The heading's unit goes to a cell whose last figure has none: ``0.205 + 0.500``, but not ``9'8"``."""
    last = _PARTED.split(cell.text)[-1]
    return f"{cell.text} {unit}" if unit is not None and is_bare(last) else cell.text
