"""A need on its curve: straight, then capped, and read backwards."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from planner.domain.benchmarks import Curve
from planner.estimate.emphasis import emphasised_sets
from planner.estimate.qualities import most_useful_tests, slope_on_curve, supported_on_curve

CURVE = {"plus": 0.5, "base": 1.0, "slope": 0.25, "at": 2.0, "cap": 1.5}  # reaches its cap at x = 4


@pytest.mark.parametrize(
    ("x", "need", "slope"), [(2.0, 1.5, 0.25), (3.0, 1.75, 0.25), (4.0, 2.0, 0.25), (5.0, 2.0, 0.0)]
)
def test_a_need_grows_up_to_its_cap_and_no_further(x: float, need: float, slope: float) -> None:
    curve = Curve.model_construct(**CURVE)
    assert (curve.need(x), slope_on_curve(curve, x)) == (need, slope)


@pytest.mark.parametrize(("have", "x"), [(1.5, 2.0), (1.75, 3.0), (1.99, 3.96), (2.0, 9.0), (2.5, 9.0)])
def test_what_an_athlete_has_supports_an_axis_value_and_at_the_cap_all_of_it(have: float, x: float) -> None:
    assert supported_on_curve(Curve.model_construct(**CURVE), have, highest=9.0) == pytest.approx(x)


def test_sets_are_shared_by_tilts_and_their_sum_stays() -> None:
    base = {"maximal-strength": 8.0, "unilateral-hip": 4.0, "knee-dominant": 4.0, "calf-ankle": 4.0}
    shared = emphasised_sets(base, {"calf-ankle": 2.0})
    assert shared["calf-ankle"] == pytest.approx(8.0 * 20 / 24)
    assert shared["maximal-strength"] == pytest.approx(8.0 * 20 / 24)
    assert sum(shared.values()) == pytest.approx(20.0)
    assert emphasised_sets({}, {}) == dict.fromkeys(base, 0.0)


@pytest.mark.parametrize(("weight", "first"), [(9.0, "calf-ankle"), (3.0, "knee-dominant")])
def test_the_quality_with_most_work_and_least_confidence_is_tested_first(weight: float, first: str) -> None:
    """Knee work weighs 6 and is half known, which leaves 3; a calf that is a fifth known leaves 0.8 of its weight."""
    weights = {"calf-ankle": weight, "knee-dominant": 6.0}
    known = {"calf-ankle": 0.2, "knee-dominant": 0.5}
    results: Any = {
        quality: SimpleNamespace(quality=quality, confidence=confidence, counted=(), first_test_fits=True)
        for quality, confidence in known.items()
    }
    assert most_useful_tests(results, weights)[0].quality == first
