"""An extra set is for a leg that tests weaker beyond the error and by enough, and only where its tests agree."""

from __future__ import annotations

import pytest

from planner.domain.gap import SideDifference
from planner.estimate.gap import estimate_gap
from planner.estimate.weaker_leg import weaker_legs
from tests.estimate.people import jumper_with


def difference(percent, weaker, quality="calf-ankle"):
    return SideDifference(
        test="one", unit="N", left=100.0 + percent, right=100.0, difference_percent=percent, error_percent=1.0,
        weaker=weaker, quality=quality,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("sides", "legs"),
    [
        ([difference(-12.0, "left")], {"calf-ankle": "left"}),
        ([difference(12.0, "right")], {"calf-ankle": "right"}),
        ([difference(-9.9, "left")], {}),  # too little to act on
        ([difference(-30.0, None)], {}),  # inside its error
        ([difference(-30.0, "left", quality=None)], {}),  # a hop tells no one quality
        ([difference(-12.0, "left"), difference(3.0, None)], {"calf-ankle": "left"}),
        ([difference(-12.0, "left"), difference(15.0, "right")], {}),  # two tests, two legs
        (
            [difference(-12.0, "left"), difference(15.0, "right", "unilateral-hip")],
            {"calf-ankle": "left", "unilateral-hip": "right"},
        ),
    ],
)
def test_what_the_sides_say(benchmarks, sides, legs):
    assert benchmarks.weaker_leg.least_difference_percent == pytest.approx(10.0), "the rows above are for 10 %"
    assert weaker_legs(sides, benchmarks.weaker_leg) == legs


def split_squats(left, right):
    return [
        {"kind": "lift", "movement": "rear-foot-split-squat", "side": side, "load": load, "reps": 3}
        for side, load in (("left", left), ("right", right))
    ]


def test_a_one_leg_lift_speaks_for_the_quality_it_tests(benchmarks):
    athlete = jumper_with(*split_squats("90 kg", "20 kg"), weaker_leg="extra-set")
    assert estimate_gap(athlete, benchmarks).weaker_legs == {"unilateral-hip": "right"}


def test_nobody_gets_an_extra_set_unasked(benchmarks):
    assert estimate_gap(jumper_with(*split_squats("90 kg", "20 kg")), benchmarks).weaker_legs == {}
