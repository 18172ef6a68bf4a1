"""A spreadsheet as rows of cells, each with its place: ``.csv`` by the standard library, ``.xlsx`` by openpyxl."""

from __future__ import annotations

import csv
import datetime
import io
import re
import warnings
import zipfile
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from planner.domain.base import T
from planner.domain.findings import Finding, UserError
from planner.files.load import LARGEST_READ_bytes, read_bytes
from planner.files.values import iso_date

CellValue = str | int | float | datetime.date | None
_MOST_EMPTY_ROWS = 200  # in a row: nothing is looked for below them
_HEADINGS_WITHIN_rows = 10
MOST_ROWS = 20_000
_MOST_COLUMNS = 60
# As a spreadsheet program writes a formula that failed into its cell, in any of its languages.
_ERROR = re.compile(r"#[^\W\d_][\w/]*[!?]|#N/A|#NV|Err:\d{3}")
_RUNS = re.compile(r"'*[=+\-@\t\r]")
_MERGED = re.compile(rb'<mergeCell[^>]*ref="([A-Z]{1,3})([0-9]{1,7}):([A-Z]{1,3})([0-9]{1,7})"')


@dataclass(frozen=True)
class Cell:
    """``value``: None for an empty cell. ``path``, ``line`` and ``column``: as a finding names the place.

    ``problem``: why the value is not to be used, and what to do; empty for a good one.
    """

    value: CellValue
    path: str
    line: int
    column: int
    problem: tuple[()] | tuple[str, str] = ()

    def finding(self, code: str, message: str, hint: str) -> Finding:
        return Finding(self.path, self.line, self.column, code, message, hint)

    @property
    def day(self) -> datetime.date | None:
        """The value as a date, or as text that is one; else None."""
        return self.value if isinstance(self.value, datetime.date) else iso_date(self.text)

    @property
    def text(self) -> str:
        if self.value is None:
            return ""
        return f"{self.value:g}" if isinstance(self.value, float) else str(self.value).strip()


def read_rows(path: Path, display: str, most_columns: int = _MOST_COLUMNS) -> list[list[Cell]]:
    """The rows of a sheet that hold anything, in order. UserError where the file cannot be read as a sheet.

    Of a workbook the first sheet is read, with the values last stored in it, never its formulas. Columns further right
    than ``most_columns`` are not read.
    """
    raw, problems = read_bytes(path, display)
    if raw is None:
        raise UserError(problems)
    packed = path.suffix.lower() == ".xlsx"
    rows = _workbook(raw, display, most_columns) if packed else _table(raw, display, most_columns)
    if len(rows) > MOST_ROWS:
        message = f"the sheet has more than {MOST_ROWS:,} rows"
        raise UserError([Finding(display, 0, 0, "too-many-rows", message, "split it into several files")])
    return [row for row in rows if any(cell.value is not None for cell in row)]


def heading_row(rows: Sequence[Sequence[Cell]], meaning_of: Callable[[Cell], T | None]) -> tuple[int, dict[int, T]]:
    """Of the first rows, the one with the most known headings: its place, and what each of its columns means."""
    best: tuple[int, dict[int, T]] = (0, {})
    for at, row in enumerate(rows[:_HEADINGS_WITHIN_rows]):
        found = {number: meaning for number, cell in enumerate(row) if (meaning := meaning_of(cell)) is not None}
        if len(found) > len(best[1]):
            best = (at, found)
    return best


def _table(raw: bytes, display: str, most_columns: int) -> list[list[Cell]]:
    """Fields parted by comma, semicolon or tab, whichever the first line has most of; ``sep=;`` says it."""
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        message = "this is not UTF-8 text"
        raise UserError([Finding(display, line, 1, "not-utf-8", message, "save it as CSV in UTF-8")]) from None
    first, _, _ = text.partition("\n")
    stated = first.strip().lower() in ("sep=,", "sep=;", "sep=|")
    delimiter = first[4] if stated else max(",;\t", key=first.count)
    found, line = [], 1  # where a row begins: a cell may go over several lines
    reader = csv.reader(io.StringIO(text.replace("\0", ""), newline=None), delimiter=delimiter)
    try:
        for row in reader:
            if any(value.strip() for value in row) and not (stated and line == 1):
                cells = [_of_text(value, display, line, at) for at, value in enumerate(row, start=1)]
                found.append(cells[:most_columns])
            if len(found) > MOST_ROWS:
                break
            line = reader.line_num + 1
    except csv.Error as error:
        hint = "look for a quote that is not closed, or save the sheet again as CSV in UTF-8"
        raise UserError([Finding(display, line, 1, "not-csv", f"not readable as CSV: {error}", hint)]) from None
    return found


