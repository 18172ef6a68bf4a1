"""Which column of a force record is what: time, one force, or the forces of two platforms.

Two forces are two platforms only where their names say left and right, or 1 and 2, along the same axis. Of several
axes the vertical one is told by its name and by the weight it carries. Every choice is said; what is in doubt is a
finding with the option that settles it; what cannot be told is refused.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from planner.domain.findings import Finding, UserError
from planner.force_platform.reading.column_names import ColumnName
from planner.force_platform.reading.text_table import refused

CARRIES_MOST = 3.0  # times the mean force of any other axis: a horizontal one averages near to nothing
_PAIRS = (("left", "right"), ("1", "2"))

# The mean of a column's force without its sign; what a vertical axis has most of.
Carried = Callable[[ColumnName], float]


@dataclass(frozen=True)
class ColumnWishes:
    """Names or numbers from the command line; None leaves it to the file."""

    time: str | None = None
    force: str | None = None
    sides: tuple[str, str] | None = None


@dataclass(frozen=True)
class RecordColumns:
    """``forces``: one column, or two whose sum is the force, named by ``side_names``. ``choices``: what was chosen, in
    words; ``doubts``: warnings that name the option which settles them."""

    time: ColumnName | None
    forces: tuple[ColumnName, ...]
    side_names: tuple[str, ...]
    choices: tuple[str, ...]
    doubts: tuple[Finding, ...] = ()


def record_columns(
    names: list[ColumnName], wishes: ColumnWishes, grows: Callable[[int], bool], carried: Carried, path: str
) -> RecordColumns:
    """``grows``: whether a column's numbers rise from the first row to the last."""
    doubts: list[Finding] = []
    time = _column_called(names, wishes.time, "--time", path) if wishes.time else _find_time(names, grows, path, doubts)
    said = [f"time: {time.name}"] if time is not None else []
    if wishes.sides:
        chosen = tuple(
            _column_called(names, name, f"--{side}", path) for name, side in zip(wishes.sides, _PAIRS[0], strict=True)
        )
        said.append(f"left: {chosen[0].name}, right: {chosen[1].name}; the force is their sum")
        return RecordColumns(time, chosen, _PAIRS[0], tuple(said))
    if wishes.force:
        one = _column_called(names, wishes.force, "--force", path)
        return RecordColumns(time, (one,), (), (*said, f"force: {one.name}"))
    finder = _ForceFinder([one for one in names if one is not time], carried, path, doubts)
    forces, side_names = finder.forces()
    said.append(
        f"force: {forces[0].name}"
        if len(forces) == 1
        else f"{side_names[0]}: {forces[0].name}, {side_names[1]}: {forces[1].name}; the force is their sum"
    )
    return RecordColumns(time, forces, side_names, (*said, *finder.choices), tuple(doubts))


def _column_called(names: list[ColumnName], wish: str, option: str, path: str) -> ColumnName:
    wanted = wish.strip().lower()
    found = [one for one in names if wanted in (one.name.lower(), one.text.lower())]
    found = found or [one for one in names if wanted == str(one.index + 1)]
    if len(found) == 1:
        return found[0]
    message = f"{len(found)} columns are called '{wish}'" if found else f"there is no column '{wish}'"
    raise refused(path, "no-column", message, f"the columns are {_listed(names)}; {option} takes a name or a number")


def _listed(names: list[ColumnName]) -> str:
    more = " ..." if len(names) > 12 else ""
    return ", ".join(f"{one.index + 1} {one.name}" for one in names[:12]) + more


def _find_time(
    names: list[ColumnName], grows: Callable[[int], bool], path: str, doubts: list[Finding]
) -> ColumnName | None:
    times = [one for one in names if one.kind == "time"]
    if len(times) > 1:
        message = f"several columns are times ({_listed(times)}): '{times[0].name}' is taken"
        doubts.append(Finding(path, 0, 0, "which-time", message, "say which with --time NAME", "warning"))
    if times:
        return times[0]
    if len(names) > 1 and not any(one.text for one in names) and grows(0):
        message = "the columns have no names; the first one grows and is taken as the time"
        doubts.append(Finding(path, 0, 0, "which-time", message, "say --time 1, or another number", "warning"))
        return names[0]
    return None


