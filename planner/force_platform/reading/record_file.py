"""Force records: text columns to force over time, with the columns, unit and rate found or refused, never guessed."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from planner.domain.findings import Finding, UserError
from planner.force_platform.force_record import ForceRecord
from planner.force_platform.reading.record_columns import ColumnHeading, Columns, assign, headings_of
from planner.units import UNITS

LARGEST_RECORD_bytes = 64 * 1024 * 1024
MOST_FINDINGS = 10
MISSING_CELLS = {"", "nan", "na", "n/a", "null", "-", "--"}
LARGEST_FORCE_N = 100_000.0
HIGHEST_RATE_Hz = 50_000.0
_DELIMITERS = ("\t", ";", ",", None)  # None: any white space
_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?")
_RATE_LINE = re.compile(r"(?:rate|frequency|freq|hz)\D{0,30}?(\d+(?:\.\d+)?)", re.IGNORECASE)


@dataclass(frozen=True)
class RecordOptions:
    """What the command line states; None leaves it to the file. ``sides``: names of the two platforms' columns."""

    rate_Hz: float | None = None
    unit: str | None = None
    time: str | None = None
    force: str | None = None
    sides: tuple[str, str] | None = None


@dataclass(frozen=True)
class _Table:
    """Rows of cells with their line numbers; ``heading``: cells above the first row; ``preamble``: lines above it."""

    rows: list[tuple[int, list[str]]]
    heading: list[str]
    preamble: list[str]
    decimal_comma: bool


def read_record(raw: bytes, path: str, options: RecordOptions | None = None) -> ForceRecord:
    """A record from the bytes of a CSV or TSV file. Raises UserError with findings on their lines."""
    options = options or RecordOptions()
    table = _table(_text(raw, path), path)
    columns = assign(_headings(table), options.time, options.force, options.sides, path)
    numbers = _numbers(table, columns, path)
    remarks = list(columns.remarks)
    rate_Hz, gaps = _rate(numbers, columns, table, options, path)
    forces = []
    for heading in columns.forces:
        factor = _unit_factor(heading, options, path, remarks)
        forces.append([value * factor for value in _filled(numbers[heading.index], gaps)])
    return _record(path, rate_Hz, columns, forces, remarks)


def _record(path: str, rate_Hz: float, columns: Columns, series: list[list[float]], remarks: list[str]) -> ForceRecord:
    total = [math.fsum(values) for values in zip(*series, strict=True)]
    largest = max((abs(value) for value in total if not math.isnan(value)), default=0.0)
    if largest > LARGEST_FORCE_N:
        raise _refused(
            path, "force-size", f"a force of {largest:,.0f} N is no jump", "check the unit: --unit N, kN, lbf"
        )
    if _points_down(total):
        remarks.append("forces point down in this file (negative on the ground): their sign was turned")
        total = [-value for value in total]
        series = [[-value for value in one] for one in series]
    names = columns.side_names if len(series) == 2 else ()
    return ForceRecord(path, rate_Hz, total, tuple(zip(names, series, strict=True)) if names else (), tuple(remarks))


def _points_down(total: Sequence[float]) -> bool:
    known = [value for value in total if not math.isnan(value)]
    return bool(known) and -min(known) > 2.0 * max(0.0, max(known))


def _text(raw: bytes, path: str) -> str:
    if len(raw) > LARGEST_RECORD_bytes:
        raise _refused(path, "too-large", f"the file has {len(raw) / 2**20:.0f} MiB, the most read is 64", "cut it")
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return raw.decode("utf-16", "replace")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        return raw.decode("latin-1")


