"""The filter's error and cover on few drawn athletes: a change that spoils either shows."""

from __future__ import annotations

import pytest

from planner.files.load import load_follow_up
from planner.files.locate import locate_follow_up
from tests.benchmarks.lift_filter import AIM_WITHIN, COVER, RESERVES, AIM_percent, measured

FEW = 600  # the root-mean-square error is then known to about 0.05 points


@pytest.mark.parametrize("name", ["1 left", "1 to 2 left"])
def test_level_and_drift_are_followed(name: str) -> None:
    rule = load_follow_up(locate_follow_up().path).require().lifts
    found = measured(RESERVES[name], FEW, rule)
    assert found["drift"] == pytest.approx(AIM_percent, abs=AIM_WITHIN)
    assert COVER[0] <= found["cover"] <= COVER[1]
    assert found["drift"] < found["three"] < found["level"] < found["last"]
