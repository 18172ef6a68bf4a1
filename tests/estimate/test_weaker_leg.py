"""A leg gets an extra set if it tests weaker by enough and beyond the error, and only if its tests agree."""

from __future__ import annotations

import datetime

import pytest

from planner.domain.gap_record import SideDifference
from planner.estimate.estimate_gap import estimate_gap
from planner.estimate.extra_set_leg import weaker_legs
from tests.estimate.people import jumper_with, shipped_benchmarks


def difference(percent, weaker, quality="calf-ankle"):
    return SideDifference(
        test="one", unit="N", left=100.0 + percent, right=100.0, difference_percent=percent, error_percent=1.0,
        weaker=weaker, quality=quality,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("sides", "legs"),
    [
        ([difference(-12.0, "left")], {"calf-ankle": {"left"}}),
        ([difference(12.0, "right")], {"calf-ankle": {"right"}}),
        ([difference(-9.9, "left")], {}),  # too little to act on
        ([difference(-30.0, None)], {}),  # inside its error
        ([difference(-30.0, "left", quality=None)], {}),  # a hop does not test one quality alone
        ([difference(-12.0, "left"), difference(3.0, None)], {"calf-ankle": {"left"}}),
        ([difference(-12.0, "left"), difference(15.0, "right")], {"calf-ankle": {"left", "right"}}),  # two tests
        (
            [difference(-12.0, "left"), difference(15.0, "right", "unilateral-hip")],
            {"calf-ankle": {"left"}, "unilateral-hip": {"right"}},
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


def raises(left, right, date="2025-01-06", form="strict"):
    return {"kind": "heel-raise", "form": form, "left": left, "right": right, "date": datetime.date.fromisoformat(date)}


def asked(*tests, **changes):
    result = estimate_gap(jumper_with(*tests, weaker_leg="extra-set", **changes), shipped_benchmarks())
    return result.weaker_legs, [one.message for one in result.findings if "weaker-leg" in one.code]


def test_the_latest_test_of_a_kind_speaks():
    assert asked(raises(12, 28, "2025-01-06"))[0] == {"calf-ankle": "left"}
    assert asked(raises(12, 28, "2025-01-06"), raises(28, 28, "2025-02-06"))[0] == {}
    assert asked(raises(28, 28, "2025-02-06"), raises(12, 28, "2025-01-06"))[0] == {}, "whatever the order in the file"


def test_free_heel_raises_are_too_loose_to_act_on():
    assert asked(raises(12, 28, form="free"))[0] == {}


def test_a_yes_says_what_it_gives():
    _, said = asked(raises(12, 28))
    assert said == ["the left leg tests weaker in calf strength: an extra set of one-leg work for it"]


def test_tests_that_point_to_both_legs_give_nothing_and_say_so():
    push = {"kind": "isometric-calf", "left": "1500 N", "right": "1000 N"}
    legs, said = asked(raises(12, 28), push)
    assert legs == {} and "point to both legs" in said[0] and len(said) == 1


@pytest.mark.parametrize(("side", "granted"), [("left", False), (None, False), ("right", True)])
def test_a_leg_that_hurts_gets_no_extra_set(side, granted):
    sore = [{"joint": "achilles-ankle", "side": side, "pain": 2}]
    legs, said = asked(raises(12, 28), joints=sore)
    assert (legs == {"calf-ankle": "left"}) == granted
    assert ("Achilles and ankle pain (2 of 10) may be why it tests weak" in said[0]) != granted
