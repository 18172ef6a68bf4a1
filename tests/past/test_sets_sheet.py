"""Spreadsheets of sets: read as meant, and every cell that is not is told by its place."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook, load_workbook

from planner.domain.findings import Finding, UserError
from planner.files.load import load_follow_up
from planner.files.locate import locate_follow_up
from planner.files.sets_sheet import SheetSession, read_sets
from planner.units import POUND_kg
from tests.past.logs import block

HEADINGS = load_follow_up(locate_follow_up().path).require().sheet
DAY = datetime.date(2026, 1, 5)
HEAD: list[Any] = ["Session", "Date", "Exercise", "Set", "Load (kg)", "Reps", "RIR", "Effort"]
SQUAT = "Back squat, full depth"
ROWS: list[list[Any]] = [
    ["w1s1", DAY, SQUAT, 1, 100, 6, 4, 7],
    ["w1s1", DAY, SQUAT, 3, 105, 5, None, None],
    ["w1s1", DAY, SQUAT, 2, 100, 6, 3, None],
    [None, datetime.date(2026, 1, 6), "1", None, None, 6, None, None],
]


def xlsx(folder: Path, rows: list[list[Any]], *before: list[Any]) -> Path:
    book = Workbook()
    sheet = book.active
    sheet.title = "Log"
    for row in (*before, HEAD, *rows):
        sheet.append(row)
    book.save(folder / "sets.xlsx")
    return folder / "sets.xlsx"


def read(path: Path) -> list[SheetSession]:
    return read_sets(path, path.name, HEADINGS, block())


def refused(path: Path) -> list[Finding]:
    with pytest.raises(UserError) as refusal:
        read(path)
    return refusal.value.findings


def test_rows_become_items_of_sessions(tmp_path: Path) -> None:
    first, second = read(xlsx(tmp_path, ROWS, ["My log of sets"], []))
    assert (first.session.id, first.date, first.effort) == ("w1s1", DAY, 7)
    (squat,) = first.items
    assert (squat.item, squat.loads, squat.reps, squat.reps_in_reserve) == (
        "w1s1i4", (100.0, 100.0, 105.0), (6, 6, 5), (4, 3),
    )  # fmt: skip
    assert (second.session.id, second.items[0].item, second.items[0].sets) == ("w1s2", "w1s2i1", None)
    assert second.items[0].reps == (6, 6, 6, 6)  # a lone row without the number of its set is every set


@pytest.mark.parametrize(
    "text",
    [
        "\ufeffsession,exercise,load,reps\nw1s1,4,100 kg,6\n",
        "sep=;\nsession;exercise;load (kg);reps\nw1s1;4;100;6\n",
        "session\texercise\tload\treps\r\nw1s1\t4\t100 kg\t6\r\n",
        'session,exercise,load,reps\n"w1s1","w1s1i4","100 kg","6"\n',
    ],
)
def test_csv_of_any_sort(tmp_path: Path, text: str) -> None:
    path = tmp_path / "sets.csv"
    path.write_text(text, "utf-8", newline="")
    (one,) = read(path)
    assert (one.items[0].item, one.items[0].load, one.items[0].reps) == ("w1s1i4", 100.0, (6,) * 4)


def test_the_unit_of_a_heading_and_of_a_cell(tmp_path: Path) -> None:
    path = tmp_path / "sets.csv"
    path.write_text("session,exercise,load (lb),reps\nw1s1,4,220,6\nw1s1,5,22.5 kg,8\n")
    squat, split = read(path)[0].items
    assert squat.load == pytest.approx(220 * POUND_kg) and split.load == 22.5


CELLS: dict[str, tuple[int, int, Any, str, str, str]] = {  # row and column to change, value, cell, code, words
    "no such movement": (0, 2, "Bak squat, full depth", "C2", "unknown-movement", "did you mean 'Back squat, full"),
    "no such session": (0, 0, "w11s1", "A2", "unknown-session", "did you mean 'w1s1'?"),
    "reps in words": (1, 5, "five", "F3", "not-a-count", "correct"),
    "half a rep": (1, 5, 5.5, "F3", "not-a-count", "correct"),
    "yes": (1, 5, True, "F3", "not-a-count", "correct"),
    "a load in words": (1, 4, "heavy", "E3", "quantity", "kg"),
    "thousands or decimals": (1, 4, "102,500", "E3", "quantity", "102.500"),
    "effort 11": (0, 7, 11, "H2", "not-a-count", "correct"),
    "a day in another order": (0, 1, "2/3/2026", "B2", "not-a-date", "year-month-day"),
    "a day without a session": (3, 1, datetime.date(2026, 1, 7), "B5", "unknown-session", "add a column 'session'"),
    "a formula never worked out": (1, 4, "=E2+5", "E3", "error-cell", "open the file once"),
}  # fmt: skip


@pytest.mark.parametrize("name", CELLS)
def test_a_wrong_cell_is_told_by_its_place(name: str, tmp_path: Path) -> None:
    row, column, value, cell, code, words = CELLS[name]
    rows = [list(one) for one in ROWS]
    rows[row][column] = value
    (found,) = refused(xlsx(tmp_path, rows))
    assert (found.path, found.code) == (f"sets.xlsx:Log!{cell}", code)
    assert words in f"{found.message}; {found.hint}"


def test_all_wrong_cells_are_told_at_once(tmp_path: Path) -> None:
    rows = [["w1s1", DAY, "nothing", 1, "x", "y", None, 11], ["w8s8", None, None, None, None, None, None, None]]
    assert [one.path.rpartition("!")[2] for one in refused(xlsx(tmp_path, rows))] == ["A3", "C2", "E2", "F2", "H2"]


def test_an_error_cell(tmp_path: Path) -> None:
    path = xlsx(tmp_path, ROWS)
    book = load_workbook(path)
    book.active["F2"].value, book.active["F2"].data_type = "#DIV/0!", "e"
    book.save(path)
    assert [(one.path, one.code) for one in refused(path)] == [("sets.xlsx:Log!F2", "error-cell")]


def test_csv_findings_name_line_and_column(tmp_path: Path) -> None:
    path = tmp_path / "sets.csv"
    path.write_text("session,exercise,load,reps\nw1s1,4,100,6\n")
    (found,) = refused(path)
    assert (found.path, found.line, found.column) == ("sets.csv", 2, 3)
    assert "100 has no unit" in found.message and "load (kg)" in found.hint


@pytest.mark.parametrize("raw", [b"", b"PK\x03\x04 not a workbook", b"\xff\xfe\x00", b"a,b\n1,2\n", b"\n" * 5000])
@pytest.mark.parametrize("name", ["sets.xlsx", "sets.csv"])
def test_no_file_is_a_traceback(raw: bytes, name: str, tmp_path: Path) -> None:
    (tmp_path / name).write_bytes(raw)
    assert refused(tmp_path / name)


def test_what_a_sheet_says_of_the_session(tmp_path: Path) -> None:
    path = tmp_path / "sets.csv"
    path.write_text(
        "session,minutes,pain,missed,written,body mass (kg),note\n"
        "w1s1,66,left patellar-knee 1 3 2; low-back 0 1,,Next-day,81.4,slept badly\nw1s2,,,ill,,,\n"
    )
    first, second = read(path)
    assert (first.minutes, first.written, first.body_mass, first.note) == (66, "next-day", 81.4, "slept badly")
    assert [(one.joint, one.worst) for one in first.pain or ()] == [("patellar-knee", 3), ("low-back", 1)]
    assert second.missed == "ill"


@pytest.mark.parametrize(
    ("row", "column", "code"),
    [("left elbow 3,,", 2, "not-a-pain"), (",lazy,", 3, "no-reason"), (",,yesterday", 4, "not-a-choice")],
)
def test_words_of_the_session_that_are_not_known(tmp_path: Path, row: str, column: int, code: str) -> None:
    path = tmp_path / "sets.csv"
    path.write_text(f"session,pain,missed,written\nw1s1,{row}\n")
    (found,) = refused(path)
    assert (found.line, found.column, found.code) == (2, column, code)
