"""A sheet for a squad's tests, to be filled: from a battery, with what each column may hold."""

from __future__ import annotations

from planner.domain.findings import Finding, UserError
from planner.domain.terms import LEGS
from planner.domain.test_sheet import TestSheet
from planner.files.cells import CellValue
from planner.files.field_types import FieldType
from planner.files.load import load_test_sheet
from planner.files.locate import locate_sheet
from planner.files.sheet_headings import Meaning, new_sheet_columns, type_of
from planner.files.squad_tests_sheet import EXAMPLE_MARK
from planner.files.suggest import did_you_mean
from planner.files.workbook import WrittenColumn, csv_bytes, workbook_bytes
from planner.units import UNITS

MARK = {"file": "tests/1"}


def new_squad_sheet(*, battery: str | None = None, tests: tuple[str, ...] = (), as_csv: bool = False) -> bytes:
    """``tests``: ids of the battery's tests; () for its own choice. UserError where there is no such test."""
    at = locate_sheet(battery or "standard")
    sheet = load_test_sheet(at.path, at.display).require()
    known = [test.id for test in sheet.tests]
    unknown = [name for name in tests if name not in known]
    if unknown:
        raise UserError(
            [
                Finding(
                    at.display, 0, 0, "unknown-test", f"the battery has no test '{name}'", did_you_mean(name, known, 30)
                )
                for name in unknown
            ]
        )
    return filled_sheet(sheet, tests, [], as_csv=as_csv)


def filled_sheet(
    sheet: TestSheet, tests: tuple[str, ...], rows: list[list[CellValue]], *, as_csv: bool = False
) -> bytes:
    """The same with rows below the example."""
    meanings = new_sheet_columns(sheet, tests)
    example = _example(meanings)
    headings = [_heading(one) for one in meanings]
    if as_csv:
        return csv_bytes(headings, [example, *rows])
    frozen = 1 + max((n for n, one in enumerate(meanings) if one.person and one.person.field == "name"), default=0)
    columns = [_column(one) for one in meanings]
    return workbook_bytes("Tests", columns, rows, example=example, hidden=MARK, frozen_columns=frozen)


def _heading(meaning: Meaning) -> str:
    return f"{meaning.heading} ({meaning.unit})" if meaning.unit else meaning.heading


def _column(meaning: Meaning) -> WrittenColumn:
    kind = type_of(meaning) or FieldType("text")
    says = (meaning.person.says if meaning.person else None) or ""
    if kind.sort == "word":
        return WrittenColumn(_heading(meaning), words=kind.words, says=says)
    if kind.sort == "quantity" and kind.dimension and meaning.unit:
        factor = UNITS[kind.dimension][meaning.unit]
        low, high = ((None if one is None else one / factor) for one in (kind.low, kind.high))
        return WrittenColumn(_heading(meaning), "decimal", (), low, high, says)
    sort = kind.sort if kind.sort in ("date", "whole", "decimal") else "text"
    return WrittenColumn(_heading(meaning), sort, (), kind.low, kind.high, says)


def _example(meanings: list[Meaning]) -> list[CellValue]:
    found: list[CellValue] = []
    for meaning in meanings:
        if meaning.person is not None:
            value: CellValue = meaning.person.example
            found.append(f"{EXAMPLE_MARK} {value}" if meaning.person.field == "name" else value)
        elif meaning.figure is not None and meaning.test is not None:
            side = LEGS.index(meaning.side) if meaning.side else 0
            at = side * (meaning.test.trials if meaning.trial else 1) + (meaning.trial or 1) - 1
            figures = meaning.figure.example
            found.append(figures[at] if at < len(figures) else None)
    return found
