"""A test day of a sheet as an entry of an athlete's file, with the cell behind each of its fields."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from typing import Any

from pydantic import TypeAdapter, ValidationError

from planner.domain.findings import Finding
from planner.domain.measure import Test
from planner.domain.terms import LEGS
from planner.domain.test_record import TestRecord
from planner.files.cells import Cell
from planner.files.field_types import model_of_test, shape_of_test
from planner.files.sheet_people import Read, SheetTestDay
from planner.files.tree import Path
from planner.files.values import Data

OWN = "own"  # take_off: own in a battery is the athlete's own
_RESULTS = ("trials", "left", "right", "load", "reps", "reps_in_reserve")
_NOT_COMPARED = (*_RESULTS, "method", "protocol", "note")


@dataclass
class SheetEntry:
    """``data``: as the file writes it. ``cells``: by the path inside the entry; its own cell under the empty path."""

    data: dict[str, Data]
    cells: dict[Path, Cell] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)


def sheet_entry(day: SheetTestDay, take_off: str) -> SheetEntry:
    """``take_off``: the athlete's own. Figures that are not whole are findings of the entry."""
    first = next(iter(day.figures.values())).cell
    says = {name: take_off if (name, value) == ("take_off", OWN) else value for name, value in day.test.says.items()}
    entry = SheetEntry({"kind": day.test.kind, "date": day.date.value, **says}, {(): first, ("date",): day.date.cell})
    if day.side is not None:
        entry.data["side"] = day.side
    shape = shape_of_test(day.test.kind)
    ordered = sorted(day.figures.items(), key=lambda one: one[0][0])
    if shape == "fields":
        for (_, name, _), read in ordered:
            entry.data[name], entry.cells[(name,)] = read.value, read.cell
    elif shape == "trial-fields":
        _add_tables(entry, ordered)
    elif shape == "trials":
        _add_list(entry, "trials", [read for _, read in ordered])
    else:
        for leg in LEGS:
            own = [read for (_, _, side), read in ordered if side == leg]
            if own and shape == "leg-lists":
                _add_list(entry, leg, own)
            elif own:
                entry.data[leg], entry.cells[(leg,)] = own[0].value, own[0].cell
    entry.findings += _lacking(day, entry, first)
    return entry


def _add_list(entry: SheetEntry, name: str, reads: list[Read]) -> None:
    entry.data[name] = [read.value for read in reads]
    entry.cells |= {(name, n): read.cell for n, read in enumerate(reads)}


def _add_tables(entry: SheetEntry, ordered: list[tuple[tuple[int, str, Any], Read]]) -> None:
    trials = sorted({number for (number, _, _), _ in ordered})
    tables: list[dict[str, Data]] = [{} for _ in trials]
    for (number, name, _), read in ordered:
        tables[trials.index(number)][name] = read.value
        entry.cells[("trials", trials.index(number), name)] = read.cell
    entry.data["trials"] = list(tables)


def _lacking(day: SheetTestDay, entry: SheetEntry, first: Cell) -> list[Finding]:
    """Figures that the test cannot do without, such as the reps of a lift."""
    names = {figure.field: figure.heading or figure.field for figure in day.test.figures}
    if shape_of_test(day.test.kind) == "fields":
        needed = [name for name, one in model_of_test(day.test.kind).model_fields.items() if one.is_required()]
        lacking = [name for name in needed if name in names and name not in entry.data]
    else:
        tables = [one for one in entry.data.get("trials") or [] if isinstance(one, dict)]  # type: ignore[union-attr]
        lacking = [name for name in names if any(name not in one for one in tables)]
    said = " and ".join(names[name] for name in lacking)
    message, hint = f"'{day.test.heading}' has no {said}", "fill the cell, or empty the others of this test"
    return [first.finding("not-whole", message, hint)] if lacking else []


@cache
def _adapter() -> TypeAdapter[Any]:
    return TypeAdapter(Test)


def as_model(data: dict[str, Data]) -> TestRecord | None:
    """The entry as a test; None where the model refuses it, which the whole file's findings then say."""
    try:
        found: TestRecord = _adapter().validate_python(data)
    except ValidationError:
        return None
    return found


def same_test_and_day(one: TestRecord, other: TestRecord) -> bool:
    """Whether both are the same test of the same day, whatever their figures."""
    compared = [name for name in type(one).model_fields if name not in _NOT_COMPARED]
    return type(one) is type(other) and all(getattr(one, name) == getattr(other, name) for name in compared)


def results_of(test: TestRecord) -> dict[str, Any]:
    """The figures of a test by field."""
    return {name: getattr(test, name) for name in _RESULTS if name in type(test).model_fields}
