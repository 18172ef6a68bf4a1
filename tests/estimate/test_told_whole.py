"""What a coach is told of tests, in whole sentences with their figures, and what each figure comes from."""

from __future__ import annotations

import datetime
import math
from typing import Any

import pytest

from planner.domain.gap_record import SideDifference
from planner.estimate.estimate_gap import GapResult, estimate_gap
from planner.estimate.extra_set_leg import weaker_legs
from planner.estimate.touch_down import touch_down_words
from planner.estimate.words import Words
from planner.report.gap_text import gap_text
from planner.units import STANDARD_GRAVITY_m_s2 as g
from tests.estimate.people import JUMPER, jumper, jumper_with, read

LIFT = {"kind": "lift", "movement": "back-squat", "reps": 3}


def said(result: GapResult, code: str) -> str:
    [found] = [one.message for one in result.findings if one.code == code]
    return found


@pytest.mark.parametrize(
    ("words", "length", "whole", "mark", "load"),
    [
        (Words(), "10.5 cm", "10 cm", "3.115 m", "122.5 kg"),
        (Words("in", "lb"), "4.1 in", "4.1 in", "122.6 in", "270.1 lb"),
    ],
)
def test_lengths_and_loads_in_a_coach_s_units(words: Words, length: str, whole: str, mark: str, load: str) -> None:
    assert (words.length(0.1049), words.length(0.1049, 0)) == (length, whole)
    assert (words.mark(3.115), words.load(122.5)) == (mark, load)
    assert f"{words.length_number(0.1049)} {words.length_unit}" == length
    assert f"{words.load_number(122.5)} {words.mass_unit}" == load


def test_a_coach_s_units_are_those_of_the_athlete_s_file(benchmarks: Any) -> None:
    story = estimate_gap(jumper(print_as={"length": "in", "mass": "lb"}), benchmarks).gap.story[0]
    assert "a touch of 120.1 in" in story and "cm" not in story


@pytest.mark.parametrize(("load", "words"), [(10, "30 % short, S 1 % short (30"), (14, "27 % short, S 1 % short (27")])
def test_tests_of_one_quality_that_disagree_are_told_with_both_and_how_far_apart_they_are(
    benchmarks: Any, load: int, words: str
) -> None:
    push = {"kind": "isometric-calf", "left": "1400 N", "right": "300 N"}
    raise_ = {"kind": "lift", "movement": "loaded-one-leg-calf-raise", "reps": 6, "side": "left", "load": f"{load} kg"}
    result = estimate_gap(jumper_with(raise_, push), benchmarks)
    assert said(result, "tests-in-conflict") == (
        f"two tests of calf strength disagree beyond their errors: loaded one leg calf raise {load} kg × 6 to failure "
        f"is {words.replace('S', 'seated isometric calf push 1400 N')} ± 11 % apart); the first counts, they are not "
        "averaged"
    )
    lifted, pushed = result.qualities["calf-ankle"].counted[0], result.qualities["calf-ankle"].shown[0]
    assert lifted.deficit - pushed.deficit == pytest.approx(float(words[:2]) / 100, abs=0.005)
    assert math.hypot(lifted.test_part_se, pushed.test_part_se) == pytest.approx(0.11, abs=0.005)


@pytest.mark.parametrize(
    ("test", "code", "words"),
    [
        (
            {"drop": "30 cm", "trials": [{"contact": "0.60 s", "flight": "0.50 s"}]},
            "drop-jump-slow",
            "the drop jump is not used: its shortest contact is 600 ms, fast is up to 250 ms",
        ),
        (
            {"drop": "45.4 cm", "trials": [{"contact": "0.20 s", "flight": "0.50 s"}]},
            "drop-height",
            "the benchmark is drawn for a box of 30 cm, the test used 45 cm",
        ),
    ],
)
def test_a_drop_jump_that_is_not_the_usual_one_is_told_with_its_figures(
    benchmarks: Any, test: dict[str, Any], code: str, words: str
) -> None:
    assert said(estimate_gap(jumper_with({"kind": "drop-jump", **test}), benchmarks), code) == words


