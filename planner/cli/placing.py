"""Findings of the planning itself, put on the line of the athlete's file that they speak of."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from planner.domain.athlete import Athlete
from planner.domain.findings import Finding
from planner.estimate.notebook import Locate
from planner.files.document import Loaded
from planner.files.tree import Path

# The field that a refusal of the planning is about, by the finding's code.
FIELDS: dict[str, Path] = {
    "pain": ("joints",),
    "training-days": ("training", "days"),
    "level": ("level",),
    "test-day": ("training", "away"),
}


def locator(athlete: Loaded[Athlete]) -> Locate:
    """The estimate's way to a line of the athlete's file."""

    def locate(keys: Path) -> tuple[str, int, int]:
        place = athlete.place(keys)
        return place.path, place.line, place.column

    return locate


def nowhere(code: str) -> Path:
    return ()


def placed(
    findings: Iterable[Finding], athlete: Loaded[Athlete], field_of: Callable[[str], Path] = nowhere
) -> list[Finding]:
    """The same findings with the athlete's file, line and the line's text wherever these can be told.

    ``field_of`` gives the field for codes that are not known here (the rules' ids), empty where there is none.
    """
    return [_placed(finding, athlete, field_of) for finding in findings]


def _placed(finding: Finding, athlete: Loaded[Athlete], field_of: Callable[[str], Path]) -> Finding:
    if finding.path not in ("", athlete.path):
        return finding
    if finding.line and (finding.line, finding.column) == athlete.where(()):  # about the athlete as a whole
        return replace(finding, line=0, column=0)
    if finding.line:
        lines = athlete.documents[0].lines if athlete.documents else ()
        shown = lines[finding.line - 1] if finding.line <= len(lines) else ""
        return replace(finding, source_line=finding.source_line or shown)
    field = _joint(finding, athlete) or FIELDS.get(finding.code) or field_of(finding.code)
    if not field:
        return replace(finding, path=athlete.path)
    at = athlete.finding(field, finding.code, finding.message, finding.hint, level=finding.level, on_key=len(field) < 3)
    return replace(at, other=finding.other)


def _joint(finding: Finding, athlete: Loaded[Athlete]) -> Path | None:
    """The line of the joint that a refusal for pain names."""
    if finding.code != "pain" or athlete.value is None:
        return None
    for index, state in enumerate(athlete.value.joints):
        side = f", {state.side}" if state.side else ""
        if finding.message.startswith(f"pain {state.pain} of 10 in {state.joint}{side}"):
            return ("joints", index, "pain")
    return None
