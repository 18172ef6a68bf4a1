"""Sheets of tests: read as meant in either form, and every cell that is not is told by its place, all at once."""

from __future__ import annotations

import datetime
import io
import re
import warnings
import zipfile
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook, load_workbook

from planner.domain.findings import Finding, UserError
from planner.files.squad_tests_sheet import SheetRead, read_squad_tests
from planner.jobs.new_squad_sheet import filled_sheet, new_squad_sheet
from tests.squads.drawn import battery, columns, rows

DAY = datetime.date(2026, 3, 7)
HEAD: list[Any] = ["Athlete", "Test date", "Born", "Weight (kg)", "Touch 1 (cm)", "Touch 2 (cm)", "Squat load (kg)"]
HEAD += ["Squat reps", "Left heel raises"]
ADA: list[Any] = ["Ada", DAY, datetime.date(2004, 1, 2), 61.5, 281, 283, 80, 4, 25]


def xlsx(folder: Path, *rows: list[Any], head: list[Any] = HEAD) -> Path:
    book = Workbook()
    sheet = book.active
    sheet.title = "Tests"
    for row in (head, *rows):
        sheet.append(row)
    book.save(folder / "tests.xlsx")
    return folder / "tests.xlsx"


def text(folder: Path, *lines: str) -> Path:
    path = folder / "tests.csv"
    path.write_text("\n".join(lines), "utf-8")
    return path


def as_stored(path: Path, cell: str, figure: str) -> Path:
    """A workbook with another figure in a cell that holds one: also what the package would not write."""
    with zipfile.ZipFile(path) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    sheet = "xl/worksheets/sheet1.xml"
    before = rf'(<c r="{cell}"[^>]*><v>)[^<]*'.encode()
    parts[sheet] = re.sub(before, lambda found: found.group(1) + figure.encode(), parts[sheet])
    with zipfile.ZipFile(path, "w") as packed:
        for name, raw in parts.items():
            packed.writestr(name, raw)
    return path


def read(path: Path, **said: Any) -> SheetRead:
    return read_squad_tests(path, path.name, battery(), **said)


def refused(path: Path, **said: Any) -> list[Finding]:
    with pytest.raises(UserError) as refusal:
        read(path, **said)
    return refusal.value.findings


def places(path: Path, **said: Any) -> list[tuple[str, str]]:
    """Cell (or line) and code of each error."""
    found = [one for one in refused(path, **said) if one.level == "error"]
    return [(f"line {one.line}" if one.line else one.path.rpartition("!")[2], one.code) for one in found]


def figures(sheet: SheetRead) -> list[tuple[str, Any]]:
    return [
        (day.test.id, [(*key, read.value) for key, read in day.figures.items()])
        for person in sheet.people
        for day in person.tests
    ]


def test_a_row_an_athlete(tmp_path: Path) -> None:
    (ada,) = read(xlsx(tmp_path, ADA)).people
    assert {name: one.value for name, one in ada.fields.items()} == {
        "name": "Ada", "date": DAY, "birth_date": datetime.date(2004, 1, 2), "body_mass": "61.5 kg",
    }  # fmt: skip
    assert figures(SheetRead([ada], [])) == [
        ("touch-run-up", [(1, "trials", None, "281 cm"), (2, "trials", None, "283 cm")]),
        ("back-squat", [(1, "load", None, "80 kg"), (1, "reps", None, 4)]),
        ("heel-raise", [(1, "trials", "left", 25)]),
    ]


def test_a_row_a_trial_gives_the_same(tmp_path: Path) -> None:
    path = text(
        tmp_path,
        "sep=;",
        "name;date;test;side;attempt;value;unit",
        "Ada;2026-03-07;touch;;2;2.83;m",
        "Ada;2026-03-07;touch;;1;281 cm;",
        "Ada;2026-03-07;back squat load;;;80;kg",
        "Ada;2026-03-07;back squat reps;;;4;",
        "Ada;2026-03-07;heel raises;L;;25;",
    )
    assert figures(read(path)) == [
        ("touch-run-up", [(2, "trials", None, "2.83 m"), (1, "trials", None, "281 cm")]),
        ("back-squat", [(1, "load", None, "80 kg"), (1, "reps", None, 4)]),
        ("heel-raise", [(1, "trials", "left", 25)]),
    ]


