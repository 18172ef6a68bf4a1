"""What single tests say and how sure: figures worked by hand, and who is told what about a test that is not used."""

from __future__ import annotations

import datetime
import math
from types import SimpleNamespace
from typing import Any

import pytest

from planner.estimate.estimate_gap import GapResult, estimate_gap
from planner.estimate.heights import heights_of
from planner.estimate.notebook import Notebook
from planner.estimate.present_jump import HeelRiseUsed
from planner.estimate.qualities import Limiters
from planner.estimate.story import (
    NOT_MEASURED,
    _limited_by,
    _tests_say,
    _what_it_takes,
    confidence_words,
    take_off_words,
)
from planner.estimate.strength import epley_kg
from planner.estimate.trials import day_se_of, single_se_of
from planner.estimate.words import Words
from planner.units import STANDARD_GRAVITY_m_s2 as g
from tests.estimate.people import jumper, jumper_with

STANDING = {"take_off": "two-leg", "approach": {"steps": 0}, "target": {"rise": "50 cm", "method": "flight-time"}}
CMJ = {"kind": "countermovement-jump", "arms": "free"}


def codes(result: GapResult) -> list[str]:
    return [finding.code for finding in result.findings]


def message(result: GapResult, code: str) -> str:
    [found] = [finding.message for finding in result.findings if finding.code == code]
    return found


def platform(jump: str = "countermovement", *trials: dict[str, Any], **more: Any) -> dict[str, Any]:
    return {"kind": "force-platform", "jump": jump, "trials": list(trials), **more}


def test_a_flight_time_s_error_becomes_one_of_height_by_the_slope_of_the_fall(benchmarks: Any) -> None:
    """g T / 4 metres a second: of two trials their part by the root of two, of the day all of it."""
    kind = benchmarks.test_kinds["countermovement-jump"]
    who = jumper([{**CMJ, "trials": ["0.50 s", "0.54 s"]}], **STANDING)
    [height] = heights_of(who, HeelRiseUsed(0.1, 0.01, True), benchmarks, Notebook())
    slope = g * 0.52 / 4
    assert height.rise_m.value == pytest.approx(g * 0.52**2 / 8)
    assert height.rise_m.se == pytest.approx(
        math.hypot(slope * single_se_of(kind) / math.sqrt(2), slope * day_se_of(kind))
    )
    assert height.trials_se_m == pytest.approx(slope * single_se_of(kind) / math.sqrt(2))
    assert height.resolution_m == pytest.approx(slope * kind.time_error.resolution)


def test_a_platform_s_own_error_is_in_its_height_by_flight_or_by_impulse(benchmarks: Any) -> None:
    kind, heel = benchmarks.test_kinds["force-platform"], HeelRiseUsed(0.1, 0.01, True)
    by_flight = platform(
        "countermovement",
        {"flight": "0.5 s", "flight_error": "0.004 s"},
        {"left_share": 0.5, "flight": "0.5 s", "flight_error": "0.002 s"},
    )
    [height] = heights_of(jumper([by_flight], **STANDING), heel, benchmarks, Notebook())
    read_m = g * 0.5 / 4 * math.sqrt((0.004**2 + 0.002**2) / 2)
    assert height.single_se_m == pytest.approx(math.hypot(single_se_of(kind), read_m))
    by_impulse = platform(
        "countermovement", {"rise_by_impulse": "30 cm", "rise_by_impulse_error": "1 cm"}, {"rise_by_impulse": "32 cm"}
    )
    [height] = heights_of(jumper([by_impulse], **STANDING), heel, benchmarks, Notebook())
    assert (height.method, height.rise_m.value) == ("impulse", pytest.approx(0.31))
    assert height.single_se_m == pytest.approx(math.hypot(single_se_of(kind), math.sqrt(0.01**2 / 2)))
    without = platform("countermovement", {"left_share": 0.5})
    assert heights_of(jumper([without], **STANDING), heel, benchmarks, Notebook()) == []


