"""Force records: text columns to force over time, with the columns, unit and rate found or refused, never guessed."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from planner.domain.findings import Finding, UserError
from planner.force_platform.force_record import ForceRecord
from planner.force_platform.reading.column_names import ColumnName, column_name
from planner.force_platform.reading.record_columns import ColumnWishes, RecordColumns, record_columns
from planner.force_platform.reading.sample_rate import SampleRate, sample_rate
from planner.force_platform.reading.text_table import MISSING_CELLS, TextTable, read_table, refused
from planner.units import UNITS, counted

MOST_FINDINGS = 10
LARGEST_FORCE_N = 100_000.0


@dataclass(frozen=True)
class RecordOptions:
    """What the command line states; None leaves it to the file."""

    rate_Hz: float | None = None
    unit: str | None = None
    columns: ColumnWishes = field(default=ColumnWishes())


def read_record(raw: bytes, path: str, options: RecordOptions | None = None) -> ForceRecord:
    """A record from the bytes of a CSV or TSV file. Raises UserError with findings on their lines."""
    options = options or RecordOptions()
    table = read_table(raw, path)
    choices = [table.remark] if table.remark else []
    doubts = _of_names(table, path)
    columns = record_columns(
        _names(table), options.columns, lambda index: _grows(table, index), lambda one: _carried(table, one), path
    )
    numbers = _numbers(table, columns, path)
    times = numbers[columns.time.index] if columns.time else None
    rate = sample_rate(times, columns.time, table, options.rate_Hz, path)
    choices += [*columns.choices, *rate.choices]
    series = []
    for column in columns.forces:
        factor = _unit_factor(column, options, path, choices, doubts)
        series.append([value * factor for value in _filled(numbers[column.index], rate)])
    return _record(path, rate, columns, series, choices, [*columns.doubts, *rate.doubts, *doubts])


def _record(
    path: str,
    rate: SampleRate,
    columns: RecordColumns,
    series: list[list[float]],
    choices: list[str],
    doubts: list[Finding],
) -> ForceRecord:
    total = [math.fsum(values) for values in zip(*series, strict=True)]
    largest = max((abs(value) for value in total if not math.isnan(value)), default=0.0)
    if largest > LARGEST_FORCE_N:
        message = f"a force of {largest:,.0f} N is too large for a jump"
        raise refused(path, "force-size", message, "check the unit: --unit N, kN, lbf")
    if _points_down(total):
        choices.append("forces point down in this file (negative on the ground): their sign was turned")
        total = [-value for value in total]
        series = [[-value for value in one] for one in series]
    sides = tuple(zip(columns.side_names, series, strict=True)) if len(series) == 2 else ()
    return ForceRecord(path, rate.rate_Hz, total, sides, tuple(choices), tuple(doubts), rate.stated)


def _points_down(total: Sequence[float]) -> bool:
    """Negative while the body stands: most of the time, and further than it ever rises above zero."""
    known = sorted(value for value in total if not math.isnan(value))
    return bool(known) and -known[0] > 2.0 * max(0.0, known[-1])


def _of_names(table: TextTable, path: str) -> list[Finding]:
    if table.unread_names is None:
        return []
    message = (
        f"the line '{table.unread_names.strip()[:40]}' does not name the columns one by one: they have numbers only"
    )
    hint = "name them by number: --time, --force, or --left and --right"
    return [Finding(path, 0, 0, "no-names", message, hint, "warning")]


def _names(table: TextTable) -> list[ColumnName]:
    width = len(table.rows[0][1])
    names, units = table.names or [""] * width, table.units or [""] * width
    return [column_name(index, names[index], units[index]) for index in range(width)]


def _grows(table: TextTable, index: int) -> bool:
    """Whether the last row holds more than the first, and hardly any row less than the one before."""
    values = _column(table, index)
    rises = sum(b > a for a, b in itertools.pairwise(values))
    return len(values) > 1 and rises >= 0.95 * (len(values) - 1)


def _carried(table: TextTable, column: ColumnName) -> float:
    values = _column(table, column.index)
    return sum(map(abs, values)) / len(values) if values else 0.0


def _column(table: TextTable, index: int) -> list[float]:
    cells = (cells[index] for _, cells in table.rows if index < len(cells))
    return [value for cell in cells if (value := table.number(cell)) is not None]


def _numbers(table: TextTable, columns: RecordColumns, path: str) -> dict[int, list[float]]:
    wanted = [one.index for one in (*columns.forces, *([columns.time] if columns.time else []))]
    numbers: dict[int, list[float]] = {index: [] for index in wanted}
    findings: list[Finding] = []
    for line, cells in table.rows:
        for index in wanted:
            cell = cells[index] if index < len(cells) else None
            value = table.number(cell) if cell is not None else None
            if value is None and not (cell is not None and cell.lower() in MISSING_CELLS):
                what = (
                    f"'{cell[:30]}' is not a number"
                    if cell is not None
                    else f"the row has only {counted(len(cells), 'column')}"
                )
                column = 1 + sum(len(one) + 1 for one in cells[:index])
                hint = "leave the cell empty where a sample is missing"
                findings.append(Finding(path, line, column, "bad-row", what, hint))
            numbers[index].append(math.nan if value is None else value)
        if len(findings) >= MOST_FINDINGS:
            break
    if findings:
        raise UserError(findings)
    return numbers


def _filled(values: list[float], rate: SampleRate) -> list[float]:
    """With a not-a-number for every sample that the time column says is missing."""
    places = [row for row, missing in rate.gaps for _ in range(missing)]
    return [float(value) for value in np.insert(values, places, np.nan)]


def _unit_factor(
    column: ColumnName, options: RecordOptions, path: str, choices: list[str], doubts: list[Finding]
) -> float:
    unit = options.unit or column.unit
    if options.unit and column.unit and options.unit != column.unit:
        message = f"the column '{column.name}' is in {column.unit}, --unit says {options.unit}"
        raise refused(path, "unit-differs", message, "leave out --unit, or correct the heading")
    if unit is None:
        said = "no unit is stated: force is taken as newtons"
        if column.unread_unit is not None:
            message = f"the unit '{column.unread_unit}' of '{column.name}' is not known: force is taken as newtons"
            doubts.append(Finding(path, 0, 0, "unit", message, "say it with --unit N, kN or lbf", "warning"))
        elif said not in choices:
            choices.append(said)
        return 1.0
    factor = UNITS["force"].get(unit)
    if factor is None:
        raise refused(path, "unit", f"'{unit}' is not a unit of force", f"use one of {', '.join(UNITS['force'])}")
    return factor