def test_units_from_a_row_of_their_own(tmp_path: Path) -> None:
    path = text(tmp_path, "name,date,touch 1,squat load,squat reps", ",,cm,(lb),", "Ada,2026-03-07,281,180,4")
    assert [value for _, found in figures(read(path)) for *_, value in found] == ["281 cm", "180 lb", 4]


@pytest.mark.parametrize("mark", ["", "\ufeff"])
@pytest.mark.parametrize("between", [",", ";", "\t"])
def test_text_in_any_dress(tmp_path: Path, mark: str, between: str) -> None:
    lines = [between.join(["name", "date", "touch 1 (m)"]), between.join(["Ada", "2026-03-07", "2.81"])]
    lines[0] = mark + lines[0]
    assert figures(read(text(tmp_path, *lines))) == [("touch-run-up", [(1, "trials", None, "2.81 m")])]


def test_a_decimal_comma_counts_where_the_whole_column_has_it(tmp_path: Path) -> None:
    head, rows_ = "name;date;weight (kg)", ["Ada;2026-03-07;61,5", "Bo;2026-03-07;70"]
    assert [one.fields["body_mass"].value for one in read(text(tmp_path, head, *rows_)).people] == ["61.5 kg", "70 kg"]
    mixed = [*rows_, "Cy;2026-03-07;71.5"]
    assert places(text(tmp_path, head, *mixed)) == [("line 2", "comma-or-point")]
    thousand = ["Ada;2026-03-07;1,234"]
    assert places(text(tmp_path, head, *thousand)) == [("line 2", "comma-or-point")]


def test_days_that_may_be_two(tmp_path: Path) -> None:
    head = "name,date,touch 1 (cm)"
    open_ = [head, "Ada,2/3/2026,281", "Bo,4/4/2026,270"]
    assert places(text(tmp_path, *open_)) == [("line 2", "date-order")]  # the fourth of April is the same both ways
    for said, day in (("day-first", datetime.date(2026, 3, 2)), ("month-first", datetime.date(2026, 2, 3))):
        assert read(text(tmp_path, *open_), dates=said).people[0].fields["date"].value == day
    settled = [head, "Ada,2.3.2026,281", "Bo,13.3.2026,270"]
    assert read(text(tmp_path, *settled)).people[0].fields["date"].value == datetime.date(2026, 3, 2)
    both = [head, "Ada,13/3/2026,281", "Bo,3/13/2026,270"]
    assert places(text(tmp_path, *both)) == [("line 2", "date-order"), ("line 3", "date-order")]
    assert places(text(tmp_path, head, "Ada,31/2/2026,281", "Bo,1/3/26,270")) == [
        ("line 2", "not-a-date"), ("line 3", "not-a-date"),
    ]  # fmt: skip


def test_all_findings_at_once_each_at_its_cell(tmp_path: Path) -> None:
    wrong = ["Bo", DAY, True, "heavy", 2.81, -5, "=80", 4.5, "#N/A"]
    path = xlsx(tmp_path, ADA, wrong, ["Cy", None, None, None, 280], [None, DAY, None, 70])
    book = load_workbook(path)
    book.active["I3"].data_type = "e"
    book.save(path)
    assert places(path) == [
        ("B5", "no-name"), ("C3", "not-a-date"), ("D3", "quantity"), ("E3", "out-of-range"), ("E4", "no-date"),
        ("F3", "out-of-range"), ("G3", "error-cell"), ("H3", "not-a-count"), ("I3", "error-cell"),
    ]  # fmt: skip
    by_cell = {one.path.rpartition("!")[2]: one for one in refused(path)}
    assert "in m or yd it would fit" in by_cell["E3"].hint
    assert "save it" in by_cell["G3"].hint  # a formula without a stored result


def test_text_findings_say_line_and_column(tmp_path: Path) -> None:
    (found,) = refused(text(tmp_path, "name,date,touch 1 (cm)", "Ada,2026-03-07,far"))
    assert (found.path, found.line, found.column) == ("tests.csv", 2, 3)
    assert found.message.startswith("touch 1 (cm): 'far'")


