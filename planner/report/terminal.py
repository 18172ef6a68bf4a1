"""Plain text for a terminal: columns that line up, and paragraphs that keep a number and its unit on one line."""

from __future__ import annotations

import os
import re
import shutil
import textwrap
from collections.abc import Container, Iterator, Sequence

STEADY = 98  # columns of what goes into a file or a pipe, which is the same on every terminal
NARROWEST, WIDEST = 60, 120
NO_BREAK = "\u00a0"
# A space inside a quantity: before a unit or "body weights", around a ± or around the × of a set.
_INSIDE_QUANTITY = re.compile(
    r"(?<=\d) (?=(?:N|kg|lb|lbf|cm|m|mm|in|s|ms|m/s|reps|body)\b)|(?<=\d) (?=[%±×])|(?<=±) (?=\d)|(?<=×) (?=\d)"
)
_TO_SECOND_COLUMN = re.compile(r"\s*\S+(?: \S+)*\s{2,}")
_COMMAND = re.compile(r"(?:Next:)?\s*jumpblock ")


def columns() -> int | None:
    """Of the terminal that stdout is, from 60 to 120; None where it is none."""
    return min(max(shutil.get_terminal_size().columns, NARROWEST), WIDEST) if os.isatty(1) else None


def wrap(text: str, indent: str = "") -> str:
    """One paragraph as wide as the terminal; the lines after the first are indented two more."""
    kept = _INSIDE_QUANTITY.sub(NO_BREAK, text)
    lines = textwrap.fill(
        kept, columns() or STEADY, initial_indent=indent, subsequent_indent=f"{indent}  ", break_on_hyphens=False
    )
    return lines.replace(NO_BREAK, " ")


def fit(text: str) -> str:
    """Lines too wide for the terminal, each folded under its second column or a little further in.

    A line that is a command stays whole, so that it can be copied.
    """
    width = columns()
    return text if width is None else "\n".join(_folded(line, width) for line in text.split("\n"))


def _folded(line: str, width: int) -> str:
    if len(line) <= width or _COMMAND.match(line):
        return line
    second = _TO_SECOND_COLUMN.match(line)
    at = second.end() if second and second.end() <= width // 2 else len(line) - len(line.lstrip()) + 2
    return textwrap.fill(line, width, subsequent_indent=" " * at, break_long_words=False, break_on_hyphens=False)


def first_of(names: Sequence[str], most: int) -> str:
    """``Ana, Bo and 3 more``."""
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return f"{', '.join(names[:most])}{more}"


def table(rows: Sequence[Sequence[str]], *, left: bool | Container[int] = False) -> str:
    """Two spaces between columns; all but the first are right-aligned. The first row is the heads.

    ``left``: the columns, counted from 0, that are not; True for all.
    All rows have the same length. Where the terminal is too narrow for it, each row becomes a few lines.
    """
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    if (most := columns()) is not None and sum(widths) + 2 * (len(widths) - 1) > most:
        return fit("\n".join(_stacked(rows)))
    lines = []
    words = range(len(widths)) if left is True else left or ()
    for row in rows:
        cells = [
            cell.ljust(width) if at in words else cell.rjust(width)
            for at, (cell, width) in enumerate(zip(row, widths, strict=True))
        ]
        lines.append("  ".join([row[0].ljust(widths[0]), *cells[1:]]).rstrip())
    return "\n".join(lines)


def _stacked(rows: Sequence[Sequence[str]]) -> Iterator[str]:
    """The first cell of each row, and below it the others, each behind its head."""
    (first, *heads), widest = rows[0], max(map(len, rows[0][1:]))
    yield from [first] if first else []
    for name, *cells in rows[1:]:
        indent = " " * (len(name) - len(name.lstrip()) + 2)
        yield from [name] if name else []
        yield from (f"{indent}{head:<{widest}}  {cell}" for head, cell in zip(heads, cells, strict=True) if cell)
