"""The bytes of a text file to rows of cells, with the names and units that stand above them."""

from __future__ import annotations

import math
import re
from collections import Counter
from dataclasses import dataclass

from planner.domain.findings import Finding, UserError
from planner.force_platform.reading.column_names import column_name, is_unit

LARGEST_RECORD_bytes = 64 * 1024 * 1024
MISSING_CELLS = {"", "nan", "na", "n/a", "null", "-", "--"}
_COMMENT = ("#", "%", "//")
_DELIMITERS = ("\t", ";", ",", None)  # None: any white space
_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?")

TableRow = tuple[int, list[str]]


@dataclass(frozen=True)
class TextTable:
    """Rows of cells with their line numbers; ``names`` and ``units`` are empty, or one for each column.

    ``preamble``: every line above the rows. ``unread_names``: a line that should hold the names and does not fit.
    """

    rows: list[TableRow]
    names: list[str]
    units: list[str]
    preamble: list[str]
    decimal_comma: bool
    unread_names: str | None
    remark: str | None = None  # what was chosen

    def number(self, cell: str) -> float | None:
        return number_of(cell, self.decimal_comma)


def read_table(raw: bytes, path: str) -> TextTable:
    """Raises UserError where the file is too large or holds no rows of numbers."""
    lines = [(number, line) for number, line in enumerate(re.split(r"\r\n|\r|\n", _text(raw, path)), start=1)]
    filled = [(number, line) for number, line in lines if line.strip()]
    delimiter, width = _shape([line for _, line in filled])
    comma = delimiter != ","
    first = next(
        (
            place
            for place, (_, line) in enumerate(filled)
            if _is_numeric(cells := _cells(line, delimiter), comma) and len(cells) == width
        ),
        None,
    )
    if first is None:
        raise refused(
            path, "no-numbers", "there are no rows of numbers in this file", "export it as text: one row a sample"
        )
    above = [line for _, line in filled[:first]]
    rows = [
        (number, _cells(line, delimiter)) for number, line in filled[first:] if not line.lstrip().startswith(_COMMENT)
    ]
    if width > 1 and all(len(cells) == width and not cells[-1] for _, cells in rows):  # a separator ends every line
        rows, width = [(number, cells[:-1]) for number, cells in rows], width - 1
    names, units, unread = _headings(above, delimiter, width)
    if delimiter == "," and unread is not None and not any("." in cell for _, cells in rows for cell in cells):
        name = unread.lstrip("#% ").strip()
        if width == 2 and column_name(0, name).kind == "force":
            rows = [(number, [",".join(cells)]) for number, cells in rows]
            return TextTable(rows, [name], [], above, True, None, f"one column, {name}, with a decimal comma")
        if 2 * max(len(_cells(unread, ",")), len(unread.split())) == width:
            message = "the comma is the decimal sign and the separator of columns at once"
            raise refused(path, "decimal-comma", message, "export it with semicolons, tabs, or decimal points")
    return TextTable(rows, names, units, above, comma, unread)


def number_of(cell: str, decimal_comma: bool) -> float | None:
    """The number in a cell; None where it is none, or not finite."""
    if not _NUMBER.fullmatch(cell):
        return None
    if "," in cell:
        if not decimal_comma:
            return None
        cell = cell.replace(",", ".")
    value = float(cell)
    return value if math.isfinite(value) else None


def refused(path: str, code: str, message: str, hint: str) -> UserError:
    return UserError([Finding(path, 0, 0, code, message, hint)])


def _text(raw: bytes, path: str) -> str:
    if len(raw) > LARGEST_RECORD_bytes:
        raise refused(path, "too-large", f"the file has {len(raw) / 2**20:.0f} MiB, the most read is 64", "cut it")
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return raw.decode("utf-16", "replace")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        return raw.decode("latin-1")


def _shape(lines: list[str]) -> tuple[str | None, int]:
    """The separator that makes most lines numeric rows of one width, of these the one with most columns; the width."""
    sample = lines[:400]

    def score(delimiter: str | None) -> tuple[int, int]:
        rows = [_cells(line, delimiter) for line in sample]
        widths = Counter(len(row) for row in rows if _is_numeric(row, delimiter != ","))
        width, count = max(widths.items(), key=lambda one: (one[1], one[0]), default=(0, 0))
        return count, width

    best = max(_DELIMITERS, key=score)
    return best, score(best)[1]


def _cells(line: str, delimiter: str | None) -> list[str]:
    return [cell.strip().strip('"').strip() for cell in line.split(delimiter)]


def _is_numeric(cells: list[str], comma: bool) -> bool:
    """Numbers and missing cells, at least one number."""
    numbers = [number_of(cell, comma) is not None for cell in cells]
    return any(numbers) and all(n or cell.lower() in MISSING_CELLS for n, cell in zip(numbers, cells, strict=True))


def _headings(above: list[str], delimiter: str | None, width: int) -> tuple[list[str], list[str], str | None]:
    """Names, units and the line that did not fit, from the lines above the first row, the nearest first."""
    units: list[str] = []
    nearest = list(reversed(above))
    if nearest:
        cells = _fitted(nearest[0], delimiter, width)
        if cells and all(is_unit(cell) for cell in cells if cell):
            further = _fitted(nearest[1], delimiter, width) if len(nearest) > 1 else []
            units, nearest = cells, nearest[1:] if further else nearest
    if not nearest:
        return [], units, None
    names = _fitted(nearest[0], delimiter, width)
    if names and len(nearest) > 1 and len({name.lower() for name in names}) < len(names):
        names = _of_two_lines(_fitted(nearest[1], delimiter, width), names)
    return names, units if names else [], None if names else nearest[0]


def _fitted(line: str, delimiter: str | None, width: int) -> list[str]:
    """The cells of a line of names, one for each column, by the rows' separator or another; empty where none fits."""
    stripped = line.strip("\ufeff ").lstrip("#%/ ")
    for one in (delimiter, *_DELIMITERS):
        cells = _cells(stripped, one)
        while len(cells) > width and not cells[-1]:
            cells = cells[:-1]
        a_unit_apart = one is None and any(map(is_unit, cells)) and not all(map(is_unit, cells))
        if len(cells) == width and any(cells) and not a_unit_apart:
            return cells
    return []


def _of_two_lines(upper: list[str], names: list[str]) -> list[str]:
    """Names that come twice, such as Fz of two platforms, with the line above them that tells which."""
    if not upper:
        return names
    filled, last = [], ""
    for cell in upper:
        last = cell or last
        filled.append(last)
    return [f"{one} {name}".strip() for one, name in zip(filled, names, strict=True)]
