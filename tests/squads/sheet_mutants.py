"""Sheets of tests broken in each way that a sheet gets broken on a coach's desk, and where each was broken."""

from __future__ import annotations

import csv
import datetime
import io
import random
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from openpyxl import load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from planner.jobs.new_squad_sheet import filled_sheet
from tests.squads.drawn import battery, rows

HEADINGS, EXAMPLE, FIRST = 1, 2, 3  # rows of a sheet
NAME, DATES, FIGURES = 2, (3, 4), 6  # columns: the name, days, and where the figures begin
# fmt: off
HOSTILE: tuple[Any, ...] = (
    True, -1, 0, 1e308, 3.05, "3,05", "1,234", "1.234,5", "=1+1", "=A1", "+7", "-", "@cmd", "\ttab", "x" * 32_000,
    "3.05 cm", "305 kg", "5 ft 11 in", "\uff12\uff18\uff11", "two hundred", "nan", "inf", "1e5", "2/3/2026",
    "31/2/2026", "2026-13-01", "45999", " ", "\u202eabc", "a\nb", datetime.date(1850, 1, 1), datetime.time(12, 30),
    datetime.datetime(2026, 3, 7, 12, 30), datetime.timedelta(hours=5), "'", "''=x", "281;282", "<b>",
    "{{x}}", "café", "9" * 400, 10**300,
)
ERRORS = ("#N/A", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#NULL!")
# fmt: on
DAYS = ("7/3/2026", "03/07/26", "13.3.2026", "3/13/2026", "7. 3. 2026", "March 7", "2026-3-7", 46_088, "20260307", True)
Place = tuple[int, int]


@dataclass
class Mutant:
    """``cells``, ``rows`` and ``columns``: what was broken; ``anywhere``: whether that may show in any cell.

    ``lost``: a column is gone, so that any row may lack something. ``wrong``: cells that must be found.
    """

    path: Path
    breaks: list[str] = field(default_factory=list)
    cells: set[Place] = field(default_factory=set)
    rows: set[int] = field(default_factory=set)
    columns: set[int] = field(default_factory=set)
    lost: bool = False
    anywhere: bool = False
    wrong: set[Place] = field(default_factory=set)
    line_of: dict[int, int] = field(default_factory=dict)  # of a text file: its row by the line a finding names

    def break_cell(self, row: int, column: int, *, wrong: bool = False) -> None:
        self.cells.add((row, column))
        if row == HEADINGS:
            self.columns.add(column)
            self.lost = True
            self.anywhere |= column == NAME
        elif wrong and row >= FIRST:
            self.wrong.add((row, column))
        else:
            self.wrong.discard((row, column))


def _cell(sheet: Worksheet, dice: random.Random, first_row: int = EXAMPLE, first_column: int = 1) -> Any:
    return sheet.cell(dice.randint(first_row, sheet.max_row), dice.randint(first_column, sheet.max_column))


def _value(sheet: Worksheet, dice: random.Random, told: Mutant) -> None:
    cell = _cell(sheet, dice)
    cell.value = dice.choice(HOSTILE)
    told.break_cell(cell.row, cell.column, wrong=cell.data_type == "f")  # a formula without a stored result


def _sign(sheet: Worksheet, dice: random.Random, told: Mutant) -> None:
    """A figure typed as text, with the signs of another country, or below nothing."""
    cell = _cell(sheet, dice, first_column=FIGURES)
    below = dice.random() < 0.3 and isinstance(cell.value, (int, float)) and cell.value > 0
    cell.value = -cell.value if below else str(cell.value).replace(".", dice.choice((",", ".", " ", "'")))
    told.break_cell(cell.row, cell.column, wrong=below)


def _day(sheet: Worksheet, dice: random.Random, told: Mutant) -> None:
    cell = sheet.cell(dice.randint(EXAMPLE, sheet.max_row), dice.choice(DATES))
    cell.value = dice.choice(DAYS)
    told.break_cell(cell.row, cell.column, wrong=cell.value is True)


def _error(sheet: Worksheet, dice: random.Random, told: Mutant) -> None:
    cell = _cell(sheet, dice)
    cell.value, cell.data_type = dice.choice(ERRORS), "e"
    told.break_cell(cell.row, cell.column, wrong=True)


def _merge(sheet: Worksheet, dice: random.Random, told: Mutant) -> None:
    row, column = dice.randint(1, sheet.max_row - 1), dice.randint(1, max(1, sheet.max_column - 2))
    rows_, columns = dice.randint(0, 1), dice.randint(1, 2)
    sheet.merge_cells(start_row=row, end_row=row + rows_, start_column=column, end_column=column + columns)
    for at in range(row, row + rows_ + 1):
        for n in range(column, column + columns + 1):
            told.break_cell(at, n, wrong=True)


def _lose_row(sheet: Worksheet, dice: random.Random, told: Mutant) -> None:
    at, count = dice.randint(1, sheet.max_row), dice.randint(1, 3)
    sheet.delete_rows(at, count)
    told.anywhere |= at <= EXAMPLE  # without the headings; or without the example, whose place an athlete takes


def _lose_column(sheet: Worksheet, dice: random.Random, told: Mutant) -> None:
    at = dice.randint(1, sheet.max_column)
    sheet.delete_cols(at, dice.randint(1, 3))
    told.lost = True
    told.anywhere |= at <= NAME


def _double_row(sheet: Worksheet, dice: random.Random, told: Mutant) -> None:
    row = dice.randint(1, sheet.max_row)
    sheet.append([cell.value for cell in sheet[row]])
    told.rows |= {row, sheet.max_row}


def _heading(sheet: Worksheet, dice: random.Random, told: Mutant) -> None:
    at = dice.randint(1, sheet.max_column)
    sheet.cell(HEADINGS, at).value = dice.choice((*HOSTILE, "touch", "name", "touch 1 (kg)", "squat"))
    told.break_cell(HEADINGS, at)


def _far_cell(sheet: Worksheet, dice: random.Random, told: Mutant) -> None:
    row, column = dice.choice((150, 5_000, 1_000_000)), dice.randint(1, 300)
    sheet.cell(row, column).value = dice.choice(HOSTILE)
    told.rows.add(row)


Break = Callable[[Worksheet, random.Random, Mutant], None]
MOVING: dict[str, Break] = {"row lost": _lose_row, "column lost": _lose_column, "row twice": _double_row}
# Merged last: what is merged cannot be filled.
STAYING: dict[str, Break] = {
    "value": _value, "sign": _sign, "day": _day, "error": _error, "heading": _heading, "merged": _merge,
}  # fmt: skip
LAST: dict[str, Break] = {"far cell": _far_cell}  # else all the others would fall into the empty rows


def mutant(seed: int, folder: Path) -> Mutant:
    """A sheet of six athletes, broken once to three times; every fourth as CSV, every eighth with a wrong byte."""
    dice = random.Random(f"sheet {seed}")
    sheet = load_workbook(io.BytesIO(filled_sheet(battery(), (), rows(6, seed)))).active
    told = Mutant(folder / ("mutant.csv" if seed % 4 == 0 else "mutant.xlsx"))
    ways = [*MOVING, *STAYING, *STAYING, *LAST]
    for way in sorted(dice.choices(ways, k=dice.choice((1, 1, 2, 3))), key=ways.index):
        {**MOVING, **STAYING, **LAST}[way](sheet, dice, told)
        told.breaks.append(way)
    try:
        raw = _as_csv(sheet, dice, told) if seed % 4 == 0 else _as_workbook(sheet)
    except (ValueError, TypeError):  # what no spreadsheet program would write either
        return mutant(seed + 100_000, folder)
    if seed % 8 in (0, 1):
        raw = _damaged(raw, dice)
        told.anywhere, told.breaks = True, ["wrong byte"]
    told.path.write_bytes(raw)
    return told


def _as_workbook(sheet: Worksheet) -> bytes:
    stream = io.BytesIO()
    sheet.parent.save(stream)
    return stream.getvalue()


def _as_csv(sheet: Worksheet, dice: random.Random, told: Mutant) -> bytes:
    """As a spreadsheet program writes it; a finding names the line where a row begins."""
    stream = io.StringIO()
    writer = csv.writer(stream, delimiter=dice.choice((",", ";", "\t")), lineterminator="\n")
    line = 1
    for number, row in enumerate(sheet.iter_rows(values_only=True, max_row=60), start=1):
        texts = [_as_text(value) for value in row]
        told.line_of[line] = number
        line += 1 + sum(text.count("\n") for text in texts)
        writer.writerow(texts)
    told.wrong = {(row, n) for row, n in told.wrong if row <= 60 and sheet.cell(row, n).value in ERRORS}
    return stream.getvalue().encode("utf-8-sig" if dice.random() < 0.5 else "utf-8", "replace")


def _as_text(value: Any) -> str:
    """A day as year-month-day; the workbook that was read back has it with a time."""
    if isinstance(value, datetime.datetime) and value.time() == datetime.time():
        return value.date().isoformat()
    return "" if value is None else str(value)


def _damaged(raw: bytes, dice: random.Random) -> bytes:
    at = dice.randrange(len(raw))
    return raw[:at] if dice.random() < 0.3 else raw[:at] + bytes([dice.randrange(256)]) + raw[at + 1 :]
