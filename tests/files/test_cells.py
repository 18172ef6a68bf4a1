"""Cells of a sheet as they are read: where each is, what is left out, what a sheet says that is none."""

from __future__ import annotations

from pathlib import Path

import pytest
from openpyxl import Workbook

from planner.domain.findings import UserError
from planner.files.cells import Cell, heading_row, read_rows

EMPTY_ROWS = 1200  # more than any coach leaves between two rows


def told(rows: list[list[Cell]]) -> list[list[tuple[str, int, int]]]:
    return [[(cell.text, cell.line, cell.column) for cell in row] for row in rows]


def table(folder: Path, text: str) -> list[list[Cell]]:
    path = folder / "sheet.csv"
    path.write_bytes(text.encode())
    return read_rows(path, "sheet.csv")


def test_a_cell_of_a_table_knows_its_line_though_a_cell_before_goes_over_two(tmp_path: Path) -> None:
    rows = table(tmp_path, 'who,why\nAna,"two\nlines"\n\nBen,\n')
    assert told(rows) == [
        [("who", 1, 1), ("why", 1, 2)],
        [("Ana", 2, 1), ("two\nlines", 2, 2)],
        [("Ben", 5, 1), ("", 5, 2)],
    ]


@pytest.mark.parametrize("text", ["sep=;\nwho;jump\nAna;3,1\n", "who;jump\nAna;3,1\n", "who\tjump\nAna\t3,1\n"])
def test_fields_are_parted_by_what_the_first_line_says_or_has_most_of(tmp_path: Path, text: str) -> None:
    assert [[cell.text for cell in row] for row in table(tmp_path, text)] == [["who", "jump"], ["Ana", "3,1"]]


def test_an_error_of_a_formula_is_told_in_its_cell_and_nothing_else_is(tmp_path: Path) -> None:
    [(error, fine)] = [tuple(row) for row in table(tmp_path, "#DIV/0!,3.1\n")]
    assert "#DIV/0!" in error.problem[0] and fine.problem == ()
    finding = error.finding("cell-error", "message", "hint")
    assert (finding.path, finding.line, finding.column) == ("sheet.csv", 1, 1)


@pytest.mark.parametrize(
    ("name", "raw", "code", "line", "column"),
    [
        ("a.csv", b"who\nAna\n\xff\n", "not-utf-8", 3, 1),
        ("a.xlsx", b"no workbook", "not-a-workbook", 0, 0),
    ],
)
def test_what_is_no_sheet_is_told_of_its_line_or_of_the_file(
    tmp_path: Path, name: str, raw: bytes, code: str, line: int, column: int
) -> None:
    (tmp_path / name).write_bytes(raw)
    with pytest.raises(UserError) as refused:
        read_rows(tmp_path / name, name)
    (finding,) = refused.value.findings
    assert (finding.path, finding.code, finding.line, finding.column) == (name, code, line, column)


def test_a_long_workbook_with_an_empty_column_is_read_to_its_end_and_one_with_a_gap_to_the_gap(tmp_path: Path) -> None:
    book = Workbook()
    for number in range(EMPTY_ROWS):
        book.active.append([number, "filled" if number == 0 else None])
    book.active.cell(row=3 * EMPTY_ROWS, column=1).value = "far below"
    book.save(tmp_path / "long.xlsx")
    rows = read_rows(tmp_path / "long.xlsx", "long.xlsx")
    assert len(rows) == EMPTY_ROWS and rows[-1][0].text == str(EMPTY_ROWS - 1)
    assert rows[-1][0].path == f"long.xlsx:Sheet!A{EMPTY_ROWS}"


def test_the_headings_are_the_row_with_the_most_that_are_known(tmp_path: Path) -> None:
    rows = table(tmp_path, "who,of 2026\n,\nwho,jump\nAna,3.1\n")
    known = {"who": "name", "jump": "touch"}
    assert heading_row(rows, lambda cell: known.get(cell.text)) == (1, {0: "name", 1: "touch"})
    assert heading_row(rows[:1], lambda cell: known.get(cell.text)) == (0, {0: "name"})