def test_test_days_that_count_together_stand_the_latest_first_and_one_a_day(benchmarks: Any) -> None:
    days = [datetime.date(2025, 1, day) for day in (2, 4, 3)]
    tests = [{**CMJ, "date": day, "trials": ["0.52 s"]} for day in days]
    result = estimate_gap(jumper([*tests, {**CMJ, "date": days[0], "trials": ["0.525 s"]}], **STANDING), benchmarks)
    assert [day.date.day for day in result.jumps.days] == [4, 3, 2]
    assert len(result.jumps.days) == 3 and result.jumps.trials == 3


def test_the_push_off_of_the_trials_that_have_one_is_the_mean(benchmarks: Any) -> None:
    push = platform(
        "countermovement",
        {"flight": "0.5 s", "push_off": "40 cm"},
        {"flight": "0.5 s"},
        {"flight": "0.5 s", "push_off": "42 cm"},
    )
    result = estimate_gap(jumper([push], **STANDING), benchmarks)
    assert result.gap.contact_time_from.startswith("push-off distance by force platform, mean of 2")
    assert result.inputs.push_off_m is not None and result.inputs.push_off_m.value == pytest.approx(0.41)
    squat = platform("squat", {"flight": "0.5 s", "push_off": "30 cm"})
    after = {**push, "date": datetime.date(2025, 1, 5), "trials": [{"flight": "0.5 s", "push_off": "44 cm"}]}
    later = estimate_gap(jumper([push, after, squat], **STANDING), benchmarks)
    assert later.inputs.push_off_m is not None and later.inputs.push_off_m.value == pytest.approx(0.44)


def test_a_slow_drop_jump_is_told_its_shortest_contact_and_the_longest_fast_one(benchmarks: Any) -> None:
    slow = {
        "kind": "drop-jump",
        "drop": "30 cm",
        "trials": [{"contact": c, "flight": "0.5 s"} for c in ("0.31 s", "0.28 s")],
    }
    said = message(estimate_gap(jumper_with(slow), benchmarks), "drop-jump-slow")
    assert "280 ms" in said and "250 ms" in said


def test_the_forces_of_the_fast_trials_alone_count(benchmarks: Any) -> None:
    trials = [{"contact": "0.20 s", "flight": "0.5 s"}, {"contact": "0.40 s", "flight": "0.6 s"}]
    jump = {"kind": "drop-jump", "drop": "30 cm", "trials": trials}
    one = estimate_gap(jumper_with({**jump, "trials": trials[:1]}), benchmarks).qualities["speed-exposure"].counted[0]
    both = estimate_gap(jumper_with(jump), benchmarks).qualities["speed-exposure"].counted[0]
    assert both.reading.have == one.reading.have
    speed = math.sqrt(2 * g * 0.3) + g * 0.5 / 2
    assert one.reading.have == pytest.approx(74 * (g + speed / 0.20))
    assert "contact 200 ms" in one.reading.label


@pytest.mark.parametrize(
    ("standing", "low"),
    [
        (platform("countermovement", {"flight": "0.66 s"}, {"left_share": 0.5}), True),
        (platform("squat", {"flight": "0.66 s"}), False),
        ({"kind": "contact-mat", "take_off": "two-leg", "trials": [{"flight": "0.66 s"}]}, True),
        ({"kind": "contact-mat", "take_off": "two-leg", "run_up": True, "trials": [{"flight": "0.66 s"}]}, False),
        ({**CMJ, "trials": ["0.50 s", "0.66 s"]}, True),
        ({"kind": "flight-time", "take_off": "one-leg left", "trials": ["0.66 s"]}, False),
    ],
)
def test_a_rebound_is_held_against_the_best_jump_from_a_stand_off_both_legs(
    benchmarks: Any, standing: dict[str, Any], low: bool
) -> None:
    assert ("rebound-low" in codes(estimate_gap(jumper_with(standing), benchmarks))) is low