def test_a_low_rebound_is_told_with_both_heights(benchmarks: Any) -> None:
    """g T^2 / 8: 0.4 s make 20 cm and 0.6 s make 44 cm."""
    low = {"kind": "drop-jump", "drop": "30 cm", "trials": [{"contact": "0.20 s", "flight": "0.40 s"}]}
    stand = {"kind": "countermovement-jump", "arms": "free", "trials": ["0.60 s"]}
    told = said(estimate_gap(jumper_with(low, stand), benchmarks), "rebound-low")
    assert told.startswith(
        "the drop jump's rebound (20 cm) is under 70 % of the jump from a stand (44 cm): a low rebound"
    )


def test_the_latest_measured_fall_counts(benchmarks: Any) -> None:
    contact = {"kind": "contact-time", "take_off": "one-leg left", "trials": ["0.2 s"]}
    early = {**contact, "date": datetime.date(2025, 2, 1), "touch_down_speed_m_s": 0.4}
    late = {**contact, "date": datetime.date(2025, 2, 8), "touch_down_speed_m_s": 0.6}
    other = {**late, "take_off": "one-leg right", "date": datetime.date(2025, 2, 9), "touch_down_speed_m_s": 0.9}
    for tests in ((early, late, other), (late, early, other)):
        fall = estimate_gap(jumper_with(*tests), benchmarks).gap.touch_down
        assert fall is not None and fall.measured and (fall.slowest_m_s, fall.fastest_m_s) == (0.6, 0.6)


def test_an_assumed_push_off_is_told_to_the_centimetre(benchmarks: Any) -> None:
    standing = {"take_off": "two-leg", "approach": {"steps": 0}}
    touch = {"kind": "touch", "take_off": "two-leg", "run_up": False, "trials": ["3.00 m"]}
    result = estimate_gap(jumper([touch], **standing), benchmarks)
    [told] = [one.message for one in result.findings if one.code == "push-off-estimate"]
    assert told == (
        "a jump from a stand: force is taken over a push-off of 42 cm (0.23 × stature, ± 5 cm), not measured"
    )


def test_outside_the_curves_the_need_is_that_of_their_end_and_errs_by_the_tests_alone(benchmarks: Any) -> None:
    long = {"kind": "contact-time", "take_off": "one-leg left", "trials": ["0.5 s"]}
    outside = estimate_gap(jumper_with(long, target={"touch": "3.06 m", "method": "touch"}), benchmarks)
    assert said(outside, "outside-curves").startswith("the target's mean ground force, 1.68 body weights, is outside")
    inside = estimate_gap(jumper(), benchmarks)
    for quality in ("maximal-strength", "calf-ankle"):
        clamped, [read, *_] = outside.qualities[quality].counted[0], inside.qualities[quality].counted  # type: ignore[index]
        assert clamped.deficit_se == pytest.approx(clamped.reading.have / clamped.need * clamped.relative_se)
        assert read.deficit_se > read.reading.have / read.need * read.relative_se


def test_a_set_is_told_to_the_quarter_kilogram(benchmarks: Any) -> None:
    result = estimate_gap(jumper_with({**LIFT, "load": "112.25 kg", "reps_in_reserve": 2}), benchmarks)
    label = result.qualities["maximal-strength"].counted[0].reading.label
    assert label == "back squat 112.25 kg × 3, 2 reps in reserve"


def test_an_assumed_heel_rise_is_told_to_the_centimetre(benchmarks: Any) -> None:
    result = estimate_gap(jumper(), benchmarks)
    told = said(result, "heel-rise-estimate")
    assert told == "no reach on tip-toe measured: 12 cm of heel rise is assumed (± 3 cm)"
    assert "Heel rise off the touch: 12 cm (an estimate)." in " ".join(gap_text(result, jumper()).split())
    measured = jumper(tip_toe_reach="2.48 m")
    text = " ".join(gap_text(estimate_gap(measured, benchmarks), measured).split())
    assert "Heel rise off the touch: 10 cm (measured on tip-toe)." in text


def test_a_flight_without_an_error_of_its_own_has_that_of_its_kind_alone(benchmarks: Any) -> None:
    """g T / 4 of 0.5 s: 1 ms of each flight is 1.2 mm of height."""
    push = {"kind": "force-platform", "jump": "countermovement", "trials": [{"flight": "0.5 s"}] * 2}
    standing = {"take_off": "two-leg", "approach": {"steps": 0}, "target": {"rise": "45 cm", "method": "flight-time"}}
    bare = estimate_gap(jumper([push], **standing), benchmarks).jumps.height
    error = benchmarks.test_kinds["force-platform"].length_error
    single_m = math.hypot(error.typical_error, error.resolution / math.sqrt(12))
    assert bare.single_se_m == pytest.approx(single_m)
    stated = {**push, "trials": [{"flight": "0.5 s", "flight_error": "1 ms"}] * 2}
    read_m = estimate_gap(jumper([stated], **standing), benchmarks).jumps.height.single_se_m
    assert read_m == pytest.approx(math.hypot(single_m, g * 0.5 / 4 * 0.001))


