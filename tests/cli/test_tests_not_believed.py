"""A test that the gap does not believe is a finding of ``check`` too, and the headline names its quality."""

from pathlib import Path

import pytest

from planner.domain.findings import UserError
from planner.estimate.estimate_gap import estimate_gap
from planner.files.load import load_athlete
from planner.jobs.check_files import FileChecker
from tests.estimate.people import CHECKOUT, jumper_with, shipped_benchmarks

ADULT = (CHECKOUT / "templates/athletes/adult-one-leg-jumper.yaml").read_text("utf-8")


@pytest.mark.parametrize(
    ("believed", "not_believed", "code", "inside"),
    [
        ("{touch_down: 112, take_off: 160}", "{touch_down: 172, take_off: 160}", "video-contact", "take_off: 160"),
        ("frame_rate: 240 /s", "frame_rate: 60 /s", "video-too-slow", "frame_rate: 60"),
        ("    reps: 4\n    reps_in_reserve: 2", "    reps: 12\n    reps_in_reserve: 2", "reps-past-range", "reps: 12"),
    ],
)
def test_check_says_what_gap_drops(tmp_path: Path, believed: str, not_believed: str, code: str, inside: str) -> None:
    assert believed in ADULT
    file = tmp_path / "athlete.yaml"
    file.write_text(ADULT.replace(believed, not_believed, 1), "utf-8")
    (found,) = {one for one in FileChecker().check(file) if one.code == code}
    assert (found.level, bool(found.hint)) == ("warning", True)
    assert inside in file.read_text("utf-8").splitlines()[found.line - 1]


def test_check_says_it_too_where_the_gap_is_refused(tmp_path: Path) -> None:
    """A target that is reached from the floor leaves no gap; the test with crossed frames is wrong all the same."""
    text = ADULT.replace("{touch_down: 112, take_off: 160}", "{touch_down: 172, take_off: 160}", 1)
    file = tmp_path / "athlete.yaml"
    file.write_text(text.replace("touch: 3.22 m", "touch: 2.54 m", 1), "utf-8")
    with pytest.raises(UserError) as refused:
        estimate_gap(load_athlete(file).require(), shipped_benchmarks())
    assert "target-in-reach" in {one.code for one in refused.value.findings}
    assert "video-contact" in {one.code for one in FileChecker().check(file)}


def test_a_kind_without_a_day_error_is_named() -> None:
    """Without it a second day would count as nothing but more trials."""
    benchmarks = shipped_benchmarks()
    touch = benchmarks.test_kinds["touch"]
    without = touch.model_copy(update={"length_error": touch.error.model_copy(update={"day_error": None})})
    kinds = {**benchmarks.test_kinds, "touch": without}
    codes = {
        one.code: one
        for one in estimate_gap(jumper_with(), benchmarks.model_copy(update={"test_kinds": kinds})).findings
    }
    assert "touch" in codes["no-day-error"].message and codes["no-day-error"].hint
    assert "no-day-error" not in {one.code for one in estimate_gap(jumper_with(), benchmarks).findings}


def test_athlete_whose_tests_are_all_believed_has_no_finding(tmp_path: Path) -> None:
    file = tmp_path / "athlete.yaml"
    file.write_text(ADULT, "utf-8")
    assert FileChecker().check(file) == []


def test_headline_names_the_quality_of_a_dropped_test() -> None:
    squat = {"kind": "lift", "movement": "back-squat", "load": "60 kg", "reps": 12}
    story = " ".join(estimate_gap(jumper_with(squat), shipped_benchmarks()).gap.story)
    assert "Not believed, so left out or not counted in full: back squat (maximal strength)." in story
    assert "Not believed" not in " ".join(estimate_gap(jumper_with(), shipped_benchmarks()).gap.story)
