"""What cannot be in a file of tests for spreadsheets: each told on its line of the shipped file, changed there."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.files import load
from tests.solve.demos import ROOT

SHIPPED = (ROOT / "templates/sheets/standard.yaml").read_text("utf-8")
TOUCH = "    says: {take_off: own, run_up: true}\n    trials: 3\n"
FIGURES = "figures: [{field: trials, unit: cm, example: [283, 285, 284]}]"


def told(folder: Path, text: str) -> list[tuple[str, int]]:
    (folder / "sheet.yaml").write_text(text, "utf-8")
    return [(one.code, one.line) for one in load.load_test_sheet(folder / "sheet.yaml").findings]


def test_the_shipped_file_has_no_findings(tmp_path: Path) -> None:
    assert told(tmp_path, SHIPPED) == []


@pytest.mark.parametrize(
    ("old", "new", "code", "below"),
    [
        (TOUCH, f"{TOUCH}    sides: true\n", "sides-not-wanted", 2),
        (TOUCH, TOUCH.replace("take_off", "take_of"), "unknown-field", 0),
        (FIGURES, FIGURES.replace("field: trials", "field: trial"), "unknown-field", 0),
        (FIGURES, FIGURES.replace("cm", "kg"), "unknown-unit", 0),
        ("names: [cmj, jump with a dip]", "names: [cmj, sj]", "heading-twice", None),
        (
            "  - {field: name, heading: name, names: [athlete, full name, player], example: Nora Berg}\n",
            "",
            "no-column",
            -2,
        ),
    ],
)
def test_what_cannot_be_is_told_on_its_line(tmp_path: Path, old: str, new: str, code: str, below: int | None) -> None:
    """``below``: lines from the change to where it is told; None where that is the file as a whole."""
    assert SHIPPED.count(old) == 1
    changed_at = SHIPPED[: SHIPPED.index(old)].count("\n") + 1
    found = told(tmp_path, SHIPPED.replace(old, new))
    assert [one for one, _ in found] == [code]
    if below is not None:
        assert found[0][1] == changed_at + below
