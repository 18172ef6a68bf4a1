"""A finding as a person reads it in a terminal, and as data."""

from __future__ import annotations

import textwrap
import unicodedata
from collections.abc import Iterable
from typing import Any

from planner.domain.findings import Finding
from planner.files.text import printable

_COLOURS = {"error": "\x1b[31m", "warning": "\x1b[33m", "note": "\x1b[36m"}
_BOLD, _PLAIN = "\x1b[1m", "\x1b[0m"
WIDEST = 160  # columns of a line that is shown


def format_finding(finding: Finding, color: bool = False, width: int | None = None) -> str:
    """``path:line:column: [code] what is wrong; what to do``, then the line itself and a caret under the place.

    ``width``: columns of the terminal it is shown on; without it, each is on a line of its own.
    """
    place = printable(finding.path).replace("\n", " ")
    if finding.line:
        place += f":{finding.line}:{finding.column}"
    level = "" if finding.level == "error" else f"{finding.level}: "
    words = printable(f"{finding.message}; {finding.hint}" if finding.hint else finding.message)
    code = f"[{finding.code}]"
    said = f"{f'{place}: ' if place else ''}{level}{code} {words}"
    if width is not None:
        said = textwrap.fill(said, width, subsequent_indent="  ", break_long_words=False, break_on_hyphens=False)
    if color:
        said = said.replace(place, f"{_BOLD}{place}{_PLAIN}", 1) if place else said
        said = said.replace(code, f"{_COLOURS[finding.level]}{code}{_PLAIN}", 1)
    source = _source(finding, (width or WIDEST + 4) - 4) if finding.line and finding.source_line.strip() else []
    return "\n".join([said, *source])


def finding_to_json(finding: Finding) -> dict[str, Any]:
    """The finding as a mapping of plain values, for ``--json``."""
    return {
        "path": finding.path,
        "line": finding.line,
        "column": finding.column,
        "level": finding.level,
        "code": finding.code,
        "message": finding.message,
        "hint": finding.hint,
        "other": finding.other,
    }


def finding_to_github(finding: Finding) -> str:
    """The finding as a workflow command of GitHub Actions, which puts it on its line of a pull request."""
    level = "notice" if finding.level == "note" else finding.level
    place = {"file": finding.path, "line": finding.line, "col": finding.column, "title": finding.code}
    properties = ",".join(f"{name}={_escaped(str(value), ':,')}" for name, value in place.items() if value)
    words = f"{finding.message}; {finding.hint}" if finding.hint else finding.message
    return f"::{level} {properties}::{_escaped(words)}"


def in_order(findings: Iterable[Finding]) -> list[Finding]:
    """Sorted by file, line and column, each once."""
    return sorted(set(findings))


def _source(finding: Finding, widest: int) -> list[str]:
    """The line and a caret; of a very long line the part around the caret."""
    line, at = finding.source_line.rstrip(), max(finding.column - 1, 0)
    start = max(0, at - widest // 2) if len(line) > widest else 0
    line, at = line[start : start + widest], at - start
    # Terminals print control characters as they please; a caret has to be under what is shown.
    shown = "".join(" " if unicodedata.category(letter) == "Cc" else letter for letter in line)
    before = "".join("  " if unicodedata.east_asian_width(letter) in "WF" else " " for letter in shown[:at])
    return [f"    {shown}", f"    {before}^"]


def _escaped(text: str, more: str = "") -> str:
    """Percent signs, line ends and ``more``, as workflow commands want them."""
    for character in f"%\r\n{more}":
        text = text.replace(character, f"%{ord(character):02X}")
    return text
