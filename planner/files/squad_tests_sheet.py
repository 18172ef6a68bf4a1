"""A sheet of tests, one row an athlete or one row a trial, as athletes and tests. Every finding names its cell."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from planner.domain.findings import Finding, UserError
from planner.domain.test_sheet import TestSheet
from planner.files.cells import Cell, heading_row, read_rows
from planner.files.field_types import FieldType
from planner.files.sheet_headings import ALL_UNITS, Headings, Meaning, folded, type_of
from planner.files.sheet_people import People, Read, SheetPerson, add_figure
from planner.files.sheet_values import DateOrder, is_unit_row, style_of, value_of
from planner.files.suggest import did_you_mean
from planner.files.values import Data, ValueProblem

EXAMPLE_MARK = "(example)"  # begins the name of a row that is not read
_MOST_COLUMNS = 250


@dataclass
class SheetRead:
    """``notes``: columns and rows that were not read, each with its cell."""

    people: list[SheetPerson]
    notes: list[Finding]


def read_squad_tests(
    path: Path, display: str, sheet: TestSheet, *, dates: DateOrder | None = None, skip_rows: bool = False
) -> SheetRead:
    """Every athlete of the sheet. UserError with all findings where there is any.

    ``dates``: which comes first in days such as 2/3/2026. ``skip_rows``: rows with findings are left out and told.
    """
    if path.suffix.lower() not in (".csv", ".xlsx"):
        hint = "save it as .xlsx, or as CSV in UTF-8"
        raise UserError([Finding(display, 0, 0, "not-a-sheet", "this is not a sheet that can be read", hint)])
    rows = read_rows(path, display, _MOST_COLUMNS)
    headings = Headings(sheet)
    at, columns, findings = _columns(rows, headings, display)
    body = rows[at + 1 :]
    if body and is_unit_row([body[0][n] for n in range(len(body[0])) if n in columns], ALL_UNITS):
        columns = {n: _with_unit(one, body[0][n] if n < len(body[0]) else None) for n, one in columns.items()}
        body = body[1:]
    reader = _Reader(sheet, headings, columns, body, dates)
    for cells in body:
        reader.row(cells)
    people = reader.people(skip_rows)
    errors = sorted([*(one for one in findings if one.level == "error"), *reader.errors])
    if errors:
        raise UserError([*errors, *(one for one in findings if one.level != "error")])
    if not people:
        raise UserError([Finding(display, 0, 0, "no-athletes", "there is no row below the headings", "add some rows")])
    return SheetRead(people, [*findings, *reader.notes])


def _columns(rows: list[list[Cell]], headings: Headings, display: str) -> tuple[int, dict[int, Meaning], list[Finding]]:
    """The row of headings, what each of its columns means, and what is wrong with it. UserError where there is none."""
    at, known = heading_row(rows, lambda cell: None if cell.value is None else headings.meaning(cell.text))
    fields = {one.person.field for one in known.values() if one.person}
    if len(known) < 2 or not {"id", "name"} & fields:
        message = "no row of headings with a name was found in the first rows"
        hint = "jumpblock squad sheet makes a sheet to fill; other headings go into templates/sheets"
        raise UserError([Finding(display, 0, 0, "no-headings", message, hint)])
    findings = []
    first: dict[tuple[object, ...], Cell] = {}
    for n, meaning in known.items():
        earlier = first.setdefault(meaning.key, rows[at][n])
        if earlier is not rows[at][n]:
            message = f"'{rows[at][n].text}' means the same as '{earlier.text}'"
            findings.append(rows[at][n].finding("column-twice", message, "delete one of the columns, or rename it"))
    for n, cell in enumerate(rows[at]):
        if cell.problem:
            findings.append(cell.finding("error-cell", *cell.problem))
        elif cell.value is not None and n not in known:
            close = headings.close(cell.text)
            hint = f"did you mean '{close}'?" if close else "add it to templates/sheets, or leave it as your own"
            unread = cell.finding("column-not-read", f"the column '{cell.text[:60]}' is not read", hint)
            findings.append(replace(unread, level="warning"))
    return at, known, findings


def _with_unit(meaning: Meaning, cell: Cell | None) -> Meaning:
    unit = cell.text.strip("()[] ") if cell is not None else ""
    return replace(meaning, unit=unit) if unit else meaning


@dataclass
class _Row:
    """The values of one row by column, and what is wrong with it."""

    place: Cell
    values: dict[int, Read] = field(default_factory=dict)
    trial: Meaning | None = None  # in a sheet with one row a trial: what the row measures
    findings: list[Finding] = field(default_factory=list)
    bad: list[int] = field(default_factory=list)  # columns whose cell was not read


class _Reader:
    def __init__(
        self,
        sheet: TestSheet,
        headings: Headings,
        columns: dict[int, Meaning],
        body: list[list[Cell]],
        dates: DateOrder | None,
    ) -> None:
        self._sheet, self._headings, self._columns = sheet, headings, columns
        self._nothing = set(sheet.nothing)
        self._example = next((n for n, one in columns.items() if one.person and one.person.field == "name"), None)
        kept = [row for row in body if not self._is_example(row)]
        self._styles = {n: style_of((row[n] for row in kept if n < len(row)), dates) for n in columns}
        self._types = {n: type_of(one) for n, one in columns.items()}
        self._long = {one.long: n for n, one in columns.items() if one.long}
        self._rows: list[_Row] = []
        self.errors: list[Finding] = []
        self.notes: list[Finding] = []

    def _is_example(self, row: Sequence[Cell]) -> bool:
        n = self._example
        return n is not None and n < len(row) and row[n].text.casefold().startswith(EXAMPLE_MARK)

    def row(self, cells: list[Cell]) -> None:
        """Read the cells of a row, each by its own column."""
        there = {n: cells[n] for n in self._columns if n < len(cells) and cells[n].value is not None}
        there = {n: cell for n, cell in there.items() if cell.problem or cell.text.casefold() not in self._nothing}
        if not there or self._is_example(cells):
            return
        row = _Row(next(iter(there.values())))
        self._rows.append(row)
        for n, cell in there.items():
            if cell.problem:
                row.findings.append(self._at(cell, n, "error-cell", *cell.problem))
                row.bad.append(n)
                continue
            kind = self._types[n]
            if kind is None:
                row.values[n] = Read(cell.text, cell)
                continue
            person = self._columns[n].person
            self._take(row, n, cell, kind, self._columns[n].unit, person.words if person else None)
        if self._long.keys() >= {"test", "value"}:
            self._trial(row, there)

    def _at(self, cell: Cell, n: int, code: str, message: str, hint: str) -> Finding:
        """In a text file, where a cell has no name of its own, the finding says its column."""
        said = message if not cell.line else f"{self._columns[n].heading}: {message}"
        return cell.finding(code, said, hint)

    def _take(
        self, row: _Row, n: int, cell: Cell, kind: FieldType, unit: str | None, words: dict[str, str] | None
    ) -> Data:
        try:
            value = value_of(cell, kind, self._styles[n], unit, words)
        except ValueProblem as trouble:
            row.findings.append(self._at(cell, n, trouble.code, trouble.message, trouble.hint))
            row.bad.append(n)
            return None
        row.values[n] = Read(value, cell)
        return value

    def _trial(self, row: _Row, there: dict[int, Cell]) -> None:
        """A row of one trial: its value is read by what its test, side and unit say."""
        test_at, value_at = self._long["test"], self._long["value"]
        named, value = there.get(test_at), there.get(value_at)
        if named is None or value is None or named.problem or value.problem:
            if (named is None) != (value is None):
                cell, what = (named, "value") if named is not None else (value, "test")
                assert cell is not None
                row.findings.append(cell.finding("not-whole", f"this row has no {what}", "fill it, or delete the row"))
            row.values.pop(value_at, None)
            return
        row.values.pop(value_at, None)
        meaning = self._headings.meaning(named.text)
        if meaning is None or meaning.test is None:
            names = [test.heading for test in self._sheet.tests]
            message = f"'{named.text[:60]}' is not a test of the battery"
            row.findings.append(self._at(named, test_at, "unknown-test", message, did_you_mean(named.text, names)))
            return
        meaning = self._of_row(meaning, row, there)
        kind = type_of(meaning)
        if kind is not None:
            self._take(row, value_at, value, kind, meaning.unit, None)
            row.values[test_at] = Read(named.text, named)
            row.trial = meaning

    def _of_row(self, meaning: Meaning, row: _Row, there: dict[int, Cell]) -> Meaning:
        """The test with the row's own side, trial and unit."""
        for name, code in (("side", "not-a-side"), ("trial", "not-a-trial"), ("unit", "not-a-unit")):
            n = self._long.get(name)  # type: ignore[call-overload]
            cell = there.get(n) if n is not None else None
            if cell is None or n is None:
                continue
            text = cell.text.strip("()[] ")
            if name == "side":
                side = self._headings.side(text)
                meaning = replace(meaning, side=side)
                good = side is not None or folded(text) in ("both", "two")
            elif name == "trial":
                good = text.isdecimal() and 1 <= int(text) <= 12
                meaning = replace(meaning, trial=int(text) if good else None)
            else:
                good = text in ALL_UNITS
                meaning = replace(meaning, unit=text)
            if not good:
                message = f"'{text[:40]}' is not a {name}"
                hint = {"side": "write left or right", "trial": "write 1 to 12", "unit": "write a unit such as cm"}[
                    name
                ]
                row.findings.append(self._at(cell, n, code, message, hint))
        n = self._long["value"]
        if meaning.unit is None:
            meaning = replace(meaning, unit=self._columns[n].unit)
        return meaning

    def people(self, skip_rows: bool) -> list[SheetPerson]:
        """The athletes of all rows, in the order of the sheet."""
        found = People(one_row_each="test" not in self._long)
        for row in self._rows:
            said = self._person_values(row)
            unread = {one.field for n in row.bad if (one := self._columns[n].person) is not None}
            named = "id" in said or "name" in said
            if named or not unread & {"id", "name"}:  # else the finding of that cell is enough
                problems = list(found.problems(row.place, said))
                row.findings += problems
                if not problems and not (skip_rows and row.findings):
                    row.findings += self._add_tests(found.person(row.place, said), row, "date" in unread)
            if skip_rows:
                self.notes += [replace(one, level="warning", hint="the row is left out") for one in row.findings]
            else:
                self.errors += row.findings
        return list(found.by_key.values())

    def _person_values(self, row: _Row) -> dict[str, Read]:
        people = {n: one.person.field for n, one in self._columns.items() if one.person}
        return {name: row.values[n] for n, name in people.items() if n in row.values}

    def _add_tests(self, person: SheetPerson, row: _Row, date_unread: bool) -> Iterator[Finding]:
        date = self._person_values(row).get("date")
        figures = [(n, one) for n, one in self._columns.items() if one.test is not None and n in row.values]
        if row.trial is not None:
            figures.append((self._long["value"], row.trial))
        if date_unread:
            return
        if figures and date is None:
            cell = row.values[figures[0][0]].cell
            message = f"{person.called} has a test without its date"
            yield cell.finding("no-date", message, "fill the test date of the row")
            return
        for n, meaning in figures:
            assert date is not None
            yield from add_figure(person, meaning, date, row.values[n])
