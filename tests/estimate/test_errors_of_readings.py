"""How far a reading is believed: its own error against a usual one's, and which missing test would tell most."""

from __future__ import annotations

import datetime
import math
from types import SimpleNamespace
from typing import Any

import pytest

from planner.estimate.estimate_gap import estimate_gap
from planner.estimate.qualities import most_useful_tests
from planner.estimate.quality_readings import QualityReading
from planner.units import STANDARD_GRAVITY_m_s2 as g
from tests.estimate.people import jumper, jumper_with


@pytest.mark.parametrize(
    ("have", "own", "usual", "relative"),
    [
        (100.0, 10.0, 10.0, 0.20),  # as usual: the benchmark's own error
        (100.0, 5.0, 10.0, math.sqrt(0.20**2 + 0.05**2 - 0.10**2)),  # more trials than usual
        (100.0, 30.0, 10.0, math.sqrt(0.20**2 + 0.30**2 - 0.10**2)),
        (100.0, 5.0, 30.0, 0.05),  # never below the reading's own
        (0.0, 10.0, 10.0, 0.20),  # nothing to take a share of
    ],
)
def test_a_reading_errs_by_the_benchmarks_error_and_by_how_it_differs_from_a_usual_one(
    have: float, own: float, usual: float, relative: float
) -> None:
    test: Any = SimpleNamespace(standard_error=0.20)
    reading = QualityReading(test, "both", have, own, usual, "a test", datetime.date(2025, 3, 1))
    assert reading.relative_se == pytest.approx(relative)


@pytest.mark.parametrize("need_in", ["body-weights", "body-masses"])
def test_a_squat_s_error_is_in_the_unit_of_its_reading(benchmarks: Any, need_in: str) -> None:
    """In newtons, the maximum and the body lifted along; in body masses, the maximum alone."""
    strength = benchmarks.qualities["maximal-strength"]
    [squat] = [one for one in strength.tests if one.id == "back-squat"]
    changed = strength.model_copy(update={"tests": (squat.model_copy(update={"need_in": need_in}),)})
    own = benchmarks.model_copy(update={"qualities": {**benchmarks.qualities, "maximal-strength": changed}})
    lift = {"kind": "lift", "movement": "back-squat", "load": "110 kg", "reps": 3}
    result = estimate_gap(jumper_with(lift), own)
    reading, maximum = result.qualities["maximal-strength"].counted[0].reading, result.maxima["back-squat", "both"]
    per_kg, along = (squat.lift.leg_share * g, 74) if need_in == "body-weights" else (1 / 74, 0)
    assert reading.unit == ("N" if need_in == "body-weights" else "× body mass")
    assert reading.source == "back squat 110 kg × 3 to failure (2025-02-06)"
    assert (reading.have, reading.have_se, reading.usual_se) == pytest.approx(
        (per_kg * (maximum.one_rm_kg.value + along), per_kg * maximum.one_rm_kg.se, per_kg * maximum.usual_se_kg)
    )


def test_the_most_useful_test_is_that_of_the_most_sets_that_are_not_yet_sure() -> None:
    """Six sets moderate confidence leave 3.0, seven sets sure to 0.6 leave 2.8, five untested ones 5."""

    def result(quality: str, confidence: float, fits: bool = True) -> Any:
        first = SimpleNamespace(id="first")
        done = [SimpleNamespace(reading=SimpleNamespace(test=SimpleNamespace(id="second")))] if confidence else []
        return SimpleNamespace(
            quality=quality, confidence=confidence, first_test=first, first_test_fits=fits, counted=done
        )

    found = {
        one.quality: one for one in (result("a", 0.6), result("b", 0.5), result("c", 0.0), result("d", 0.0, False))
    }
    weights = {"a": 7.0, "b": 6.0, "c": 5.0, "d": 20.0}
    assert [one.quality for one in most_useful_tests(found, weights)] == ["c", "b", "a"]  # type: ignore[arg-type]
    found["b"].counted[0].reading.test.id = "first"
    assert [one.quality for one in most_useful_tests(found, weights)] == ["c", "a"]  # type: ignore[arg-type]


