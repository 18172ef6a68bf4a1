"""The speed at which the body still falls as the foot lands: measured, or a range inside the error of both forces."""

from dataclasses import replace

import pytest

from planner.estimate.estimate_gap import estimate_gap
from planner.estimate.force_gap import force_gap
from tests.estimate.people import DEMOS, demo, jumper

one_newton = 1.0
TOUCH = {"kind": "touch", "take_off": "one-leg left", "run_up": True, "trials": ["3.05 m"]}
CONTACT = {"kind": "contact-time", "take_off": "one-leg left", "trials": ["0.21 s"]}


def test_range_is_in_the_error_of_both_forces_and_not_of_the_gap(benchmarks):
    """74 kg over 0.21 s: 352 N for each m/s; the root mean square of 0.3 to 0.7 m/s is 0.513 m/s, so 181 N."""
    with_range = estimate_gap(jumper(), benchmarks).gap
    without = estimate_gap(jumper(), benchmarks.model_copy(update={"touch_down": None})).gap
    added_N = (with_range.now.mean_ground_force_N_se**2 - without.now.mean_ground_force_N_se**2) ** 0.5
    assert added_N == pytest.approx(181, abs=one_newton)
    assert with_range.gap.mean_ground_force_N_se == pytest.approx(without.gap.mean_ground_force_N_se)
    assert with_range.now.mean_ground_force_N == without.now.mean_ground_force_N
    assert without.touch_down is None


def test_range_is_said_in_newtons(benchmarks):
    gap = estimate_gap(jumper(), benchmarks).gap
    line = gap.touch_down
    assert [line.now_at_least_N, line.now_low_N, line.now_high_N] == pytest.approx([1883, 1989, 2130], abs=one_newton)
    assert line.gap_per_tenth_N == pytest.approx(35.2, abs=0.1)
    assert "at least 1,883 N; 1,990–2,130 N if the body still falls at 0.3–0.7 m/s" in " ".join(gap.story)


def test_true_falls_are_covered(benchmarks):
    """With 0.4 m/s true, the force lies within 1.96 of the stated errors; without the range it did not."""
    result = estimate_gap(jumper(), benchmarks)
    now = result.force.now.mean_ground_force_N
    true = force_gap(replace(result.inputs, touch_down_speed_m_s=-0.4)).now.mean_ground_force_N.value
    assert abs(true - now.value) < 1.96 * now.se
    assert abs(true - now.value) > 1.96 * result.force_on_curves.now.mean_ground_force_N.se


def test_measured_speed_is_in_the_force_and_leaves_the_curves_alone(benchmarks):
    """0.4 m/s adds 141 N to both; the curves are drawn without it, so no deficit moves."""
    measured = estimate_gap(jumper([TOUCH, {**CONTACT, "touch_down_speed_m_s": 0.4}]), benchmarks)
    unknown = estimate_gap(jumper([TOUCH, CONTACT]), benchmarks)
    assert measured.gap.now.mean_ground_force_N - unknown.gap.now.mean_ground_force_N == pytest.approx(141, abs=1)
    assert measured.gap.gap.mean_ground_force_N == pytest.approx(unknown.gap.gap.mean_ground_force_N)
    assert measured.gap.now.mean_ground_force_N_se < unknown.gap.now.mean_ground_force_N_se
    assert measured.target_x == unknown.target_x
    assert "as measured" in " ".join(measured.gap.story)


def test_speed_on_a_film_and_its_own_error_are_used(benchmarks):
    """74 kg over 0.21 s: 352 N for each m/s, so an error of 0.3 m/s is 106 N."""
    film = {
        "kind": "video-frames", "take_off": "one-leg left", "run_up": True, "frame_rate": "240 /s",
        "trials": [{"touch_down": 0, "take_off": 50}], "touch_down_speed_m_s": 0.4,
    }  # fmt: skip
    sure, unsure = (
        estimate_gap(jumper([TOUCH, CONTACT, {**film, "touch_down_speed_error_m_s": error}]), benchmarks)
        for error in (0.0, 0.3)
    )
    assert sure.gap.touch_down.measured
    slope = 74 / sure.gap.contact_time_s
    added_N = (unsure.gap.now.mean_ground_force_N_se**2 - sure.gap.now.mean_ground_force_N_se**2) ** 0.5
    assert added_N == pytest.approx(0.3 * slope, rel=0.01)


def test_jump_from_a_stand_has_no_touch_down(benchmarks):
    assert [estimate_gap(demo(name), benchmarks).gap.touch_down is None for name in DEMOS] == [False, True, False]