def _of_text(value: str, path: str, line: int, column: int) -> Cell:
    text = value.strip()
    return Cell(unguarded(value) or None, path, line, column, _error(text) if _ERROR.fullmatch(text) else ())


def _error(text: str) -> tuple[str, str]:
    return f"the cell holds the error {text}", "correct the formula, or write the figure"


def guarded(text: str) -> str:
    """Text for a sheet, with an apostrophe where a spreadsheet program would run it as a formula."""
    return f"'{text}" if _RUNS.match(text) else text


def unguarded(text: str) -> str:
    """As ``guarded`` got it. Blanks around it are dropped."""
    text = text.strip(" ") if _RUNS.match(text) else text.strip()
    return (text[1:] if text[:1] == "'" and _RUNS.match(text) else text).strip()


def _workbook(raw: bytes, display: str, most_columns: int) -> list[list[Cell]]:
    from openpyxl import load_workbook

    try:
        with warnings.catch_warnings(), zipfile.ZipFile(io.BytesIO(raw)) as packed:
            warnings.simplefilter("ignore")  # of what the package leaves out: lists, styles, a date that is none
            if sum(one.file_size for one in packed.infolist()) > LARGEST_READ_bytes:
                message, hint = "the workbook is larger than any sheet of ours", "copy the sheet into its own workbook"
                raise UserError([Finding(display, 0, 0, "too-large", message, hint)])
            stored, written = (load_workbook(io.BytesIO(raw), read_only=True, data_only=only) for only in (True, False))
            sheet = stored.worksheets[0]
            merged = _merged(packed.read(sheet._worksheet_path.lstrip("/")))
            return list(_sheet(sheet, written.worksheets[0], f"{display}:{sheet.title}", merged, most_columns))
    except UserError:
        raise
    except Exception as error:  # a broken workbook makes the packages that read it fail in a dozen ways
        message, hint = "this is not a workbook that can be read", "save it again as .xlsx, or as CSV in UTF-8"
        raise UserError([Finding(display, 0, 0, "not-a-workbook", message, hint)]) from error


def _merged(sheet: bytes) -> dict[int, list[tuple[int, int, str]]]:
    """For each row its merged cells: first and last column, and the name of the whole range."""
    from openpyxl.utils import column_index_from_string

    found: dict[int, list[tuple[int, int, str]]] = {}
    for left, top, right, bottom in _MERGED.findall(sheet):
        columns = column_index_from_string(left.decode()), column_index_from_string(right.decode())
        name = f"{left.decode()}{top.decode()}:{right.decode()}{bottom.decode()}"
        for row in range(int(top), min(int(bottom), MOST_ROWS) + 1):
            found.setdefault(row, []).append((*columns, name))
    return found


def _sheet(
    stored: Any, written: Any, place: str, merged: dict[int, list[tuple[int, int, str]]], most_columns: int
) -> Iterator[list[Cell]]:
    """``stored``: the sheet with its last results; ``written``: the same with its formulas."""
    empty = 0
    for sheet in (stored, written):
        sheet.reset_dimensions()  # the size that a file states of itself may be wrong, and rows would be lost
    both = zip(stored.iter_rows(max_col=most_columns), written.iter_rows(max_col=most_columns), strict=False)
    for number, (row, formulas) in enumerate(both, start=1):
        pairs = zip(row, formulas, strict=False)
        cells = [_of_cell(one, formula, place, number, at) for at, (one, formula) in enumerate(pairs, start=1)]
        empty = 0 if any(cell.value is not None for cell in cells) else empty + 1
        if empty > _MOST_EMPTY_ROWS or number > MOST_ROWS + 1:
            return
        for first, last, name in merged.get(number, ()):
            problem = f"the cells {name} are merged", "split them, and write each figure in its own cell"
            for at in range(first - 1, min(last, len(cells))):
                cells[at] = replace(cells[at], value=cells[at].value or "", problem=problem)
        yield cells


def _of_cell(cell: Any, formula: Any, place: str, row: int, column: int) -> Cell:
    from openpyxl.utils import get_column_letter

    at = f"{place}!{get_column_letter(column)}{row}"
    value = cell.value
    if getattr(cell, "data_type", "n") == "e":
        return Cell(str(value), at, 0, 0, _error(str(value)))
    if value is None and getattr(formula, "data_type", "n") == "f":
        problem = "the formula has no stored result", "open the file once in a spreadsheet program and save it"
        return Cell(str(formula.value), at, 0, 0, problem)
    if isinstance(value, datetime.datetime):
        value = value.date()
    if isinstance(value, bool) or not isinstance(value, (str, int, float, datetime.date, type(None))):
        value = str(value)
    if isinstance(value, float) and value.is_integer():
        value = int(value)
    return _of_text(value, at, 0, 0) if isinstance(value, str) else Cell(value, at, 0, 0)