def opinions(benchmarks: Any, *tests: dict[str, Any]) -> dict[str, float]:
    return {one.name: one.value for one in estimate_gap(jumper_with(*tests), benchmarks).gap.second_opinions}


def test_the_latest_tests_give_the_second_opinions(benchmarks: Any) -> None:
    """Whichever is written first: the pull of 2000 N against a jump of 1600 N, and a push-off of 40 cm."""
    early, late = datetime.date(2025, 3, 1), datetime.date(2025, 3, 8)
    pull = {"kind": "isometric-force", "position": "mid-thigh-pull", "includes_body_weight": True}
    jump = {"kind": "force-platform", "jump": "countermovement"}
    sets = [{"load": f"{load} kg", "flights": [f"{time} s"]} for load, time in ((0, 0.56), (20, 0.50), (40, 0.43))]
    profile = {"kind": "loaded-jump", "form": "squat", "sets": sets}
    pairs = [
        ({**pull, "date": early, "trials": ["1000 N"]}, {**pull, "date": late, "trials": ["2000 N"]}),
        (
            {**jump, "date": early, "trials": [{"flight": "0.5 s", "peak_force": "1900 N"}]},
            {**jump, "date": late, "trials": [{"flight": "0.5 s", "peak_force": "1600 N"}]},
        ),
        ({**profile, "date": early, "push_off": "50 cm"}, {**profile, "date": late, "push_off": "40 cm"}),
    ]
    for order in (1, -1):
        found = opinions(benchmarks, *(test for pair in pairs for test in pair[::order]))
        name = "dynamic strength index: jump's peak force over isometric pull's, body weight in both"
        assert found[name] == pytest.approx(1600 / 2000)
        assert found["isometric mid thigh pull: peak force, body weight in"] == pytest.approx(2000)
        [drawn] = [name for name in found if name.startswith("force-velocity")]
        assert "push-off 40 cm" in drawn


def test_both_indices_of_a_drop_jump_name_its_box(benchmarks: Any) -> None:
    drop = {"kind": "drop-jump", "drop": "30.4 cm", "trials": [{"contact": "0.20 s", "flight": "0.50 s"}]}
    found = opinions(benchmarks, drop)
    assert found["reactive strength index, height over contact, from a 30 cm box"] == pytest.approx(g * 0.25 / 8 / 0.2)
    assert found["reactive strength index, flight over contact, from a 30 cm box"] == pytest.approx(2.5)


def test_no_equation_gives_less_than_no_power(benchmarks: Any) -> None:
    """30 kg risen 6 cm: 60.7 x 6 + 45.3 x 30 - 2055 is below 0, and so is 61.9 x 6 + 36 x 30 - 1822."""
    jump = {"kind": "countermovement-jump", "arms": "free", "trials": ["0.22 s"]}
    found = estimate_gap(jumper_with(jump, body_mass="30 kg"), benchmarks).gap.second_opinions
    [power] = [one for one in found if one.name.startswith("peak power")]
    assert power.value == 0.0
    assert power.says == "0 W/kg; another such equation: 0 W (Harman et al. 1991)"


@pytest.mark.parametrize(
    ("target", "says"),
    [("3.054 m", "the same: a block that maintains"), ("3.06 m", "1 cm up"), ("3.04 m", "1 cm below the present jump")],
)
def test_a_target_within_half_a_step_of_the_scale_is_the_present_jump(benchmarks: Any, target: str, says: str) -> None:
    """Touched at 3.05 m on a scale of whole centimetres."""
    story = estimate_gap(jumper(target={"touch": target, "method": "touch"}), benchmarks).gap.story[0]
    assert story.endswith(f", {says}.")


def test_a_target_below_the_present_jump_is_told_without_a_sign_and_without_a_place(benchmarks: Any) -> None:
    result = estimate_gap(jumper(target={"touch": "3.00 m", "method": "touch"}), benchmarks)
    [told] = [one for one in result.findings if one.code == "target-below-present"]
    assert told.message == "the target is 5 cm below the present jump"
    assert (told.path, told.line, told.column) == ("", 0, 0)  # this athlete comes from no file