class _ForceFinder:
    """Looks for the vertical force, or those of two platforms; says what it chose and doubts."""

    def __init__(self, names: list[ColumnName], carried: Carried, path: str, doubts: list[Finding]) -> None:
        self._names, self._carried, self._path, self._doubts = names, carried, path, doubts
        self.choices: list[str] = []

    def forces(self) -> tuple[tuple[ColumnName, ...], tuple[str, ...]]:
        candidates = [one for one in self._names if one.kind == "force"]
        if not candidates:
            candidates = [one for one in self._names if one.kind == "unknown"]
            if len(candidates) > 1:
                raise self._unclear(candidates)
        if not candidates:
            raise self._unclear([])
        totals = [one for one in candidates if one.is_total]
        parts = [one for one in candidates if one not in totals]
        sides = sorted({one.side for one in parts if one.side is not None})
        for pair in _PAIRS:
            if tuple(sides) == pair:
                return self._pair(parts, pair)
        if totals:
            return (self._vertical(totals),), ()
        if len(sides) > 1 or (sides and any(one.side is None for one in parts)):
            raise self._unclear(parts)
        if sides:
            message = f"only the platform '{sides[0]}' is in this file"
            hint = "if the other foot was on another one, export both; else name it with --force"
            self._doubts.append(Finding(self._path, 0, 0, "one-side", message, hint, "warning"))
        return (self._vertical(parts),), ()

    def _pair(self, parts: list[ColumnName], pair: tuple[str, str]) -> tuple[tuple[ColumnName, ...], tuple[str, ...]]:
        first, second = (self._vertical([one for one in parts if one.side == side], both=parts) for side in pair)
        if first.axis != second.axis:
            raise self._unclear([first, second])
        return (first, second), pair if pair == _PAIRS[0] else (first.name, second.name)

    def _vertical(self, axes: list[ColumnName], both: list[ColumnName] | None = None) -> ColumnName:
        """Of the axes of one platform; ``both``: of two together, since a foot may be off one of them."""
        if len(axes) == 1:
            return axes[0]
        by_axis = {one.axis: one for one in axes}
        if None in by_axis or len(by_axis) < len(axes):
            raise self._unclear(axes)
        loads = {axis: sum(self._carried(one) for one in both or axes if one.axis == axis) for axis in by_axis}
        heaviest = max(loads, key=lambda axis: loads[axis])
        alone = loads[heaviest] > CARRIES_MOST * max(load for axis, load in loads.items() if axis != heaviest)
        by_name = next((axis for axis in ("vertical", "z") if axis in by_axis), None)
        if by_name is None and not alone:
            raise self._unclear(axes)
        if by_name is not None and not (alone and heaviest == by_name):
            message = f"'{by_axis[by_name].name}' is taken as vertical by its name; the weight does not tell"
            if alone:
                other = by_axis[heaviest].name
                message = f"'{by_axis[by_name].name}' carries no weight, '{other}' does and is taken as vertical"
            hint = f"if not, name {'both with --left NAME --right NAME' if both else 'it with --force NAME'}"
            self._doubts.append(Finding(self._path, 0, 0, "which-axis", message, hint, "warning"))
        chosen = by_axis[heaviest if alone else by_name]
        why = "by its name, and it carries the weight" if chosen.axis == by_name else "it carries the weight"
        self.choices.append(f"vertical of {', '.join(one.name for one in axes)}: {chosen.name}, {why}")
        return chosen

    def _unclear(self, among: list[ColumnName]) -> UserError:
        """Refused: it is not clear which of these is the vertical force."""
        what = (
            f"it is not clear which column is the vertical force ({_listed(among)})"
            if among
            else f"no column is a force ({_listed(self._names)})"
        )
        hint = "name it with --force NAME, or two platforms with --left NAME --right NAME; a number does as well"
        return refused(self._path, "which-column", what, hint)
