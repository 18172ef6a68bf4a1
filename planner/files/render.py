"""A finding as a person reads it in a terminal, and as data."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from typing import Any

from planner.domain.findings import Finding
from planner.files.text import printable

_COLOURS = {"error": "\x1b[31m", "warning": "\x1b[33m", "note": "\x1b[36m"}
_BOLD, _PLAIN = "\x1b[1m", "\x1b[0m"
_WIDEST = 160


def format_finding(finding: Finding, color: bool = False) -> str:
    """``path:line:column: [code] what is wrong; what to do``, then the line itself and a caret under the place."""
    place = printable(finding.path).replace("\n", " ")
    if finding.line:
        place += f":{finding.line}:{finding.column}"
    level = "" if finding.level == "error" else f"{finding.level}: "
    words = printable(f"{finding.message}; {finding.hint}" if finding.hint else finding.message)
    code = f"[{finding.code}]"
    if color:
        place, code = f"{_BOLD}{place}{_PLAIN}", f"{_COLOURS[finding.level]}{code}{_PLAIN}"
    prefix = f"{place}: " if place else ""
    lines = [f"{prefix}{level}{code} {words}"]
    if finding.line and finding.source_line.strip():
        lines += _source(finding)
    return "\n".join(lines)


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


def _source(finding: Finding) -> list[str]:
    """The line and a caret; of a very long line the part around the caret."""
    line, at = finding.source_line.rstrip(), max(finding.column - 1, 0)
    start = max(0, at - _WIDEST // 2) if len(line) > _WIDEST else 0
    line, at = line[start : start + _WIDEST], at - start
    # Terminals print control characters as they please; a caret has to be under what is shown.
    shown = "".join(" " if unicodedata.category(letter) == "Cc" else letter for letter in line)
    before = "".join("  " if unicodedata.east_asian_width(letter) in "WF" else " " for letter in shown[:at])
    return [f"    {shown}", f"    {before}^"]


def _escaped(text: str, more: str = "") -> str:
    """Percent signs, line ends and ``more``, as workflow commands want them."""
    for character in f"%\r\n{more}":
        text = text.replace(character, f"%{ord(character):02X}")
    return text
