"""The filter of a lift against figures worked by hand and against a least-squares line."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.files.load import load_follow_up
from planner.files.locate import locate_follow_up
from planner.past.lift_filter import LiftLevel, Reading, follow, read_set, start_level

RULE = load_follow_up(locate_follow_up().path).require().lifts


def test_a_set_as_a_reading() -> None:
    """110 kg x 6 with 3 left: 110 (1 + 9/30) = 143 kg; 2.75 % of form and (0.7 + 0.25 x 3) reps of 100/39 % each."""
    reading = read_set(0, 110, 6, 3, RULE)
    assert reading is not None
    assert math.exp(reading.level / 100) == pytest.approx(143)
    assert reading.error == pytest.approx(math.hypot(2.75, 1.45 * 100 / 39))


def test_a_long_set_says_nothing() -> None:
    assert read_set(0, 60, 9, 3, RULE) is not None
    assert read_set(0, 60, 10, 3, RULE) is None


def test_one_reading_is_weighed_against_the_test() -> None:
    """Level 500 ± 4.2 and a reading of 510 ± 4.2 on the same day: half way, and the error by the square root of two."""
    after = follow(start_level(math.exp(5), 4.2, RULE), [Reading(0, 510, 4.2)], RULE)
    assert after.level == pytest.approx(505)
    assert after.error == pytest.approx(4.2 / math.sqrt(2))
    assert (after.drift, after.drift_error) == (pytest.approx(0.6), pytest.approx(0.6))


def test_weeks_without_a_reading_carry_the_drift_on() -> None:
    after = follow(start_level(math.exp(5), 4.2, RULE), [], RULE, until_week=4)
    assert after.level == pytest.approx(500 + 4 * 0.6)
    assert after.error == pytest.approx(math.sqrt(4.2**2 + (4 * 0.6) ** 2 + 4 * 0.5**2))


def test_after_the_last_reading_the_drift_goes_on_for_the_weeks_that_are_left() -> None:
    """A level that is sure grows by 1 a week: the reading of week 2 says no more, and three weeks follow it."""
    flat = RULE.model_copy(update={"wander_percent": 0.0})
    after = follow(LiftLevel(500, 0, 1, 0), [Reading(2, 520, 3.0)], flat, until_week=5)
    assert (after.level, after.drift) == (pytest.approx(505), pytest.approx(1))


def test_without_wander_and_prior_it_is_the_least_squares_line() -> None:
    flat = RULE.model_copy(update={"wander_percent": 0.0})
    weeks, levels = [0.0, 1, 2, 3, 5], [500.0, 503, 502, 506, 509]
    nothing = LiftLevel(500, 1e4, 0, 1e4)
    after = follow(nothing, [Reading(w, y, 3.0) for w, y in zip(weeks, levels, strict=True)], flat)
    slope, at_0 = np.polyfit(weeks, levels, 1)
    assert after.drift == pytest.approx(slope, abs=1e-3)
    assert after.level == pytest.approx(at_0 + 5 * slope, abs=1e-3)


def test_the_order_in_which_readings_are_told_does_not_matter() -> None:
    readings = [Reading(2, 505, 4), Reading(0.5, 498, 3), Reading(1, 503, 5)]
    start = start_level(math.exp(5), 4.2, RULE)
    assert follow(start, readings, RULE) == follow(start, readings[::-1], RULE)


def test_the_band_is_in_kilograms() -> None:
    low, high = LiftLevel(500, 4, 0, 0).band_kg()
    assert (low, high) == (pytest.approx(math.exp(5 - 0.0658)), pytest.approx(math.exp(5 + 0.0658)))
