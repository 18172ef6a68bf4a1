"""Sheets written: ``.xlsx`` by openpyxl, without macros or formulas, and CSV. The same bytes each time."""

from __future__ import annotations

import csv
import datetime
import io
import re
import zipfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from planner.files.cells import CellValue, guarded

_GREY, _HEAD = "FF808080", "FFE8E8E8"
_NEVER = datetime.datetime(2000, 1, 1)  # a clock would make each file another
_STAMP = re.compile(rb"(<dcterms:(?:created|modified)[^>]*>)[^<]*")
_LONGEST_LIST = 250  # of the words of a drop-down list, as the format has it
_CHECKED_ROWS = 500
_DAY = "yyyy-mm-dd"
# Of cells to be filled: a day shows its whole year, also in a CSV made of it; a program makes no figure of "007".
_FORMATS = {"date": _DAY, "text": "@"}


@dataclass(frozen=True)
class WrittenColumn:
    """``low`` and ``high``: the figures a cell may hold, in the unit of the heading; ``words``: its choices."""

    heading: str
    sort: Literal["text", "date", "whole", "decimal"] = "text"
    words: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None
    says: str = ""


def csv_bytes(headings: Sequence[str], rows: Sequence[Sequence[CellValue]]) -> bytes:
    """With a byte-order mark, without which some spreadsheet programs take the text for another encoding."""
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\r\n")
    for row in (headings, *rows):
        writer.writerow([_as_text(one) for one in row])
    return stream.getvalue().encode("utf-8-sig")


def _as_text(value: CellValue) -> str:
    if isinstance(value, float):
        return _plain(value)
    return guarded(value) if isinstance(value, str) else "" if value is None else str(value)


def workbook_bytes(
    title: str,
    columns: Sequence[WrittenColumn],
    rows: Sequence[Sequence[CellValue]],
    *,
    example: Sequence[CellValue] = (),
    hidden: Mapping[str, str] | None = None,
    frozen_columns: int = 1,
) -> bytes:
    """A workbook of one sheet with frozen headings. ``example``: a grey first row; ``hidden``: of a hidden sheet."""
    from openpyxl import Workbook
    from openpyxl.styles import Alignment, Font, PatternFill
    from openpyxl.utils import get_column_letter

    book = Workbook()
    sheet = book.active
    sheet.title = title
    for at, column in enumerate(columns, start=1):
        head = sheet.cell(1, at, column.heading)
        head.font, head.fill = Font(bold=True), PatternFill("solid", fgColor=_HEAD)
        head.alignment = Alignment(wrap_text=True, vertical="top")
        whole = sheet.column_dimensions[get_column_letter(at)]
        whole.width = max(9, min(22, len(column.heading) * 0.8 + 3))
        if example and not column.words:
            whole.number_format = _FORMATS.get(column.sort, "General")
    written = ([example] if example else []) + list(rows)
    for number, row in enumerate(written, start=2):
        for at, value in enumerate(row, start=1):
            _fill(sheet.cell(number, at), value)
            if example and number == 2:
                sheet.cell(number, at).font = Font(italic=True, color=_GREY)
    sheet.freeze_panes = f"{get_column_letter(frozen_columns + 1)}2"
    _add_checks(sheet, columns, max(_CHECKED_ROWS, len(written) + 1))
    if hidden:
        about = book.create_sheet("about")
        about.sheet_state = "hidden"
        for number, (key, value) in enumerate(hidden.items(), start=1):
            about.cell(number, 1, key)
            about.cell(number, 2, value)
    stream = io.BytesIO()
    book.save(stream)
    return _without_clock(stream.getvalue())


def _fill(cell: Any, value: CellValue) -> None:
    if isinstance(value, str):
        cell.value = guarded(value)
        cell.data_type = "s"  # else text that begins with "=" becomes a formula
    elif value is not None:
        cell.value = value
        if isinstance(value, datetime.date):
            cell.number_format = _DAY


def _add_checks(sheet: Any, columns: Sequence[WrittenColumn], last_row: int) -> None:
    """What a column may hold, said where a cell is chosen and where it is filled otherwise."""
    from openpyxl.utils import get_column_letter
    from openpyxl.worksheet.datavalidation import DataValidation

    for at, column in enumerate(columns, start=1):
        rule: dict[str, Any] = {}
        said = column.says
        listed = ",".join(column.words)
        if column.words and len(listed) <= _LONGEST_LIST:
            rule = {"type": "list", "formula1": f'"{listed}"'}
            said = f"{said} One of: {', '.join(column.words)}.".strip()
        elif column.sort in ("whole", "decimal") and column.low is not None and column.high is not None:
            rule = {
                "type": column.sort,
                "operator": "between",
                "formula1": _plain(column.low),
                "formula2": _plain(column.high),
            }
            said = f"{said} {_plain(column.low)} to {_plain(column.high)}.".strip()
        elif column.sort == "date":
            rule = {"type": "date", "operator": "greaterThan", "formula1": "1"}
            said = f"{said} A day, such as 2026-03-17.".strip()
        if not rule and not said:
            continue
        check = DataValidation(
            allow_blank=True, showErrorMessage=bool(rule), showInputMessage=True, errorStyle="stop", **rule
        )
        check.promptTitle, check.prompt = column.heading[:32], said[:255]
        check.errorTitle, check.error = column.heading[:32], (said or "check the figure")[:255]
        sheet.add_data_validation(check)
        letter = get_column_letter(at)
        check.add(f"{letter}2:{letter}{last_row}")


def _plain(figure: float) -> str:
    return f"{figure:.10g}"


def _without_clock(raw: bytes) -> bytes:
    """The same workbook packed anew, each part of one time: the package writes the time of day into it."""
    stream = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(raw)) as old, zipfile.ZipFile(stream, "w") as new:
        for name in sorted(old.namelist(), key=lambda name: (name != "[Content_Types].xml", name)):
            content = old.read(name)
            if name == "docProps/core.xml":
                content = _STAMP.sub(rb"\g<1>" + f"{_NEVER.isoformat()}Z".encode(), content)
            info = zipfile.ZipInfo(name, _NEVER.timetuple()[:6])
            info.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(info, content)
    return stream.getvalue()
