"""Where the library and the templates come from, and how that is told."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.domain.findings import UserError
from planner.files.locate import (
    locate_benchmarks,
    locate_library,
    locate_template,
    locate_templates,
    packaged,
    template_names,
)


@pytest.fixture
def coach(tmp_path: Path) -> Path:
    for folder in ("exercise_library", "templates/blocks", "season/athletes"):
        (tmp_path / folder).mkdir(parents=True)
    (tmp_path / "templates/blocks/mine.yaml").write_text("file: template/1\n")
    (tmp_path / "season/athletes/nora.yaml").write_text("file: athlete/1\n")
    return tmp_path


def test_option_goes_first(coach: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(coach)
    (coach / "other").mkdir()
    located = locate_library("other", "season/athletes/nora.yaml")
    assert (located.path, located.display, located.how) == (Path("other"), "other", "as asked for")


def test_then_a_folder_above_the_athletes_file(coach: Path) -> None:
    located = locate_library(None, coach / "season/athletes/nora.yaml")
    assert located.path == coach / "exercise_library"
    assert (located.display, located.how) == ("exercise_library", "in a folder above the athlete's file")
    (coach / "season/athletes/exercise_library").mkdir()
    located = locate_library(None, coach / "season/athletes/nora.yaml")
    assert located.path == coach / "season/athletes/exercise_library"
    assert located.how == "next to the athlete's file"


def test_then_the_packaged_one_shown_by_its_name_alone(tmp_path: Path) -> None:
    located = locate_library(None, tmp_path / "nora.yaml")
    assert located.path == packaged("exercise_library")
    assert (located.display, located.how) == ("exercise_library", "the one that comes with the planner")
    assert locate_benchmarks(near=tmp_path).display == "templates/benchmarks/standard.yaml"


def test_a_folder_called_templates_that_holds_something_else_is_passed_by(tmp_path: Path) -> None:
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates/letter.txt").write_text("not ours")
    assert locate_templates(tmp_path / "nora.yaml").path == packaged("templates")


def test_template_by_name_from_the_coach_then_from_the_package(coach: Path) -> None:
    athlete = coach / "season/athletes/nora.yaml"
    assert locate_template("mine", athlete).display == "templates/blocks/mine.yaml"
    assert locate_template("eight-week", athlete).path == packaged("templates") / "blocks/eight-week.yaml"
    assert {"mine", "eight-week"} <= set(template_names("blocks", athlete))


def test_template_by_path(coach: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(coach)
    assert locate_template("templates/blocks/mine.yaml").how == "as asked for"
    with pytest.raises(UserError) as refused:
        locate_template("none.yaml")
    assert refused.value.findings[0].code == "cannot-read"


def test_unknown_names_are_findings(coach: Path) -> None:
    with pytest.raises(UserError) as refused:
        locate_template("eight-weak", coach)
    (finding,) = refused.value.findings
    assert finding.code == "unknown-template"
    assert "did you mean 'eight-week'?" in finding.hint
    with pytest.raises(UserError) as refused:
        locate_library(coach / "none")
    assert refused.value.findings[0].code == "cannot-read"


def test_no_path_shown_is_absolute(coach: Path) -> None:
    athlete = coach / "season/athletes/nora.yaml"
    for located in (
        locate_library(None, athlete),
        locate_library(coach / "exercise_library"),
        locate_template("mine", athlete),
    ):
        assert not located.display.startswith("/")
        assert str(coach) not in located.display


def test_a_missing_folder_names_both_places_it_was_looked_for() -> None:
    with pytest.raises(FileNotFoundError, match=r"neither at .*_data.*no_such_folder nor at .*no_such_folder"):
        packaged("no_such_folder")
