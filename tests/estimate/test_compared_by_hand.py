"""Tests before and after a block, compared: jumps, qualities, other lifts and ground contacts, worked by hand."""

from __future__ import annotations

import datetime
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from planner.domain.benchmarks import QualityTest
from planner.estimate import contact_change, retest_change  # pytest takes names that begin with test for tests
from planner.estimate.belief import chance_above
from planner.estimate.contact_change import DROP_JUMP, TAKE_OFF, longer_percent
from planner.estimate.heights import Height
from planner.estimate.other_lifts import other_lifts
from planner.estimate.quality_readings import QualityReading
from planner.estimate.retest_change import NotCompared, QualityChange, change_between, quality_change, strength_of
from planner.estimate.uncertainty import Estimate
from planner.files.load import load_follow_up
from planner.files.locate import locate_follow_up
from tests.solve.demos import athlete, shipped_benchmarks

BENCHMARKS = shipped_benchmarks()
FOUND = load_follow_up(locate_follow_up().path).require().outcome
assert FOUND is not None
RULE = FOUND
MAY, JULY = datetime.date(2026, 5, 4), datetime.date(2026, 7, 6)
ONE_DAY = datetime.timedelta(days=1)


def height(date: datetime.date, rise_m: float, se_m: float = 0.02, **more: Any) -> Height:
    lines: dict[str, Any] = {
        "number": 0, "kind": "touch", "take_off": "two-leg", "form": "run-up", "arms": None, "method": "touch",
        "single_se_m": se_m, "day_se_m": 0.0, "resolution_m": 0.01, "trials": 3, **more,
    }  # fmt: skip
    return Height(date=date, rise_m=Estimate(rise_m, se_m), **lines)


def test_a_jump_of_several_days_is_their_mean_with_all_their_trials() -> None:
    """Two days as sure as each other: the mean of 60 and 64 cm, its error a day's by the root of two."""
    both = retest_change.Tested((height(JULY + ONE_DAY, 0.64, trials=4), height(JULY - ONE_DAY, 0.60, trials=3)))
    assert both.rise_m.value == pytest.approx(0.62) and both.rise_m.se == pytest.approx(0.02 / 2**0.5)
    assert both.dates == (JULY - ONE_DAY, JULY + ONE_DAY)
    assert (both.trials, both.middle_day) == (7, JULY.toordinal())


def test_the_latest_height_by_the_same_method_is_the_retest_with_the_days_near_it() -> None:
    before = height(MAY, 0.58)
    first, second = height(JULY, 0.60), height(JULY + ONE_DAY, 0.61)
    mat = height(JULY + 2 * ONE_DAY, 0.55, method="contact-mat", kind="flight-time")
    found = retest_change.tested_after(before, [first, mat, second], BENCHMARKS)
    assert found == retest_change.Tested((second, first))
    assert retest_change.tested_after(before, [mat], BENCHMARKS) is None
    # Of two tests of a day the later in the file counts.
    assert retest_change.tested_after(
        before, [replace(first, number=4), replace(first, number=3)], BENCHMARKS
    ) == retest_change.Tested((replace(first, number=4),))


def test_a_change_has_the_errors_of_both() -> None:
    found = change_between(Estimate(0.58, 0.03), Estimate(0.61, 0.04))
    assert (found.value, found.se) == pytest.approx((0.03, 0.05))


def squat() -> QualityTest:
    tests = (test for one in BENCHMARKS.qualities.values() for test in one.tests)
    return next(test for test in tests if test.lift is not None and "back-squat" in test.lift.movements)


def reading(have: float, se: float, **more: Any) -> QualityReading:
    lines: dict[str, Any] = {"test": squat(), "side": "both", "label": "Back squat", "done_as": "back squat", **more}
    return QualityReading(have=have, have_se=se, usual_se=se, date=MAY, **lines)


def test_a_quality_changes_by_its_ratio_with_both_errors_and_is_held_against_its_share_of_a_block() -> None:
    """2000 to 2200 is 10 % more; 3 % before and 4 % after are 5 % of 1.1."""
    usual = next(one for one in RULE.tests if one.kind == "lift")
    found = quality_change("maximal-strength", reading(2000, 60), [reading(2200, 88)], 0.5, RULE)
    assert isinstance(found, QualityChange)
    assert (found.verdict.seen.value, found.verdict.seen.se) == pytest.approx((10.0, 5.5))
    assert (found.verdict.usual.value, found.verdict.usual.se) == (0.5 * usual.gain_percent, usual.spread_percent)
    assert found.verdict.worth == usual.worth_having_percent


