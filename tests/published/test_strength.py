"""Strength estimates against the formulas' own anchor points and the printed load-repetition table."""

import pytest

from planner.estimate.strength import (
    OutOfRange,
    brzycki_kg,
    chart_of,
    epley_kg,
    one_rm_kg,
    percent_of_max,
    reps_to_failure,
)

float_rounding = 1e-9

# NSCA training load chart, repetitions to failure: percent of the maximum.
chart_rows = [
    (1, 100),
    (2, 95),
    (3, 93),
    (4, 90),
    (5, 87),
    (6, 85),
    (7, 83),
    (8, 80),
    (9, 77),
    (10, 75),
    (12, 70),
]


@pytest.mark.parametrize("formula", [epley_kg, brzycki_kg])
def test_ten_repetitions_are_75_percent_against_epley_and_brzycki(formula):
    assert 75.0 / formula(load_kg=75.0, reps_to_failure=10) == pytest.approx(0.75, rel=float_rounding)


def test_one_rm_against_epley_and_brzycki():
    assert epley_kg(load_kg=120, reps_to_failure=5) == pytest.approx(120 * (1 + 5 / 30), rel=float_rounding)
    assert brzycki_kg(load_kg=120, reps_to_failure=5) == pytest.approx(120 * 36 / (37 - 5), rel=float_rounding)


@pytest.mark.parametrize(("reps", "percent"), chart_rows)
def test_percent_and_repetitions_against_nsca_training_load_chart(benchmarks, reps, percent):
    table = chart_of(benchmarks.strength)
    assert percent_of_max(reps, table=table) == pytest.approx(percent, rel=float_rounding)
    assert reps_to_failure(percent, table=table) == pytest.approx(reps, rel=float_rounding)


def test_benchmarks_carry_the_nsca_training_load_chart_and_no_other_row(benchmarks):
    assert chart_of(benchmarks.strength) == dict(chart_rows)


@pytest.mark.parametrize("reps", [0.5, 12.5])
def test_percent_is_refused_outside_the_chart(reps):
    with pytest.raises(OutOfRange, match="1 to 12"):
        percent_of_max(reps, table=dict(chart_rows))


def test_maximum_is_refused_past_ten_repetitions(benchmarks):
    rule = benchmarks.strength
    limits = {"most_reps": rule.most_reps, "reserve_error_reps": rule.reserve_error_reps}
    one_rm_kg(load_kg=60, reps=8, reps_in_reserve=2, body_mass_kg=70, **limits)
    with pytest.raises(OutOfRange, match="make 11"):
        one_rm_kg(load_kg=60, reps=8, reps_in_reserve=3, body_mass_kg=70, **limits)


def test_error_of_a_maximum_against_epley_and_brzycki_worked_by_hand():
    """100 kg for 5: Epley 116.67, Brzycki 112.5. Two more in reserve, 7 and 8 in all: 121.667 and 125.402 as means."""
    said = {"load_kg": 100, "reps": 5, "body_mass_kg": 80, "most_reps": 10, "reserve_error_reps": 1.5}
    to_failure = one_rm_kg(**said)
    assert to_failure.value == pytest.approx((700 / 6 + 112.5) / 2)
    assert to_failure.se == pytest.approx((700 / 6 - 112.5) / 2)
    in_reserve = one_rm_kg(**said, reps_in_reserve=2)
    assert in_reserve.value == pytest.approx((370 / 3 + 120) / 2)
    step_kg = (380 / 3 + 3600 / 29) / 2 - in_reserve.value
    assert in_reserve.se == pytest.approx(((10 / 6) ** 2 + (1.5 * step_kg) ** 2) ** 0.5)
