"""Which column of a force record is what: time, one force, or the forces of two platforms."""

from __future__ import annotations

import re
from dataclasses import dataclass

from planner.domain.findings import Finding, UserError
from planner.units import UNITS

_UNIT = re.compile(r"^(.*?)[\s_]*[\[(]\s*([A-Za-z/]+)\s*[\])]\s*$")
_TRAILING_UNIT = re.compile(r"^(.*\S)[\s_,]+(s|ms|N|kN|lbf)$")
_TIME = re.compile(r"^(time|t|abs time|elapsed.*|seconds|timestamp)$", re.IGNORECASE)
_COUNTER = re.compile(r"^(frame|sample|index|row|no\.?|#|n)s?\b", re.IGNORECASE)
_OTHER = re.compile(r"(^|[^a-z])(f[xy]|m[xyz]|cop|ax|ay|az|moment|torque)([^a-z]|$)", re.IGNORECASE)
_FORCE = re.compile(r"force|grf|fz|load|newton", re.IGNORECASE)
_TOTAL = re.compile(r"total|sum|combined|both", re.IGNORECASE)
_SIDE = {
    "left": re.compile(r"left|(^|[^a-z])l([^a-z]|$)", re.IGNORECASE),
    "right": re.compile(r"right|(^|[^a-z])r([^a-z]|$)", re.IGNORECASE),
}


@dataclass(frozen=True)
class ColumnHeading:
    """A column: where it is, its name without the unit, the unit if one is written, whether its numbers grow."""

    index: int
    name: str
    unit: str | None
    grows: bool


@dataclass(frozen=True)
class Columns:
    """``forces``: one column, or two whose sum is the force, named by ``side_names``."""

    time: ColumnHeading | None
    forces: tuple[ColumnHeading, ...]
    side_names: tuple[str, ...]
    remarks: tuple[str, ...]


def headings_of(cells: list[str], width: int, grows: list[bool]) -> list[ColumnHeading]:
    """A heading for each of ``width`` columns; without a heading line, columns are called by their number."""
    headings = []
    for index in range(width):
        text = cells[index] if cells else ""
        found = _UNIT.match(text) or _TRAILING_UNIT.match(text)
        name, unit = (found.group(1).strip(), found.group(2)) if found else (text, None)
        known = unit is None or unit in UNITS["time"] or unit in UNITS["force"]
        unnamed = name or unit or f"column {index + 1}"
        headings.append(ColumnHeading(index, unnamed if known else text, unit if known else None, grows[index]))
    return headings


def assign(
    headings: list[ColumnHeading], time: str | None, force: str | None, sides: tuple[str, str] | None, path: str
) -> Columns:
    """The columns by the names given, else by their headings, else by their number where that is plain."""
    time_column = _named(headings, time, path) if time else _find_time(headings)
    if sides:
        chosen = tuple(_named(headings, name, path) for name in sides)
        return Columns(time_column, chosen, ("left", "right"), (f"left: {sides[0]}, right: {sides[1]}",))
    if force:
        return Columns(time_column, (_named(headings, force, path),), (), ())
    return _find_forces(headings, time_column, path)


def _named(headings: list[ColumnHeading], name: str, path: str) -> ColumnHeading:
    for heading in headings:
        if name.strip().lower() in (heading.name.lower(), str(heading.index + 1)):
            return heading
    names = ", ".join(heading.name for heading in headings[:12])
    message = f"there is no column '{name}'"
    raise UserError([Finding(path, 0, 0, "no-column", message, f"the columns are {names}; or give its number")])


def _find_time(headings: list[ColumnHeading]) -> ColumnHeading | None:
    for heading in headings:
        if _TIME.match(heading.name) or heading.unit in ("s", "ms"):
            return heading
    unnamed = all(heading.name.startswith("column ") for heading in headings)
    if unnamed and len(headings) > 1 and headings[0].grows:
        return headings[0]
    return None


def _find_forces(headings: list[ColumnHeading], time: ColumnHeading | None, path: str) -> Columns:
    left_over = [one for one in headings if one is not time and not _COUNTER.match(one.name)]
    candidates = [
        one
        for one in left_over
        if (one.unit in UNITS["force"] or _FORCE.search(one.name)) and not _OTHER.search(one.name)
    ] or [one for one in left_over if not _OTHER.search(one.name)]
    totals = [one for one in candidates if _TOTAL.search(one.name)]
    left, right = ([one for one in candidates if pattern.search(one.name)] for pattern in _SIDE.values())
    if len(left) == 1 and len(right) == 1 and left != right:
        said = f"left: {left[0].name}, right: {right[0].name}; the force is their sum"
        return Columns(time, (left[0], right[0]), ("left", "right"), (said,))
    parts = [one for one in candidates if one not in totals]
    if len(parts) == 2:
        names = (parts[0].name, parts[1].name)
        return Columns(time, (parts[0], parts[1]), names, (f"two platforms: {names[0]} and {names[1]}, added up",))
    if len(candidates) == 1 or len(totals) == 1:
        chosen = totals[0] if totals else candidates[0]
        return Columns(time, (chosen,), (), (f"force: {chosen.name}",))
    names_text = ", ".join(one.name for one in headings[:12])
    message = (
        f"which column is the vertical force is not plain ({names_text})" if candidates else "no column is a force"
    )
    hint = "name it with --force NAME, or two platforms with --left NAME --right NAME"
    raise UserError([Finding(path, 0, 0, "which-column", message, hint)])