@pytest.mark.parametrize(("right_kg", "conflict"), [(10, False), (90, False)])
def test_only_tests_of_the_deciding_leg_can_disagree(benchmarks: Any, right_kg: float, conflict: bool) -> None:
    """Twenty-two heel raises on the left; whatever the right leg lifts says nothing about that."""
    lift = {"kind": "lift", "movement": "loaded-one-leg-calf-raise", "reps": 6}
    tests = [{**lift, "side": "left", "load": "50 kg"}, {**lift, "side": "right", "load": f"{right_kg} kg"}]
    push = {"kind": "isometric-calf", "left": "1400 N", "right": "300 N"}
    assert ("tests-in-conflict" in codes(estimate_gap(jumper_with(*tests, push), benchmarks))) is conflict
    own = [{**lift, "side": "left", "load": f"{right_kg} kg"}, {**lift, "side": "right", "load": "50 kg"}]
    assert "tests-in-conflict" in codes(estimate_gap(jumper_with(*own, push), benchmarks))


def test_a_label_says_how_many_sets_count(benchmarks: Any) -> None:
    lift = {"kind": "lift", "movement": "back-squat", "load": "110 kg", "reps": 3}
    labels = [
        estimate_gap(jumper_with(*[lift] * count), benchmarks).qualities["maximal-strength"].counted[0].reading.label
        for count in (1, 3)
    ]
    assert [label.split("× 3")[1] for label in labels] == [" to failure", " to failure and 2 more"]


def test_the_formulas_of_a_lift_that_moves_the_body_count_it(benchmarks: Any) -> None:
    """Seven to failure at 30 kg and 74 kg of body; a squat with a bar counts the bar alone."""
    for movement, body_kg in (("goblet-squat", 74), ("back-squat", 0)):
        lift = {"kind": "lift", "movement": movement, "load": "30 kg", "reps": 5, "reps_in_reserve": 2}
        found = estimate_gap(jumper_with(lift), benchmarks).maxima[movement, "both"]  # type: ignore[index]
        assert found.epley_kg == pytest.approx((30 + body_kg) * (1 + 7 / 30) - body_kg)
        assert found.brzycki_kg == pytest.approx((30 + body_kg) * 36 / (37 - 7) - body_kg)
    pair = [lift, {**lift, "load": "31 kg"}]
    both = estimate_gap(jumper_with(*pair), benchmarks).maxima["back-squat", "both"]
    assert both.sets == 2 and both.one_rm_kg.se > abs(37 - 36) / 2  # the gap between the formulas is in both of them


@pytest.mark.parametrize(("reps", "epley"), [(1, 100), (1.5, 105), (2, 100 * 32 / 30)])
def test_a_single_to_failure_is_the_maximum_itself(reps: float, epley: float) -> None:
    assert epley_kg(load_kg=100, reps_to_failure=reps) == pytest.approx(epley)


def test_heel_raises_without_a_protocol_are_told_so_once(benchmarks: Any) -> None:
    bare = {"kind": "heel-raise", "form": "strict", "left": 20, "right": 22}
    assert codes(estimate_gap(jumper_with(bare), benchmarks)).count("heel-raise-protocol") == 1
    assert "heel-raise-protocol" not in codes(estimate_gap(jumper_with({**bare, "protocol": "own"}), benchmarks))


def test_equal_shares_of_a_platform_still_err_by_half_a_thousandth(benchmarks: Any) -> None:
    """Both sides' figures are per cent of the push; their difference errs by twice the share's own error."""

    def sides(*shares: float) -> Any:
        push = platform("countermovement", *({"flight": "0.5 s", "left_share": share} for share in shares))
        [found] = [
            one for one in estimate_gap(jumper_with(push), benchmarks).gap.sides if "share of the push" in one.test
        ]
        return found

    steady = sides(0.51, 0.51, 0.51)
    assert (steady.left, steady.right) == (pytest.approx(51), pytest.approx(49))
    assert steady.error_percent == pytest.approx(100 * 2 * 0.1 / 51)
    scattered = sides(0.50, 0.52, 0.54)
    assert scattered.error_percent == pytest.approx(100 * 2 * 100 * math.sqrt(0.0008 / 2 / 3) / 52)