def test_merged_cells_are_told(tmp_path: Path) -> None:
    path = xlsx(tmp_path, ADA, ["Bo", DAY, None, 70, 280])
    book = load_workbook(path)
    book.active.merge_cells("E2:E3")
    book.save(path)
    assert places(path) == [("E2", "error-cell"), ("E3", "error-cell")]


def test_rows_with_findings_may_be_left_out(tmp_path: Path) -> None:
    path = text(tmp_path, "name,date,touch 1 (cm)", "Ada,2026-03-07,far", "Bo,2026-03-07,280")
    found = read(path, skip_rows=True)
    assert [person.name for person in found.people] == ["Bo"]
    assert [(one.line, one.level) for one in found.notes] == [(2, "warning")]


def test_two_athletes_of_one_name(tmp_path: Path) -> None:
    head = "id,name,date,born,touch 1 (cm)"
    twice = [head, ",Ada,2026-03-07,2004-01-02,281", ",Ada,2026-03-07,2006-01-02,270"]
    assert places(text(tmp_path, *twice)) == [("line 3", "name-twice")]
    with_ids = [head, "a1,Ada,2026-03-07,2004-01-02,281", "a2,Ada,2026-03-07,2006-01-02,270"]
    assert len(read(text(tmp_path, *with_ids)).people) == 2
    unknown = [head, ",Ada,2026-03-07,,281", ",Ada,2026-03-14,,270"]
    assert places(text(tmp_path, *unknown)) == [("line 3", "name-twice")]
    another_day = [head, ",Ada,2026-03-07,2004-01-02,281", ",Ada,2026-03-14,2004-01-02,283"]
    assert len(read(text(tmp_path, *another_day)).people[0].tests) == 2


def test_headings(tmp_path: Path) -> None:
    path = text(tmp_path, "name,date,touch 1 (cm),tuoch 2 (cm),my column", "Ada,2026-03-07,281,282,x")
    assert [(one.code, one.level, one.hint[:18]) for one in read(path).notes] == [
        ("column-not-read", "warning", "did you mean 'touc"), ("column-not-read", "warning", "add it to template"),
    ]  # fmt: skip
    assert places(text(tmp_path, "name,date,touch 1 (cm),approach touch 1 (cm)", "Ada,2026-03-07,1,2"))[0] == (
        "line 1", "column-twice",
    )  # fmt: skip
    assert places(text(tmp_path, "a,b,c", "1,2,3")) == [("tests.csv", "no-headings")]
    assert places(text(tmp_path, "name,date,heel raises", "Ada,2026-03-07,25")) == [("line 2", "side-missing")]


def test_a_million_empty_rows_cost_nothing(tmp_path: Path) -> None:
    path = xlsx(tmp_path, ADA)
    book = load_workbook(path)
    book.active.cell(1_000_000, 9).number_format = "0.0"
    book.save(path)
    assert len(read(path).people) == 1
    lines = ["name,date,touch 1 (cm)", "Ada,2026-03-07,281", *[",,"] * 1_000_000]
    assert len(read(text(tmp_path, *lines)).people) == 1


@pytest.mark.parametrize("as_csv", [False, True])
def test_out_and_in_loses_nothing(tmp_path: Path, as_csv: bool) -> None:
    path = tmp_path / ("tests.csv" if as_csv else "tests.xlsx")
    drawn = rows(12, 3)
    drawn[0][1], drawn[1][1] = "=1+1", "'@Bo"
    path.write_bytes(filled_sheet(battery(), (), drawn, as_csv=as_csv))
    read_back = read(path)
    assert not read_back.notes
    for row, person in zip(drawn, read_back.people, strict=True):
        said = {one.person.field: value for one, value in zip(columns(), row, strict=True) if one.person}
        assert person.name == said["name"]
        assert person.fields["body_mass"].value == f"{said['body_mass']:.10g} kg"
        written = [value for one, value in zip(columns(), row, strict=True) if one.test and value is not None]
        assert len(written) == sum(len(day.figures) for day in person.tests)


