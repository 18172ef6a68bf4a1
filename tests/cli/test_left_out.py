"""What a coach left out is told once, with the line to write. No block is planned here."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.domain.athlete import Athlete
from planner.files.document import Loaded
from planner.files.load import load_athlete, load_library
from planner.jobs.left_out import left_out_of_plan, left_out_of_tests
from tests.cli.conftest import CHECKOUT
from tests.files.snippets import ATHLETE, changed

LIBRARY = load_library(CHECKOUT / "exercise_library").require()
FULL = """\
equipment: {items: [barbell, rack]}
recent_load: {weekly_contacts: 80, weekly_sprints: 4, weekly_working_sets: 30}
landing: holds"""


def athlete(tmp_path: Path, text: str) -> Loaded[Athlete]:
    (tmp_path / "nora.yaml").write_text(text, "utf-8")
    return load_athlete(tmp_path / "nora.yaml", "nora.yaml")


def test_a_full_file_is_told_nothing(tmp_path: Path) -> None:
    whole = changed("reps: 5}", "reps: 5, reps_in_reserve: 0}", changed("landing: holds", FULL)[0])[0]
    loaded = athlete(tmp_path, whole)
    assert [*left_out_of_plan(loaded, LIBRARY), *left_out_of_tests(loaded)] == []


@pytest.mark.parametrize("written", ["", "equipment: {items: [bands]}\n"])
def test_a_gym_without_what_the_tested_lift_needs(tmp_path: Path, written: str) -> None:
    text, line = changed("movement: back-squat", "movement: back-squat", f"{ATHLETE}{written}")
    found, _ = left_out_of_plan(athlete(tmp_path, text), LIBRARY)
    assert (found.code, found.level, found.line) == ("tested-without-equipment", "warning", line)
    assert "no barbell and no rack" in found.message and "Back squat" in found.message
    assert f"{{items: [{'bands, ' if written else ''}barbell, rack]}}" in found.hint


def test_the_line_for_the_usual_week_is_one_that_can_be_pasted(tmp_path: Path) -> None:
    (found,) = [one for one in left_out_of_plan(athlete(tmp_path, ATHLETE), LIBRARY) if one.code == "no-recent-load"]
    pasted = athlete(tmp_path, f"{ATHLETE}{found.hint[found.hint.index('recent_load:') :]}\n")
    assert pasted.require().recent_load is not None


def test_lifts_without_a_reserve_are_told_once(tmp_path: Path) -> None:
    more = "  - {kind: lift, date: 2025-03-01, movement: front-squat, load: 80 kg, reps: 5}\n"
    (found,) = left_out_of_tests(athlete(tmp_path, f"{ATHLETE}{more}"))
    assert "to failure (back-squat, front-squat)" in found.message and "reps_in_reserve: 2" in found.hint


def test_a_lift_that_no_curve_reads_is_told_once(run, tmp_path: Path) -> None:
    more = "  - {kind: lift, date: 2025-03-01, movement: front-squat, load: 80 kg, reps: 5, reps_in_reserve: 1}\n"
    (tmp_path / "nora.yaml").write_text(f"{ATHLETE}{more}", "utf-8")
    said = " ".join(run("gap", tmp_path / "nora.yaml").err.split())
    assert said.count("[tells-no-quality]") == 1
    assert "no curve for it: front squat, full depth; maximal strength is read from the back squat" in said


def test_the_gap_tells_of_the_reserve(run, tmp_path: Path) -> None:
    (tmp_path / "nora.yaml").write_text(ATHLETE, "utf-8")
    assert run("gap", tmp_path / "nora.yaml").err.count("[no-reserve]") == 1


def test_check_tells_of_the_missing_equipment_too(run, tmp_path: Path) -> None:
    (tmp_path / "nora.yaml").write_text(ATHLETE, "utf-8")
    done = run("check", tmp_path / "nora.yaml")
    assert done.code == 0 and done.out.count("[tested-without-equipment]") == 1
    assert "fine (1 warning)" in done.out


@pytest.mark.parametrize("pain", [2, 6])
def test_check_tells_of_pain_that_plan_refuses(run, tmp_path: Path, pain: int) -> None:
    sore = f"joints: [{{joint: achilles-ankle, side: left, pain: {pain}}}]\n"
    (tmp_path / "nora.yaml").write_text(f"{ATHLETE}{sore}", "utf-8")
    done = run("check", tmp_path / "nora.yaml")
    assert (done.code, done.out.count("warning: [pain]")) == (0, int(pain == 6))
