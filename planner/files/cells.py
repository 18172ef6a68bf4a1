"""A spreadsheet as rows of cells, each with its place: ``.csv`` by the standard library, ``.xlsx`` by openpyxl."""

from __future__ import annotations

import csv
import datetime
import io
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from planner.domain.findings import Finding, UserError
from planner.files.load import LARGEST_READ_bytes, read_bytes

Value = str | int | float | datetime.date | None
_MOST_EMPTY_ROWS = 200  # in a row: nothing is looked for below them
_MOST_ROWS, _MOST_COLUMNS = 20_000, 60


@dataclass(frozen=True)
class Cell:
    """``value``: None for an empty cell. ``path``, ``line`` and ``column``: as a finding names the place.

    ``problem``: why the value is not to be used, with what to do; "" for a good one.
    """

    value: Value
    path: str
    line: int
    column: int
    problem: str = ""

    def finding(self, code: str, message: str, hint: str) -> Finding:
        return Finding(self.path, self.line, self.column, code, message, hint)

    @property
    def text(self) -> str:
        if self.value is None:
            return ""
        return f"{self.value:g}" if isinstance(self.value, float) else str(self.value).strip()


def read_rows(path: Path, display: str) -> list[list[Cell]]:
    """The rows of a sheet that hold anything, in order. UserError where the file cannot be read as a sheet.

    Of a workbook the first sheet is read, with the values last stored in it, never its formulas.
    """
    raw, problems = read_bytes(path, display)
    if raw is None:
        raise UserError(problems)
    rows = _workbook(raw, display) if path.suffix.lower() == ".xlsx" else _table(raw, display)
    return [row for row in rows if any(cell.value is not None for cell in row)]


def _table(raw: bytes, display: str) -> list[list[Cell]]:
    """Fields parted by comma, semicolon or tab, whichever the first line has most of; ``sep=;`` says it."""
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        message = "this is not UTF-8 text"
        raise UserError([Finding(display, line, 1, "not-utf-8", message, "save it as CSV in UTF-8")]) from None
    first, _, _ = text.partition("\n")
    stated = first.strip().lower().removeprefix("sep=") if first.lower().startswith("sep=") else ""
    delimiter = stated or max(",;\t", key=first.count)
    found = []
    reader = csv.reader(io.StringIO(text.replace("\0", "")), delimiter=delimiter[:1])
    try:
        for row in reader:
            if not (stated and reader.line_num == 1):
                cells = [_of_text(value, display, reader.line_num, at) for at, value in enumerate(row, start=1)]
                found.append(cells[:_MOST_COLUMNS])
            if len(found) > _MOST_ROWS:
                break
    except csv.Error as error:
        raise UserError(
            [Finding(display, reader.line_num, 1, "not-csv", f"not readable as CSV: {error}", "")]
        ) from None
    return found


def _of_text(value: str, display: str, line: int, column: int) -> Cell:
    """A cell written as text loses the apostrophe that keeps a spreadsheet from running it as a formula."""
    value = value.strip()
    if value[:1] == "'" and value[1:2] in ("=", "+", "-", "@"):
        value = value[1:]
    return Cell(value or None, display, line, column)


def _workbook(raw: bytes, display: str) -> list[list[Cell]]:
    from openpyxl import load_workbook
    from openpyxl.utils.exceptions import InvalidFileException

    try:
        with zipfile.ZipFile(io.BytesIO(raw)) as packed:
            if sum(one.file_size for one in packed.infolist()) > LARGEST_READ_bytes:
                message, hint = "the workbook is larger than any log of sets", "copy the sheet into one of its own"
                raise UserError([Finding(display, 0, 0, "too-large", message, hint)])
        stored, written = (load_workbook(io.BytesIO(raw), read_only=True, data_only=only) for only in (True, False))
        sheet = stored.worksheets[0]
        return list(_sheet(sheet, written.worksheets[0], f"{display}:{sheet.title}"))
    except (InvalidFileException, zipfile.BadZipFile, KeyError, ValueError, IndexError, OSError, SyntaxError) as error:
        message, hint = "this is not a workbook that can be read", "save it again as .xlsx, or as CSV in UTF-8"
        raise UserError([Finding(display, 0, 0, "not-a-workbook", message, hint)]) from error


def _sheet(stored: Any, written: Any, place: str) -> Iterator[list[Cell]]:
    """``stored``: the sheet with its last results; ``written``: the same with its formulas."""
    empty = 0
    both = zip(stored.iter_rows(max_col=_MOST_COLUMNS), written.iter_rows(max_col=_MOST_COLUMNS), strict=False)
    for number, (row, formulas) in enumerate(both, start=1):
        pairs = zip(row, formulas, strict=False)
        cells = [_of_cell(one, formula, place, number, at) for at, (one, formula) in enumerate(pairs, start=1)]
        empty = 0 if any(cell.value is not None for cell in cells) else empty + 1
        if empty > _MOST_EMPTY_ROWS or number > _MOST_ROWS:
            return
        yield cells


def _of_cell(cell: Any, formula: Any, place: str, row: int, column: int) -> Cell:
    from openpyxl.utils import get_column_letter

    at = f"{place}!{get_column_letter(column)}{row}"
    value = cell.value
    if getattr(cell, "data_type", "n") == "e":
        return Cell(str(value), at, 0, 0, f"the cell holds the error {value}; mend the formula, or write the figure")
    if value is None and str(formula.value or "").startswith("="):
        problem = "the formula has no stored result; open the file once in a spreadsheet program and save it"
        return Cell(str(formula.value), at, 0, 0, problem)
    if isinstance(value, datetime.datetime):
        value = value.date()
    if isinstance(value, bool) or not isinstance(value, (str, int, float, datetime.date, type(None))):
        value = str(value)
    if isinstance(value, float) and value.is_integer():
        value = int(value)
    return Cell((value.strip() or None) if isinstance(value, str) else value, at, 0, 0)