def test_another_method_s_height_has_the_error_of_the_conversion_too(benchmarks: Any) -> None:
    given = {"kind": "given-rise", "take_off": "one-leg left", "run_up": True, "trials": ["55 cm"]}
    contact = {"kind": "contact-time", "take_off": "one-leg left", "trials": ["0.21 s"]}
    result = estimate_gap(jumper([given, contact]), benchmarks)
    extra_m = benchmarks.errors.other_method.typical_error
    assert result.jumps.rise_now_m.se == pytest.approx(math.hypot(result.jumps.height.rise_m.se, extra_m))


def speed(benchmarks: Any, test: dict[str, Any]) -> float | None:
    """The speed that the tests of a jumper without a drop jump tell, m/s."""
    tests = [one for one in read(JUMPER)["tests"] if one["kind"] != "drop-jump"]
    counted = estimate_gap(jumper([*tests, test]), benchmarks).qualities["speed-exposure"].counted
    return counted[0].reading.have if counted else None


def test_the_speed_of_a_sprint(benchmarks: Any) -> None:
    """A flying 10 m in 0.95 s; the last 10 m of a sprint of 40 m, in 1.05 s; one time alone tells no split."""
    flying = {"kind": "flying-sprint", "distance": "10 m", "trials": ["0.95 s"]}
    assert speed(benchmarks, flying) == pytest.approx(10 / 0.95)
    splits = {"kind": "sprint-splits", "distances": ["10 m", "30 m", "40 m"], "trials": [["1.8 s", "4.1 s", "5.15 s"]]}
    assert speed(benchmarks, splits) == pytest.approx(10 / 1.05)
    assert speed(benchmarks, {**splits, "distances": ["40 m"], "trials": [["5.15 s"]]}) is None
    assert speed(benchmarks, {**splits, "distances": ["10 m", "19.9 m", "40 m"]}) is None


def test_free_heel_raises_count_less_by_the_benchmarks_factor_or_in_full_without_one(benchmarks: Any) -> None:
    free = {"kind": "heel-raise", "form": "free", "protocol": "own", "left": 20, "right": 20}
    [test] = [one for one in benchmarks.qualities["calf-ankle"].tests if one.kind == "heel-raise"]
    for factor, counted in ((test.free_form_factor, 20 * test.free_form_factor), (None, 20.0)):
        tests = tuple(
            one.model_copy(update={"free_form_factor": factor}) if one.id == test.id else one
            for one in benchmarks.qualities["calf-ankle"].tests
        )
        calf = benchmarks.qualities["calf-ankle"].model_copy(update={"tests": tests})
        own = benchmarks.model_copy(update={"qualities": {**benchmarks.qualities, "calf-ankle": calf}})
        reading = estimate_gap(jumper_with(free), own).qualities["calf-ankle"].counted[0].reading
        assert reading.have == pytest.approx(counted)
        assert reading.label == f"20 heel raises, free, counted as {counted:.0f} strict ones"


def test_the_latest_jump_from_a_stand_is_held_against_the_squat_jump(benchmarks: Any) -> None:
    """Flights of 0.54 and 0.50 s: (54 / 50)^2."""
    hips = {"arms": "hips"}
    squat = {"kind": "squat-jump", **hips, "trials": ["0.50 s"]}
    stand = {"kind": "countermovement-jump", **hips}
    late = {**stand, "date": datetime.date(2025, 2, 8), "trials": ["0.54 s"]}
    early = {**stand, "date": datetime.date(2025, 2, 7), "trials": ["0.52 s"]}
    for tests in ((squat, late, early), (squat, early, late)):
        opinions = estimate_gap(jumper_with(*tests), benchmarks).gap.second_opinions
        [ratio] = [one.value for one in opinions if one.name.startswith("countermovement over squat jump")]
        assert ratio == pytest.approx(1.08**2)