def _table(text: str, path: str) -> _Table:
    lines = [(number, line) for number, line in enumerate(re.split(r"\r\n|\r|\n", text), start=1)]
    delimiter = _delimiter([line for _, line in lines])
    comma = delimiter != ","
    first = next((place for place, (_, line) in enumerate(lines) if _is_numeric(_cells(line, delimiter), comma)), None)
    if first is None:
        raise _refused(
            path, "no-numbers", "there are no rows of numbers in this file", "export it as text: one row a sample"
        )
    above = [line for _, line in lines[:first] if line.strip()]
    width = len(_cells(lines[first][1], delimiter))
    heading = _cells(above[-1].lstrip("#% "), delimiter) if above else []
    rows = [(number, _cells(line, delimiter)) for number, line in lines[first:] if line.strip()]
    if width > 1 and all(len(cells) == width and not cells[-1] for _, cells in rows):  # a separator ends every line
        rows = [(number, cells[:-1]) for number, cells in rows]
        heading = heading[: width - 1]
        width -= 1
    return _Table(rows, heading if len(heading) == width else [], above, comma)


def _delimiter(lines: list[str]) -> str | None:
    """The separator that makes most lines numeric rows, and of these the one with most columns."""
    sample = [line for line in lines if line.strip()][:400]

    def score(delimiter: str | None) -> tuple[int, int]:
        rows = [_cells(line, delimiter) for line in sample]
        numeric = [row for row in rows if _is_numeric(row, delimiter != ",")]
        widths = [len(row) for row in numeric]
        usual = max(set(widths), key=widths.count) if widths else 0
        return sum(width == usual for width in widths), usual

    return max(_DELIMITERS, key=score)


def _cells(line: str, delimiter: str | None) -> list[str]:
    return [cell.strip().strip('"').strip() for cell in line.split(delimiter)]


def _is_numeric(cells: list[str], comma: bool) -> bool:
    """Numbers and missing cells, at least one number."""
    numbers = [_value(cell, comma) is not None for cell in cells]
    return any(numbers) and all(n or cell.lower() in MISSING_CELLS for n, cell in zip(numbers, cells, strict=True))


def _value(cell: str, comma: bool) -> float | None:
    if not _NUMBER.fullmatch(cell):
        return None
    if "," in cell:
        if not comma:
            return None
        cell = cell.replace(",", ".")
    value = float(cell)
    return value if math.isfinite(value) else None


def _headings(table: _Table) -> list[ColumnHeading]:
    first = [_value(cell, table.decimal_comma) for cell in table.rows[0][1]]
    last = [_value(cell, table.decimal_comma) for cell in table.rows[-1][1]]
    grows = [a is not None and b is not None and b > a for a, b in zip(first, [*last, *first], strict=False)]
    return headings_of(table.heading, len(first), grows)


def _numbers(table: _Table, columns: Columns, path: str) -> dict[int, list[float]]:
    wanted = [heading.index for heading in (*columns.forces, *([columns.time] if columns.time else []))]
    numbers: dict[int, list[float]] = {index: [] for index in wanted}
    findings: list[Finding] = []
    for number, cells in table.rows:
        for index in wanted:
            cell = cells[index] if index < len(cells) else None
            value = _value(cell, table.decimal_comma) if cell is not None else None
            if value is None and not (cell is not None and cell.lower() in MISSING_CELLS):
                what = f"'{cell[:30]}' is no number" if cell is not None else f"the row has only {len(cells)} columns"
                column = 1 + sum(len(one) + 1 for one in cells[:index])
                findings.append(
                    Finding(path, number, column, "bad-row", what, "leave the cell empty where a sample is missing")
                )
            numbers[index].append(math.nan if value is None else value)
        if len(findings) >= MOST_FINDINGS:
            break
    if findings:
        raise UserError(findings)
    return numbers


