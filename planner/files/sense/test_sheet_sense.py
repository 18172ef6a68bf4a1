"""A battery for spreadsheets as a whole: each heading means one thing, and each column is a field of its test."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.findings import Finding
from planner.domain.test_sheet import SheetTest, TestSheet
from planner.files.document import Loaded
from planner.files.field_types import figure_type, model_of_test, shape_of_test
from planner.files.sheet_headings import Headings
from planner.files.suggest import did_you_mean
from planner.files.tree import Path
from planner.units import UNITS

_FROM_THE_SHEET = ("kind", "date", "trials", "left", "right", "side", "note")


def test_sheet_sense(loaded: Loaded[TestSheet]) -> list[Finding]:
    sheet = loaded.require()
    found = [loaded.finding(*_twice(name)) for name in Headings(sheet).twice]
    for index, test in enumerate(sheet.tests):
        found += _test(test, ("tests", index), loaded)
    listed = [column.field for column in sheet.athlete]
    found += [
        loaded.finding(("athlete",), "no-column", f"no column holds the {field}", "add it", on_key=True)
        for field in ("name", "date")
        if field not in listed
    ]
    return found


test_sheet_sense.__test__ = False  # type: ignore[attr-defined]  # not for pytest


def _twice(name: str) -> tuple[Path, str, str, str]:
    return (), "heading-twice", f"the heading '{name}' means two things", "take it out of one of the lists of names"


def _test(test: SheetTest, path: Path, loaded: Loaded[TestSheet]) -> Iterator[Finding]:
    model, shape = model_of_test(test.kind), shape_of_test(test.kind)
    fields = [name for name in model.model_fields if name not in _FROM_THE_SHEET]
    for name in test.says:
        if name not in fields:
            message = f"a test of kind {test.kind} has no field '{name}' to be said for all"
            yield loaded.finding(
                (*path, "says", name), "unknown-field", message, did_you_mean(name, fields), on_key=True
            )
    if shape in ("legs", "leg-lists") and not test.sides:
        yield loaded.finding(path, "sides-wanted", f"{test.kind} is measured a leg at a time", "write sides: true")
    if test.sides and shape not in ("legs", "leg-lists") and "side" not in model.model_fields:
        message = f"a test of kind {test.kind} has no sides"
        yield loaded.finding((*path, "sides"), "sides-not-wanted", message, "delete this line")
    for index, figure in enumerate(test.figures):
        at = (*path, "figures", index)
        try:
            kind = figure_type(test.kind, figure.field)
        except KeyError:
            message = f"a test of kind {test.kind} has no figure '{figure.field}'"
            names = ["trials"] if shape in ("trials", "legs", "leg-lists") else fields
            yield loaded.finding((*at, "field"), "unknown-field", message, did_you_mean(figure.field, names))
            continue
        units = UNITS[kind.dimension] if kind.dimension else {}
        if figure.unit is not None and figure.unit not in units:
            message = f"'{figure.unit}' is not a unit of this figure"
            yield loaded.finding((*at, "unit"), "unknown-unit", message, did_you_mean(figure.unit, units))
