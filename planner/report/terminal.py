"""Plain text for a terminal: columns that line up, and paragraphs that keep a number and its unit on one line."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence

WIDTH = 98
NO_BREAK = "\u00a0"
# A space inside a quantity: before a unit or "body weights", around a ± or around the x of a set.
_INSIDE_QUANTITY = re.compile(
    r"(?<=\d) (?=(?:N|kg|lb|lbf|cm|m|mm|in|s|ms|m/s|reps|body|x)\b)|(?<=\d) (?=[%±])|(?<=±) (?=\d)|(?<=\bx) (?=\d)"
)


def wrap(text: str, indent: str = "") -> str:
    """One paragraph of at most WIDTH columns; the lines after the first are indented two more."""
    kept = _INSIDE_QUANTITY.sub(NO_BREAK, text)
    lines = textwrap.fill(kept, WIDTH, initial_indent=indent, subsequent_indent=f"{indent}  ", break_on_hyphens=False)
    return lines.replace(NO_BREAK, " ")


def table(rows: Sequence[Sequence[str]]) -> str:
    """First column left-aligned, the others right-aligned, two spaces between. All rows have the same length."""
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    lines = []
    for row in rows:
        others = (cell.rjust(width) for cell, width in zip(row[1:], widths[1:], strict=True))
        lines.append("  ".join([row[0].ljust(widths[0]), *others]).rstrip())
    return "\n".join(lines)
