"""Findings of the planning itself, put on the line of the athlete's file that they speak of."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from planner.domain.athlete import Athlete
from planner.domain.findings import Finding
from planner.estimate.notebook import Locate
from planner.files.document import Loaded
from planner.files.tree import Path


def locator(athlete: Loaded[Athlete]) -> Locate:
    """The estimate's way to a line of the athlete's file."""

    def locate(keys: Path) -> tuple[str, int, int]:
        place = athlete.place(keys)
        return place.path, place.line, place.column

    return locate


def placed(findings: Iterable[Finding], athlete: Loaded[Athlete]) -> list[Finding]:
    """The same findings with the athlete's file, line and the line's text wherever these can be told."""
    return [_placed(finding, athlete) for finding in findings]


def _placed(finding: Finding, athlete: Loaded[Athlete]) -> Finding:
    if finding.path not in ("", athlete.path):
        return finding
    top = athlete.place(())
    if finding.line and (finding.line, finding.column) == (top.line, top.column):  # about the athlete as a whole
        return replace(finding, line=0, column=0)
    if finding.line:
        lines = athlete.documents[0].lines if athlete.documents else ()
        shown = lines[finding.line - 1] if finding.line <= len(lines) else ""
        return replace(finding, source_line=finding.source_line or shown)
    if not finding.keys:
        return replace(finding, path=athlete.path)
    on_key = len(finding.keys) < 3  # a whole section, not a value in it
    at = athlete.finding(finding.keys, finding.code, finding.message, finding.hint, level=finding.level, on_key=on_key)
    return replace(at, other=finding.other, at=finding.at, keys=finding.keys)
