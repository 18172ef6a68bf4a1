"""The outcome's interval, its false "it worked" and the detectable changes, on a fixed sample."""

from __future__ import annotations

import numpy as np
import pytest

from planner.estimate.trials import middle
from tests.benchmarks.outcome import DETECTABLE_cm, cell, detectable_m, middles

FEW = 4000  # a share of 90 % is then known to half a point


@pytest.mark.parametrize("jump_days", [False, True])
@pytest.mark.parametrize(("days", "trials"), DETECTABLE_cm)  # the ways to test that are advised
def test_the_interval_covers_and_nothing_gained_seldom_worked(days: int, trials: int, jump_days: bool) -> None:
    found = cell(days, trials, jump_days, FEW)
    assert found.holds, found


@pytest.mark.parametrize("way", DETECTABLE_cm)
def test_detectable_changes(way: tuple[int, int]) -> None:
    """The formula to the printed tenth; what the whole centimetres and the middle of trials scatter, to 1 mm of it."""
    told_cm = 100 * detectable_m(*way)
    assert round(told_cm, 1) == DETECTABLE_cm[way]
    assert 100 * detectable_m(*way, athletes=40_000) == pytest.approx(told_cm, abs=0.1)


def test_arrays_of_trials_are_summed_up_as_one_athletes_are() -> None:
    trials = np.random.default_rng(3).normal(3.0, 0.02, (5, 2, 4))
    assert middles(trials) == pytest.approx(np.array([[middle(list(day)) for day in one] for one in trials]))
