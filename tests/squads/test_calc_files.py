"""Our sheet filled and saved by a spreadsheet program (``tests/squads/calc``) is read as it was typed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from planner.files.load import load_athlete
from planner.files.squad_tests_sheet import read_squad_tests
from tests.squads.calc.make import NAMES
from tests.squads.conftest import DEMO
from tests.squads.drawn import battery
from tests.squads.test_squad_tests_sheet import figures, places, refused

FILES = Path(__file__).parent / "calc"
FIGURES = [
    ("touch-run-up", [(1, "trials", None, "275 cm"), (2, "trials", None, "276 cm"), (3, "trials", None, "276 cm")]),
    ("contact-time", [(1, "trials", None, "187 ms"), (2, "trials", None, "204.5 ms")]),
    ("back-squat", [(1, "load", None, "45 kg"), (1, "reps", None, 4), (1, "reps_in_reserve", None, 2)]),
]


@pytest.mark.parametrize("name", ["filled.xlsx", "comma.csv", "semicolon.csv", "tab.csv", "german.csv"])
def test_headings_days_figures_and_results_of_formulas(name: str) -> None:
    found = read_squad_tests(FILES / name, name, battery(), dates="day-first" if name == "german.csv" else None)
    assert not found.notes
    assert tuple(person.name for person in found.people) == NAMES
    assert figures(found) == FIGURES * len(NAMES)
    for person in found.people:
        said = {field: str(read.value) for field, read in person.fields.items()}
        assert said["date"] == "2026-03-07" and said["body_mass"] == "55.5 kg"
        assert said["birth_date"] == ("2005-02-13" if name == "german.csv" else "2005-02-03")
        assert (said["take_off"], said["approach.steps"], said["sex"]) == ("one-leg right", "7", "female")


def test_days_that_a_german_program_writes_are_asked_for() -> None:
    assert places(FILES / "german.csv") == [(f"line {n}", "date-order") for n in range(3, 3 + len(NAMES))]


def test_another_encoding_is_told_at_its_line() -> None:
    assert places(FILES / "windows.csv") == [("line 4", "not-utf-8")]


CODES = {
    "E": "not-a-choice", "F": "quantity", "J": "not-a-count", "M": "not-a-number", "O": "error-cell",
    "R": "error-cell", "S": "error-cell", "T": "error-cell", "U": "out-of-range",
    "V": "out-of-range", "W": "error-cell", "X": "error-cell",
}  # fmt: skip


def test_errors_words_and_signs_are_told_at_their_cells() -> None:
    assert places(FILES / "wrong.xlsx") == [(f"{column}4", code) for column, code in CODES.items()]
    found = refused(FILES / "wrong.csv")
    assert [(one.line, one.column, one.code) for one in found] == [
        (4, ord(column) - 64, code) for column, code in CODES.items()
    ]


def test_athletes_files_from_it(tmp_path: Path, run: Any) -> None:
    words = ("squad", "read", FILES / "filled.xlsx", "-o", tmp_path / "athletes", "--squad", DEMO / "demo-squad.yaml")
    assert run(*words).code == 0
    made = [load_athlete(path).require().name for path in (tmp_path / "athletes").glob("*.yaml")]
    assert sorted(made) == sorted(NAMES)
    assert "8 files already up to date" in run(*words).out