def _rate(
    numbers: dict[int, list[float]], columns: Columns, table: _Table, options: RecordOptions, path: str
) -> tuple[float, list[tuple[int, int]]]:
    """Samples a second, and the gaps: (row before which samples are missing, how many)."""
    if columns.time is None:
        stated = options.rate_Hz or next(
            (float(found.group(1)) for line in table.preamble if (found := _RATE_LINE.search(line))), None
        )
        if stated is None or stated <= 0:
            raise _refused(
                path,
                "no-rate",
                "the file has no time column and no stated rate",
                "give the samples a second, such as --rate 1000",
            )
        return stated, []
    times = numbers[columns.time.index]
    step, gaps = _steps(times, columns.time, table, path)
    unit = columns.time.unit or ("s" if step < 0.5 else None)
    if unit not in ("s", "ms", "min"):
        raise _refused(
            path,
            "no-time-unit",
            f"the time column goes in steps of {step:g} without a unit",
            "name its unit in the heading, such as Time[ms], or leave the column out with --rate",
        )
    rate_Hz = _plain(1.0 / (step * UNITS["time"][unit]))
    if rate_Hz > HIGHEST_RATE_Hz:
        raise _refused(
            path,
            "rate-high",
            f"the time column goes at {rate_Hz:,.0f} samples a second, in steps of {step:g} {unit}",
            "check the unit of time in its heading",
        )
    if options.rate_Hz and abs(options.rate_Hz / rate_Hz - 1.0) > 0.02:
        raise _refused(
            path,
            "rate-differs",
            f"the time column goes at {rate_Hz:.6g} a second, --rate says {options.rate_Hz:g}",
            "leave out --rate, or check the time column",
        )
    return rate_Hz, gaps


def _plain(rate_Hz: float) -> float:
    """A rate that is a whole number but for the rounding of the times, as that number."""
    return float(round(rate_Hz)) if abs(rate_Hz - round(rate_Hz)) < 1e-4 * rate_Hz else rate_Hz


def _steps(times: list[float], heading: ColumnHeading, table: _Table, path: str) -> tuple[float, list[tuple[int, int]]]:
    known = [(row, value) for row, value in enumerate(times) if not math.isnan(value)]
    if len(known) < 3:
        raise _refused(path, "too-short", f"the record has {len(times)} samples", "export the whole jump")
    for (_, earlier), (row, later) in pairwise(known):
        if later < earlier:
            line = table.rows[row][0]
            raise UserError(
                [
                    Finding(
                        path, line, 0, "time-goes-back", f"the time {later:g} is before {earlier:g}", "export it anew"
                    )
                ]
            )
    diffs = sorted((b - a) / (rb - ra) for (ra, a), (rb, b) in pairwise(known))
    middle = diffs[len(diffs) // 10 : max(len(diffs) * 9 // 10, len(diffs) // 10 + 1)]
    step = sum(middle) / len(middle)
    if step <= 0:
        raise _refused(
            path, "time-stands", "the time column stands still", "check which column is the time: --time NAME"
        )
    written = table.rows[0][1][heading.index].replace(",", ".").partition(".")[2]
    rounding = 10.0 ** -len(written.partition("e")[0]) if "e" not in written.lower() else 0.0
    gaps = []
    for (_, earlier), (row, later) in pairwise(known):
        missing = round((later - earlier) / step) - 1
        if later - earlier > 1.5 * step + rounding and missing > 0:
            gaps.append((row, missing))
    lost = sum(missing for _, missing in gaps)
    if lost > len(times):
        raise _refused(path, "missing-samples", f"{lost} samples are missing of {lost + len(times)}", "export it anew")
    return step, gaps


def _filled(values: list[float], gaps: list[tuple[int, int]]) -> list[float]:
    """With a not-a-number for every sample that the time column says is missing."""
    filled: list[float] = []
    start = 0
    for row, missing in gaps:
        filled += values[start:row] + [math.nan] * missing
        start = row
    return filled + values[start:]


def _unit_factor(heading: ColumnHeading, options: RecordOptions, path: str, remarks: list[str]) -> float:
    unit = options.unit or heading.unit
    if options.unit and heading.unit and options.unit != heading.unit:
        raise _refused(
            path,
            "unit-differs",
            f"the column '{heading.name}' is in {heading.unit}, --unit says {options.unit}",
            "leave out --unit, or mend the heading",
        )
    if unit is None:
        said = "no unit is stated: force is taken as newtons"
        if said not in remarks:
            remarks.append(said)
        return 1.0
    factor = UNITS["force"].get(unit)
    if factor is None:
        raise _refused(path, "unit", f"'{unit}' is no unit of force", f"use one of {', '.join(UNITS['force'])}")
    return factor


def _refused(path: str, code: str, message: str, hint: str) -> UserError:
    return UserError([Finding(path, 0, 0, code, message, hint)])