def test_legs_that_lift_nothing_do_not_differ(benchmarks: Any) -> None:
    """A single with nothing in the hands: the maximum of either leg is 0 kg."""
    squat = {"kind": "lift", "movement": "heel-raised-one-leg-squat", "load": "0 kg", "reps": 1}
    result = estimate_gap(jumper_with({**squat, "side": "left"}, {**squat, "side": "right"}), benchmarks)
    [found] = [one for one in result.gap.sides if one.test.startswith("heel raised one leg squat")]
    assert (found.left, found.right, found.difference_percent, found.error_percent) == (0.0, 0.0, 0.0, 0.0)
    assert found.weaker is None


def test_forces_of_a_fall_are_told_to_the_ten_newtons(benchmarks: Any) -> None:
    line = estimate_gap(jumper(), benchmarks).gap.touch_down
    assert line is not None
    words = touch_down_words(
        line.model_copy(
            update={
                "now_at_least_N": 1234.4,
                "now_low_N": 1344.0,
                "now_high_N": 1456.0,
                "target_at_least_N": 1567.4,
                "target_low_N": 1674.0,
                "target_high_N": 1786.0,
                "gap_per_tenth_N": 35.2,
            }
        )
    )
    assert words == (
        "Mean ground force now: at least 1,234 N; 1,340–1,460 N if the body still falls at 0.3–0.7 m/s at touch-down "
        "(not measured; target: 1,567 N; 1,670–1,790 N). The gap holds while that speed stays the same; each 0.1 m/s "
        "more or less moves it by 35 N."
    )


def test_kinds_of_test_whose_days_count_as_alike_are_named_once(benchmarks: Any) -> None:
    kinds = dict(benchmarks.test_kinds)
    for kind in ("touch", "lift", "one-leg-hop"):  # the last was not done
        error = kinds[kind].error
        name = "share_error" if kind == "lift" else "length_error"
        kinds[kind] = kinds[kind].model_copy(update={name: error.model_copy(update={"day_error": None})})
    own = benchmarks.model_copy(update={"test_kinds": kinds})
    assert said(estimate_gap(jumper(), own), "no-day-error") == (
        "the benchmarks have no day_error for touch, lift: one day counts as any other there, and the ± is too small"
    )
    assert "no-day-error" not in {one.code for one in estimate_gap(jumper(), benchmarks).findings}


def test_a_camera_that_is_too_slow_is_told_with_the_time_of_its_frames(benchmarks: Any) -> None:
    trials = [{"touch_down": 1, "take_off": 2}]
    film = {"kind": "video-frames", "take_off": "one-leg left", "run_up": True, "trials": trials}
    assert said(estimate_gap(jumper_with({**film, "frame_rate": "1 /s"}), benchmarks), "video-too-slow") == (
        "no contact time is taken from 1 frames a second: ± 1 frame is ± 1000 ms, at least 120 are needed"
    )


def test_two_tests_of_one_day_that_disagree_err_by_their_trials_alone(benchmarks: Any) -> None:
    """One touch errs by 2 cm and a step of 1 cm: two of them by 2.9 cm; the day's own 1.5 cm is in both."""
    touch = {"kind": "touch", "take_off": "one-leg left", "run_up": True}
    tests = [{**touch, "trials": ["3.05 m"]}, {**touch, "trials": ["3.15 m"]}]
    result = estimate_gap(jumper(tests), benchmarks)
    heel = benchmarks.take_offs["one-leg"].heel_rise.stand_in
    low, high = (f"{100 * (mark - 2.38 - heel):.1f}".removesuffix(".0") for mark in (3.05, 3.15))
    assert said(result, "tests-in-conflict") == (
        f"two tests by touch tell different heights of one jump (one-leg left, off a run-up), {high} cm and {low} cm: "
        "10 cm apart, with errors of ± 2.9 cm; the first counts, they are not averaged"
    )


def test_a_leg_is_weaker_from_the_least_difference_on(benchmarks: Any) -> None:
    """Nine repetitions against ten are 10 per cent, which is the least; against eleven, more than that."""
    line = SideDifference(
        test="heel raises",
        unit="reps",
        left=9,
        right=10,
        difference_percent=-10.0,
        error_percent=1.0,
        weaker="left",
        quality="calf-ankle",
    )
    assert benchmarks.weaker_leg.least_difference_percent == 10
    for percent, legs in ((-10.0, {"calf-ankle": {"left"}}), (-9.9, {}), (10.0, {"calf-ankle": {"left"}})):
        assert weaker_legs([line.model_copy(update={"difference_percent": percent})], benchmarks.weaker_leg) == legs
