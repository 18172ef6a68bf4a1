"""Checking files and folders of every kind, as the check command does."""

from __future__ import annotations

from pathlib import Path

import pytest

from files.snippets import ATHLETE, changed
from files.test_library_folder import EQUIPMENT, HOPS, SQUATS
from planner.domain.findings import Finding
from planner.files.file_checker import Checker

ROOT = Path(__file__).parents[2]


@pytest.fixture
def coach(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "exercise_library").mkdir()
    for name, text in (("equipment.yaml", EQUIPMENT), ("squats.yaml", SQUATS), ("hops.yaml", HOPS)):
        (tmp_path / "exercise_library" / name).write_text(text, "utf-8")
    (tmp_path / "athletes").mkdir()
    (tmp_path / "athletes/nora.yaml").write_text(ATHLETE, "utf-8")
    return tmp_path


def _places(findings: list[Finding]) -> list[str]:
    return [f"{finding.path}:{finding.line} {finding.code}" for finding in findings]


@pytest.mark.parametrize(
    "path", [".", "athletes", "athletes/nora.yaml", "exercise_library", "exercise_library/hops.yaml"]
)
def test_a_coachs_folder_without_findings(coach: Path, path: str) -> None:
    assert Checker().check(path) == []


@pytest.mark.parametrize("path", [".", "athletes", "athletes/nora.yaml", "./athletes/"])
def test_an_athlete_is_checked_against_the_coachs_own_library(coach: Path, path: str) -> None:
    text, line = changed("movement: back-squat", "movement: goblet-squat")  # in the shipped library, not in this one
    (coach / "athletes/nora.yaml").write_text(text, "utf-8")
    (found,) = Checker().check(path)
    assert (found.code, found.line) == ("unknown-movement", line)
    assert found.path.endswith("athletes/nora.yaml")


@pytest.mark.parametrize("path", [".", "exercise_library", "exercise_library/hops.yaml"])
def test_a_library_file_is_read_with_its_neighbours(coach: Path, path: str) -> None:
    text, line = changed("harder: knee-hop", "harder: knee-hopp", HOPS)
    (coach / "exercise_library/hops.yaml").write_text(text, "utf-8")
    found = _places([finding for finding in Checker().check(path) if finding.level == "error"])
    assert found == [f"exercise_library/hops.yaml:{line} unknown-movement"]


def test_of_a_single_library_file_only_its_own_findings_are_told(coach: Path) -> None:
    text, _ = changed("level: novice", "level: novis", HOPS)
    (coach / "exercise_library/hops.yaml").write_text(text, "utf-8")
    assert Checker().check("exercise_library/squats.yaml") == []
    assert len(Checker().check("exercise_library/hops.yaml")) == 1


def test_a_library_with_findings_is_said_to_the_athlete(coach: Path) -> None:
    (coach / "exercise_library/hops.yaml").write_text("file: movements/1\n", "utf-8")
    (found,) = Checker().check("athletes/nora.yaml")
    assert (found.code, found.level, found.path) == ("library-not-read", "warning", "exercise_library")


def test_missing_and_empty(coach: Path) -> None:
    (coach / "empty").mkdir()
    assert _places(Checker().check("empty")) == ["empty:0 nothing-to-check"]
    assert Checker().check("empty")[0].column == 0
    assert _places(Checker().check("none.yaml")) == ["none.yaml:0 cannot-read"]


def test_the_same_library_is_read_once(coach: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    read: list[str] = []
    from planner.files import file_checker

    load = file_checker.load_library
    monkeypatch.setattr(file_checker, "load_library", lambda *a: read.append(str(a[0])) or load(*a))
    checker = Checker()
    for _ in range(3):
        assert checker.check("athletes/nora.yaml") == []
    assert len(read) == 1


def test_rule_names_are_checked_where_they_are_known(coach: Path) -> None:
    allow = "allow: [{rule: hard-day, reason: a reason, date: 2025-01-01}]\nlanding: h"
    (coach / "athletes/nora.yaml").write_text(changed("landing: h", allow)[0], "utf-8")
    assert Checker().check("athletes/nora.yaml") == []
    assert [f.code for f in Checker(rule_ids=["hard-days"]).check("athletes/nora.yaml")] == ["unknown-rule"]


@pytest.mark.parametrize("name", ["exercise_library", "templates"])
def test_what_is_shipped_has_no_findings(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    assert _places(Checker().check(name)) == []
