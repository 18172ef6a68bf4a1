"""Athletes' files from a sheet: made, brought up to date, left alone; and nothing written where anything is wrong."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from openpyxl import load_workbook

from planner.files.load import load_athlete
from tests.cli.conftest import files_in
from tests.squads.conftest import DEMO
from tests.squads.renew_demo import demo_sheet

SHEET = DEMO / "demo-squad.xlsx"
SQUAD = ("--squad", DEMO / "demo-squad.yaml")
HEAD = "name,test date,birth date,body mass (kg),touch 1 (cm),touch 2 (cm),touch 3 (cm)"


def test_the_demo_sheet_is_what_its_generator_makes() -> None:
    assert SHEET.read_bytes() == demo_sheet()


def test_the_demo_squad_is_24_athletes_without_a_finding(made_club: Path, run: Any) -> None:
    assert len(list((made_club / "athletes").glob("*.yaml"))) == 24
    assert run("check", made_club / "athletes", made_club / "squad.yaml").code == 0


def test_the_squad_gives_days_gym_and_target(made_club: Path) -> None:
    ada = load_athlete(made_club / "athletes/ada-varga.yaml").require()
    assert [day.day for day in ada.training.days] == ["mon", "tue", "thu", "sat"]
    touches = next(test for test in ada.tests if test.kind == "touch")
    assert ada.target.touch == round(sum(touches.trials) / 3 + 0.07, 2)
    assert ada.equipment.runway == 40


def test_a_second_reading_changes_nothing(club: Path, run: Any) -> None:
    before = {path: path.read_bytes() for path in club.rglob("*.yaml")}
    assert run("squad", "read", SHEET, "-o", club / "athletes").out == "24 files already up to date.\n"
    assert before == {path: path.read_bytes() for path in club.rglob("*.yaml")}


def test_the_next_command_plans_the_files_that_were_written(club: Path, run: Any) -> None:
    told = run("squad", "read", SHEET, "-o", club / "athletes", "--squad", club / "squad.yaml")
    assert f"Next: jumpblock squad plan {club / 'squad.yaml'}" in told.err
    elsewhere = run("squad", "read", SHEET, "-o", club / "people", "--squad", club / "squad.yaml")
    assert f"Next: list {club / 'people'} under athletes" in elsewhere.err.replace("\n", " ").replace("   ", " ")


def test_a_retest_is_added_and_comments_stay(club: Path, run: Any) -> None:
    ada = club / "athletes/ada-varga.yaml"
    ada.write_text(ada.read_text("utf-8") + "# my own words\n", "utf-8")
    sheet = club / "retest.csv"
    sheet.write_text(f"{HEAD}\nAda Varga,2026-05-09,2005-02-03,56.5,279,280,\n", "utf-8")
    assert run("squad", "read", sheet, "-o", club / "athletes").out == (
        "1 file brought up to date:\n  ada-varga: body mass, 1 test\n"
    )
    text, athlete = ada.read_text("utf-8"), load_athlete(ada).require()
    assert "# my own words" in text and "body_mass: 56.5 kg" in text
    assert [str(test.date) for test in athlete.tests if test.kind == "touch"] == ["2026-03-07", "2026-05-09"]


def test_a_corrected_figure_replaces_the_one_of_that_day(club: Path, run: Any) -> None:
    sheet = club / "again.csv"
    sheet.write_text(f"{HEAD}\nAda Varga,2026-03-07,2005-02-03,,275,276,277\n", "utf-8")
    assert run("squad", "read", sheet, "-o", club / "athletes").code == 0
    athlete = load_athlete(club / "athletes/ada-varga.yaml").require()
    assert [test.trials for test in athlete.tests if test.kind == "touch"] == [(2.75, 2.76, 2.77)]


def test_an_earlier_day_brings_tests_but_no_body(club: Path, run: Any) -> None:
    sheet = club / "earlier.csv"
    sheet.write_text(f"{HEAD}\nAda Varga,2025-11-01,2005-02-03,50,270,,\n", "utf-8")
    run("squad", "read", sheet, "-o", club / "athletes")
    athlete = load_athlete(club / "athletes/ada-varga.yaml").require()
    assert athlete.body_mass == 55 and len([test for test in athlete.tests if test.kind == "touch"]) == 2


def test_one_wrong_cell_and_nothing_is_written(tmp_path: Path, run: Any) -> None:
    book = load_workbook(SHEET)
    book.active["F9"] = 830
    book.save(tmp_path / "tests.xlsx")
    found = run(
        "squad", "read", tmp_path / "tests.xlsx", "-o", tmp_path / "athletes", "--squad", DEMO / "demo-squad.yaml"
    )
    assert found.code == 1
    assert f"{tmp_path}/tests.xlsx:Tests!F9: [out-of-range] '830 kg' is outside 25 kg to 250 kg" in found.err
    assert files_in(tmp_path) == ["tests.xlsx"]


def test_what_only_the_whole_file_shows_is_told_at_its_cell(tmp_path: Path, run: Any) -> None:
    book = load_workbook(SHEET)
    book.active["T9"] = 200  # below the standing reach
    book.save(tmp_path / "tests.xlsx")
    words = ("squad", "read", tmp_path / "tests.xlsx", "-o", tmp_path / "athletes", *SQUAD)
    assert "Tests!T9: [touch-below-reach]" in run(*words).err


def test_a_new_athlete_needs_a_body_and_the_squads_file(tmp_path: Path, run: Any) -> None:
    sheet = tmp_path / "tests.csv"
    sheet.write_text(f"{HEAD}\nAda Varga,2026-03-07,2005-02-03,55,275,,\n", "utf-8")
    found = run("squad", "read", sheet, "-o", tmp_path / "athletes")
    assert found.code == 1 and "Ada Varga is new and has no stature, standing reach" in found.err
    words = ("squad", "read", SHEET, "-o", tmp_path / "athletes")
    assert "is new and has no training, target; give it in the squad's file: --squad" in run(*words).err


def test_a_missing_recent_load_is_told(tmp_path: Path, run: Any) -> None:
    book = load_workbook(SHEET)
    for column in "MNOP":
        book.active[f"{column}4"] = None
    book.save(tmp_path / "tests.xlsx")
    found = run(
        "squad", "read", tmp_path / "tests.xlsx", "-o", tmp_path / "athletes", "--squad", DEMO / "demo-squad.yaml"
    )
    assert "warning: [no-recent-load] no recent load is given for Bela Rossi:" in found.err


def test_another_birth_date_is_another_athlete(club: Path, run: Any) -> None:
    sheet = club / "other.csv"
    sheet.write_text(f"{HEAD}\nAda Varga,2026-05-09,1999-02-03,56.5,279,280,\n", "utf-8")
    found = run("squad", "read", sheet, "-o", club / "athletes")
    assert found.code == 1 and "[other-birth-date]" in found.err


def test_a_sheet_that_is_there_is_not_replaced(tmp_path: Path, run: Any) -> None:
    target = tmp_path / "tests.xlsx"
    assert run("squad", "sheet", "-o", target).code == 0
    target.write_bytes(b"filled in")
    assert run("squad", "sheet", "-o", target).code == 1
    assert target.read_bytes() == b"filled in"
    assert run("squad", "sheet", "-o", target, "--force").code == 0