def test_a_new_sheet_has_no_formula_and_the_same_bytes(tmp_path: Path) -> None:
    path = tmp_path / "tests.xlsx"
    path.write_bytes(new_squad_sheet())
    assert path.read_bytes() == new_squad_sheet()
    book = load_workbook(path)
    assert [(sheet.title, sheet.sheet_state) for sheet in book] == [("Tests", "visible"), ("about", "hidden")]
    assert [cell.value for cell in book["about"][1]] == ["file", "tests/1"]
    assert book.active.freeze_panes == "C2"
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row]
    assert not [cell.coordinate for cell in cells if cell.data_type == "f"]
    assert places(path) == [("tests.xlsx", "no-athletes")]  # the example row is not read
    checks = {str(check.sqref): check for check in book.active.data_validations.dataValidation}
    assert checks["I2:I500"].formula1 == '"one-leg left,one-leg right,two-leg"'


def test_only_the_tests_asked_for() -> None:
    heads = new_squad_sheet(tests=("one-leg-hop",), as_csv=True).decode("utf-8-sig").splitlines()[0]
    assert heads.endswith(
        "one-leg hop left 1 (cm),one-leg hop left 2 (cm),one-leg hop right 1 (cm),one-leg hop right 2 (cm)"
    )
    with pytest.raises(UserError) as refusal:
        new_squad_sheet(tests=("one-leg-hob",))
    assert "one-leg-hop" in refusal.value.findings[0].hint


@pytest.mark.parametrize("error", ["#DIV/0!", "#N/A", "#VALUE!", "#NV", "#ÜBERLAUF!", "Err:502"])
def test_an_error_that_was_saved_as_text_is_no_name_and_no_figure(tmp_path: Path, error: str) -> None:
    path = text(tmp_path, "name,date,touch 1 (cm)", f"{error},2026-03-07,281", f"Bo,2026-03-07,{error}")
    assert places(path) == [("line 2", "error-cell"), ("line 3", "error-cell")]


def test_a_figure_too_long_for_any_program_is_told(tmp_path: Path) -> None:
    path = as_stored(xlsx(tmp_path, ADA), "D2", "9" * 400)
    (found,) = refused(path)
    assert found.path.endswith("!D2") and found.message.endswith("is not a finite number")


def test_a_day_with_a_time_is_that_day(tmp_path: Path) -> None:
    head = "name,date,born,touch 1 (cm)"
    path = text(tmp_path, head, "Ada,2026-03-07 00:00:00,13/2/2004 00:00,281", "Bo,2026-03-07T09:30,1/3/2004,270")
    assert [[str(one.fields[name].value) for name in ("date", "birth_date")] for one in read(path).people] == [
        ["2026-03-07", "2004-02-13"], ["2026-03-07", "2004-03-01"],
    ]  # fmt: skip


def test_a_cell_of_several_lines_moves_no_finding(tmp_path: Path) -> None:
    path = text(tmp_path, "name,date,my note,touch 1 (cm)", 'Ada,2026-03-07,"two', 'lines",far', "Bo,2026-03-07,,high")
    assert [place for place, _ in places(path)] == ["line 2", "line 4"]


def test_lines_that_end_in_the_old_way(tmp_path: Path) -> None:
    path = tmp_path / "tests.csv"
    path.write_bytes(b"name,date,touch 1 (cm)\rAda,2026-03-07,281\r")
    assert len(read(path).people) == 1


def test_a_new_sheet_shows_whole_years_and_keeps_ids_as_typed() -> None:
    sheet = load_workbook(io.BytesIO(new_squad_sheet())).active
    formats = {sheet[f"{letter}1"].value: sheet.column_dimensions[letter].number_format for letter in "ABCDEF"}
    assert formats == {
        "id": "@", "name": "@", "test date": "yyyy-mm-dd", "birth date": "yyyy-mm-dd", "sex": "General",
        "body mass (kg)": "General",
    }  # fmt: skip
    assert sheet["C300"].value is None


def test_what_a_package_warns_of_is_not_printed(tmp_path: Path) -> None:
    path = as_stored(xlsx(tmp_path, ADA), "B2", "1000000000")  # no such day
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        assert places(path) == [("B2", "error-cell")]