def _verdict(quality: str, tested: bool, push: float) -> Any:
    return SimpleNamespace(quality=quality, tested=tested, push=push, deficit=2 * push, confidence=0.5)


def test_the_story_sorts_the_qualities_and_ends_with_what_was_not_measured(benchmarks: Any) -> None:
    assert estimate_gap(jumper(), benchmarks).gap.story[-1] == NOT_MEASURED
    verdicts = {
        "maximal-strength": _verdict("maximal-strength", True, 0.02),
        "unilateral-hip": _verdict("unilateral-hip", True, -0.02),
        "knee-dominant": _verdict("knee-dominant", True, -0.0199),
        "calf-ankle": _verdict("calf-ankle", True, 0.0199),
        "speed-exposure": _verdict("speed-exposure", False, 0.5),
    }
    said = _tests_say(verdicts, 0.02, benchmarks.confidence)  # type: ignore[arg-type]
    parts = dict(part.strip().split(" ", 1) for part in said.removeprefix("For this target the tests say: ").split(";"))
    assert "maximal strength by 4 %" in parts["short"]
    assert (
        "hip" in parts["more"]
        and "knee" in parts["enough"]
        and "calf strength by 4 %" in parts["short,"]
        and "speed" in parts["untested:"]
    )


@pytest.mark.parametrize(
    ("limits", "says", "silent"),
    [
        (
            Limiters(0.5, 0.2, "calf-ankle"),
            ["50 % limited by calf strength", "20 % limited by fast force and speed", "30 % neither"],
            [],
        ),
        (Limiters(0.504, 0.496, "calf-ankle"), ["calf strength and fast force", "alike"], ["%", "limited"]),
        (Limiters(1.0, 0.0, None), ["is limited by strength"], ["%", "fast", "neither"]),
        (Limiters(0.4, None, None), ["40 % limited by strength", "60 % not told without a drop jump"], ["fast"]),
        (
            Limiters(None, 0.4, None),
            ["40 % limited by fast force and speed", "60 % not told without a strength test"],
            ["limited by strength"],
        ),
        (Limiters(0.0, None, None), ["The tests taken support the target"], ["limited"]),
        (Limiters(0.0, 0.0, None), ["The tests support the target"], ["limited"]),
    ],
)
def test_what_limits_the_jump_is_told_in_shares_that_sum_to_all(
    limits: Limiters, says: list[str], silent: list[str]
) -> None:
    said = _limited_by(limits)
    assert all(words in said for words in says) and not any(words in said for words in silent), said
    assert _limited_by(Limiters(None, None, None)) == ""


def test_a_target_below_the_present_jump_takes_less_force(benchmarks: Any) -> None:
    higher, lower = (
        estimate_gap(jumper(target={"touch": f"{mark} m", "method": "touch"}), benchmarks) for mark in (3.20, 3.00)
    )
    more, less = (_what_it_takes(one.force, Words()) for one in (higher, lower))
    assert " more mean ground force" in more and "+" in more and " less mean ground force" in less and "-" in less
    assert "lbf" not in more and " lbf) more" in _what_it_takes(higher.force, Words(mass_unit="lb"))
    assert "below the present jump" in lower.gap.story[0] and "up." in higher.gap.story[0]


def test_the_take_off_in_words_and_how_sure_a_test_is(benchmarks: Any) -> None:
    two = jumper(take_off="two-leg", approach={"steps": 0})
    assert (take_off_words(jumper()), take_off_words(two)) == (
        "off the left leg, 5-step run-up",
        "off both legs, from a stand",
    )
    rule = benchmarks.confidence
    said = [
        confidence_words(sure, rule)
        for sure in (
            rule.fairly_sure_from,
            rule.fairly_sure_from - 0.01,
            rule.half_sure_from,
            rule.half_sure_from - 0.01,
        )
    ]
    assert said[1] == said[2] and len(set(said)) == 3
