"""Sheets of tests broken at one place, in each way that a sheet gets broken on a coach's desk."""

from __future__ import annotations

import datetime
import io
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

from openpyxl import load_workbook

from planner.jobs.new_squad_sheet import filled_sheet
from tests.squads.drawn import battery, rows

HOSTILE: tuple[Any, ...] = (
    *(True, -1, 0, 1e308, 3.05, "3,05", "1,234", "1.234,5", "=1+1", "=A1", "+7", "-", "@cmd", "\ttab", "x" * 40_000),
    *(
        "3.05 cm",
        "305 kg",
        "5 ft 11 in",
        "\uff12\uff18\uff11",
        "two hundred",
        "nan",
        "inf",
        "1e5",
        "2/3/2026",
        "31/2/2026",
    ),
    *("2026-13-01", "45999", " ", "\u202eabc", "a\nb", datetime.date(1850, 1, 1), datetime.time(12, 30)),
    *(datetime.datetime(2026, 3, 7, 12, 30), datetime.timedelta(hours=5), "#REF!", "'", "''=x", "281;282", "<b>"),
    *("{{x}}", "café", "9" * 400),
)


def _value(sheet: Any, dice: random.Random) -> None:
    sheet.cell(dice.randint(2, sheet.max_row), dice.randint(1, sheet.max_column)).value = dice.choice(HOSTILE)


def _text(sheet: Any, dice: random.Random) -> None:
    """A figure typed as text, with the signs of another country."""
    cell = sheet.cell(dice.randint(2, sheet.max_row), dice.randint(6, sheet.max_column))
    cell.value = str(cell.value).replace(".", dice.choice((",", ".", " ")))


def _error(sheet: Any, dice: random.Random) -> None:
    cell = sheet.cell(dice.randint(2, sheet.max_row), dice.randint(1, sheet.max_column))
    cell.value, cell.data_type = dice.choice(("#N/A", "#DIV/0!", "#VALUE!")), "e"


def _merge(sheet: Any, dice: random.Random) -> None:
    row, column = dice.randint(1, sheet.max_row - 1), dice.randint(1, sheet.max_column - 2)
    sheet.merge_cells(
        start_row=row, end_row=row + dice.randint(0, 1), start_column=column, end_column=column + dice.randint(1, 2)
    )


def _lose_row(sheet: Any, dice: random.Random) -> None:
    sheet.delete_rows(dice.randint(1, sheet.max_row), dice.randint(1, 3))


def _lose_column(sheet: Any, dice: random.Random) -> None:
    sheet.delete_cols(dice.randint(1, sheet.max_column), dice.randint(1, 3))


def _double_row(sheet: Any, dice: random.Random) -> None:
    row = dice.randint(1, sheet.max_row)
    sheet.append([cell.value for cell in sheet[row]])


def _heading(sheet: Any, dice: random.Random) -> None:
    sheet.cell(1, dice.randint(1, sheet.max_column)).value = dice.choice(
        (*HOSTILE, "touch", "name", "touch 1 (kg)", "squat")
    )


def _far_cell(sheet: Any, dice: random.Random) -> None:
    sheet.cell(dice.choice((5_000, 1_000_000)), dice.randint(1, 300)).value = dice.choice(HOSTILE)


BREAKS: tuple[Callable[[Any, random.Random], None], ...] = (
    _value, _value, _value, _text, _text, _error, _merge, _lose_row, _lose_column, _double_row, _heading, _far_cell,
)  # fmt: skip


def mutant(seed: int, folder: Path) -> Path:
    """A sheet of six athletes, broken once to three times; every fourth as CSV, every eighth with a wrong byte."""
    dice = random.Random(f"sheet {seed}")
    book = load_workbook(io.BytesIO(filled_sheet(battery(), (), rows(6, seed))))
    sheet = book.active
    for _ in range(dice.randint(1, 3)):
        dice.choice(BREAKS)(sheet, dice)
    if seed % 4 == 0:
        return _as_csv(sheet, dice, folder, seed)
    stream = io.BytesIO()
    try:
        book.save(stream)
    except (ValueError, TypeError):  # what no spreadsheet program would write either
        return mutant(seed + 100_000, folder)
    path = folder / "mutant.xlsx"
    path.write_bytes(_damaged(stream.getvalue(), dice) if seed % 8 == 1 else stream.getvalue())
    return path


def _as_csv(sheet: Any, dice: random.Random, folder: Path, seed: int) -> Path:
    between = dice.choice((",", ";", "\t"))
    lines = [
        between.join("" if value is None else str(value).replace("\n", " ") for value in row)
        for row in sheet.iter_rows(values_only=True, max_row=60)
    ]
    raw = "\n".join(lines).encode("utf-8-sig" if dice.random() < 0.5 else "utf-8", "replace")
    path = folder / "mutant.csv"
    path.write_bytes(_damaged(raw, dice) if seed % 8 == 0 else raw)
    return path


def _damaged(raw: bytes, dice: random.Random) -> bytes:
    at = dice.randrange(len(raw))
    return raw[:at] if dice.random() < 0.3 else raw[:at] + bytes([dice.randrange(256)]) + raw[at + 1 :]
