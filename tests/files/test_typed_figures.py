"""Figures typed in a row: one that has its unit keeps it, in every form in which the athlete's file reads a length."""

from __future__ import annotations

import pytest

from planner.domain.measure import TouchTest
from planner.files.cells import Cell
from planner.files.field_types import FieldType
from planner.files.sheet_values import ColumnStyle, value_of
from planner.files.training_note import check_of, read_notes
from planner.files.typed_figures import is_bare, is_length, with_units
from planner.files.typed_sets import read_item
from planner.files.typed_tests import read_result
from planner.units import INCH_m, parse_quantity
from tests.solve.demos import solved

# 115.5 inches as coaches write them.
FORMS = (
    "9'7.5\"",
    "9' 7 1/2\"",
    "9'7½\"",
    "9\u20197.5\u201d",
    "9\u20327.5\u2033",
    "9'7.5''",
    "9'7.5",
    "9 ft 7.5 in",
    "9 ft 7.5",
    "9 feet 7.5 inches",
    '115.5"',
    "115 1/2 in",
    "115½ in",
    "115½ inches",
)
TOUCH = TouchTest.model_construct(kind="touch", method="wall")


@pytest.fixture(scope="module")
def item():
    weeks = solved("adult").block.weeks
    return next(one for week in weeks for s in week.sessions for one in s.items if one.part == "approach-jump")


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("units", [("in", "lb"), ("cm", "kg")])
def test_a_touch_is_typed_in_any_form_alone_and_in_a_row(form: str, units, item) -> None:
    for text in (form, f"{form}, 9 ft 8 in, {form}"):
        trials = read_result(TOUCH, None, text, units)["trials"]
        assert parse_quantity(trials[0], "length") == pytest.approx(115.5 * INCH_m)
        assert read_item(text, item).touches[0] == pytest.approx(115.5 * INCH_m)


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("unit", ["in", "cm", None])
def test_a_cell_keeps_its_own_unit_whatever_the_heading_has(form: str, unit: str | None) -> None:
    kind = FieldType("quantity", "length", low=1.0, high=5.0)
    cell = Cell(form, "x.csv", 2, 1)
    assert parse_quantity(value_of(cell, kind, ColumnStyle(), unit), "length") == pytest.approx(115.5 * INCH_m)


@pytest.mark.parametrize("bare", ["115.5", "115 1/2", "115½", "115-1/2"])
def test_a_figure_without_a_unit_gets_that_of_the_last_one_or_the_usual_one(bare: str) -> None:
    assert is_bare(bare) and not is_length(bare)
    for row, usual in ((f'{bare}, 116"', "m"), (f"{bare}, 116 inches", None), (bare, "in")):
        assert parse_quantity(with_units(row, "length", usual)[0], "length") == pytest.approx(115.5 * INCH_m)
    assert with_units(bare, "length", None) == [bare]


def test_a_note_that_went_through_a_messenger_keeps_feet_and_halves(item) -> None:
    body = "9eb607a2 w1s1 2026-03-17 as-planned / 2: 9\u20197½\u201d, 115½ in"
    (note,), found = read_notes(f"jb1 {body} end {check_of(body)}", "chat.txt")
    assert found == []
    assert read_item(note.items[0][1], item).touches == pytest.approx((115.5 * INCH_m, 115.5 * INCH_m))