def test_what_is_not_one_test_is_not_compared_and_says_why() -> None:
    before = reading(2000, 60, side="left")
    other_leg, other_lift = reading(2200, 80, side="right"), reading(2200, 80, side="left", done_as="front squat")
    why = [
        quality_change("maximal-strength", before, found, 1.0, RULE)
        for found in ([], [other_leg], [other_leg, other_lift])
    ]
    assert all(isinstance(one, NotCompared) for one in why)
    assert [one.why for one in why if isinstance(one, NotCompared)] == [
        "not tested again; repeat: Back squat",
        "not tested again; repeat: Back squat",
        "back squat before and front squat after are not one test; repeat back squat",
    ]
    unknown = RULE.model_copy(update={"tests": tuple(one for one in RULE.tests if one.kind != "lift")})
    told = quality_change("maximal-strength", before, [replace(before, have=2100)], 1.0, unknown)
    assert isinstance(told, NotCompared) and "no usual gain for lift" in told.why


def test_all_lifts_together_are_the_mean_of_their_changes() -> None:
    """10 % and 4 %, each with an error of 5: 7 %, and the root of 25 + 25 halved. What is no lift does not count."""
    changes = [
        quality_change("maximal-strength", reading(1000, 0), [reading(have, 50)], 1.0, RULE) for have in (1100, 1040)
    ]
    lifts = [one for one in changes if isinstance(one, QualityChange)]
    calf = next(test for one in BENCHMARKS.qualities.values() for test in one.tests if test.kind == "heel-raise")
    other = replace(lifts[0], before=reading(20, 1, test=calf))
    found = strength_of([*lifts, other], RULE)
    assert found is not None
    assert (found.seen.value, found.seen.se) == pytest.approx((7.0, 50**0.5 / 2))
    assert (found.usual, found.worth) == (lifts[0].verdict.usual, lifts[0].verdict.worth)
    assert strength_of([other], RULE) is None


def test_lifts_that_count_for_no_quality_are_told_apart_by_lift_and_side() -> None:
    def lift(kg: float, se_kg: float = 0.0) -> Any:
        return SimpleNamespace(one_rm_kg=Estimate(kg, se_kg))

    counted = quality_change("maximal-strength", reading(1000, 30), [reading(1100, 30)], 1.0, RULE)
    before = {
        ("back-squat", "both"): lift(100),
        ("back-squat", "left"): lift(40),
        ("pull-up", "both"): lift(100, 3),
        ("row", "both"): lift(60),
        ("hang", "both"): lift(0),
    }
    after = {key: lift(110, 4.4) for key in before if key[0] != "row"}
    found = other_lifts(before, after, [counted, NotCompared("calf-ankle", "not tested again")])  # type: ignore[arg-type]
    assert [(one.side, one.before.one_rm_kg.value) for one in found] == [("left", 40), ("both", 100)]
    assert (found[1].seen.value, found[1].seen.se) == pytest.approx((10.0, 5.5))  # 3 % and 4 % of 1.1


def test_contacts_are_of_the_take_off_and_of_the_latest_drop_jump_from_each_box() -> None:
    """The middle of 0.321, 0.317 and 0.325 s; of the drop jump its later test, wherever it is in the file."""
    trials = [{"contact": f"{contact} s", "flight": "0.470 s"} for contact in (0.225, 0.235)]
    drops = [
        {
            "kind": "drop-jump",
            "date": datetime.date(2025, 9, day),
            "drop": drop,
            "trials": [dict(one) for one in trials[:many]],
        }
        for day, drop, many in ((4, "30 cm", 2), (3, "30 cm", 1), (3, "45 cm", 1))
    ]
    touch = {
        "kind": "touch",
        "date": datetime.date(2025, 9, 3),
        "take_off": "two-leg",
        "run_up": True,
        "trials": ["2.97 m"],
    }
    times = ["0.321 s", "0.317 s", "0.325 s"]
    contact = {"kind": "contact-time", "date": datetime.date(2025, 9, 3), "take_off": "two-leg", "trials": times}
    person = athlete("in-season-player", {"tests": [touch, contact, *drops]})
    assert contact_change.tested_contacts_s(person, BENCHMARKS) == pytest.approx(
        {"take-off": 0.321, "drop jump 0.3": 0.230, "drop jump 0.45": 0.225}
    )
    assert set(
        contact_change.tested_contacts_s(athlete("in-season-player", {"tests": [touch, *drops[:1]]}), BENCHMARKS)
    ) == {"drop jump 0.3"}


def test_a_contact_is_longer_by_the_worst_of_the_boxes_tested_both_times() -> None:
    before = {"take-off": 0.20, "drop jump 0.3": 0.20, "drop jump 0.45": 0.25, "drop jump 0.6": 0.20}
    after = {"take-off": 0.19, "drop jump 0.3": 0.21, "drop jump 0.45": 0.30}
    assert longer_percent(before, after, TAKE_OFF) == pytest.approx(-5)
    assert longer_percent(before, after, DROP_JUMP) == pytest.approx(20)
    assert longer_percent({}, after, DROP_JUMP) is None


@pytest.mark.parametrize(("value", "chance"), [(0.020, 1.0), (0.015, 0.0), (0.010, 0.0)])
def test_what_is_known_without_error_is_above_the_least_or_not(value: float, chance: float) -> None:
    assert chance_above(Estimate(value, 0.0), 0.015) == chance
