"""Heights and tests that disagree, read high or are of another kind are reported, never mixed silently."""

import math

import pytest

from planner.domain.findings import UserError
from planner.estimate.estimate_gap import estimate_gap
from planner.report.gap_text import gap_text
from planner.units import STANDARD_GRAVITY_m_s2 as g
from tests.estimate.people import jumper, jumper_with

TOUCH = {"kind": "touch", "take_off": "one-leg left", "run_up": True, "trials": ["3.05 m", "3.05 m"]}
CONTACT = {"kind": "contact-time", "take_off": "one-leg left", "trials": ["0.21 s"]}
STAND = {"take_off": "two-leg", "approach": {"steps": 0}}
rounding = 1e-9


def told(result, code):
    return [finding for finding in result.findings if finding.code == code]


def page(athlete, benchmarks):
    return " ".join(gap_text(estimate_gap(athlete, benchmarks), athlete, full=True).split())


# --- Two tests of one jump ------------------------------------------------------------------------------------------


def test_tests_of_another_jump_are_held_against_each_other_too(benchmarks):
    """Neither is the target jump, yet one of them is wrong."""
    reach = {"kind": "touch", "take_off": "two-leg", "run_up": False, "trials": ["2.95 m", "2.96 m"]}
    flight = {"kind": "flight-time", "take_off": "two-leg", "trials": ["0.70 s", "0.70 s"]}
    (conflict,) = told(estimate_gap(jumper([TOUCH, CONTACT, reach, flight]), benchmarks), "tests-in-conflict")
    assert "neither is used for the gap" in conflict.message
    near = {**flight, "trials": ["0.62 s", "0.62 s"]}
    assert not told(estimate_gap(jumper([TOUCH, CONTACT, reach, near]), benchmarks), "tests-in-conflict")


def test_two_touches_of_one_day_beyond_their_errors_are_a_conflict_not_a_change(benchmarks):
    result = estimate_gap(jumper([TOUCH, {**TOUCH, "trials": ["3.20 m"]}, CONTACT]), benchmarks)
    assert "two tests by touch tell different heights" in told(result, "tests-in-conflict")[0].message
    assert not told(result, "real-change")


def test_hands_on_hips_and_a_touch_are_two_jumps_not_a_conflict(benchmarks):
    """The arms add some centimetres: a difference between the two says nothing about either."""
    hips = {"kind": "countermovement-jump", "trials": ["0.50 s"]}
    reach = {"kind": "touch", "take_off": "two-leg", "run_up": False, "trials": ["3.02 m"]}
    target = {"rise": "45 cm", "method": "flight-time"}
    result = estimate_gap(jumper([hips, reach], target=target, **STAND), benchmarks)
    assert told(result, "hands-on-hips")
    assert not told(result, "tests-in-conflict")


def test_two_tests_of_one_quality_beyond_their_errors_are_a_conflict(benchmarks):
    push = {"kind": "isometric-calf", "left": "1900 N", "right": "1500 N"}
    lift = {"kind": "lift", "movement": "loaded-one-leg-calf-raise", "side": "left", "load": "10 kg", "reps": 6}
    result = estimate_gap(jumper_with(push, lift), benchmarks)
    message = next(
        one.message for one in told(result, "tests-in-conflict") if "seated isometric calf push" in one.message
    )
    assert "two tests of calf strength disagree beyond their errors" in message
    assert "the first counts, they are not averaged" in message
    agreeing = {**lift, "load": "50 kg"}
    assert not told(estimate_gap(jumper_with({**push, "left": "1400 N"}, agreeing), benchmarks), "tests-in-conflict")


# --- Flight times off a run-up --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "test",
    [
        {"kind": "video-frames", "frame_rate": "240 /s", "trials": [{"touch_down": 0, "take_off": 50, "landing": 230}]},
        {"kind": "contact-mat", "trials": [{"contact": "0.21 s", "flight": "0.75 s"}]},
    ],
    ids=lambda test: test["kind"],
)
def test_flight_off_a_run_up_is_flagged_high_and_its_contact_used(benchmarks, test):
    filmed = {**test, "take_off": "one-leg left", "run_up": True}
    result = estimate_gap(jumper([TOUCH, filmed]), benchmarks)
    assert "reads high" in told(result, "flight-time-off-run-up")[0].message
    assert (result.gap.method, result.gap.contact_time_s) == ("touch", pytest.approx(0.21, abs=0.002))
    assert [("reads high" in line.test, line.counts) for line in result.gap.heights] == [(False, True), (True, False)]
    with pytest.raises(UserError, match="bent legs"):
        estimate_gap(jumper([filmed]), benchmarks)


# --- Drop jumps -----------------------------------------------------------------------------------------------------


def test_drop_jump_by_video_reads_like_one_on_a_mat_with_the_error_of_its_frames(benchmarks):
    on_mat = {"kind": "drop-jump", "drop": "30 cm", "trials": [{"contact": "0.200 s", "flight": "0.500 s"}]}
    frames = [{"touch_down": 100, "take_off": 148, "landing": 268}]
    filmed = {
        "kind": "video-frames", "take_off": "two-leg", "drop": "30 cm", "frame_rate": "240 /s", "trials": frames,
    }  # fmt: skip
    (mat,), (video,) = (
        estimate_gap(jumper([TOUCH, CONTACT, test]), benchmarks).qualities["speed-exposure"].counted
        for test in (on_mat, filmed)
    )
    assert video.reading.have == pytest.approx(mat.reading.have, rel=rounding)
    assert video.relative_se > mat.relative_se
    assert video.confidence < mat.confidence
    clock_s, mass_kg, contact_s = 1 / (240 * math.sqrt(6)), 74, 0.2
    by_clock_N = clock_s * math.hypot((mat.reading.have - mass_kg * g) / contact_s, mass_kg * g / (2 * contact_s))
    own = math.hypot(mat.reading.have_se, by_clock_N)
    assert video.reading.have_se == pytest.approx(own)


def test_slow_camera_gives_no_drop_jump(benchmarks):
    filmed = {
        "kind": "video-frames", "take_off": "two-leg", "drop": "30 cm", "frame_rate": "60 /s",
        "trials": [{"touch_down": 0, "take_off": 12, "landing": 42}],
    }  # fmt: skip
    result = estimate_gap(jumper([TOUCH, CONTACT, filmed]), benchmarks)
    assert told(result, "video-too-slow")
    assert not result.qualities["speed-exposure"].tested


def test_rebound_height_comes_from_the_flight_whatever_the_box(benchmarks):
    def rebound(drop):
        test = {"kind": "drop-jump", "drop": drop, "trials": [{"contact": "0.200 s", "flight": "0.500 s"}]}
        heights = estimate_gap(jumper([TOUCH, CONTACT, test]), benchmarks).gap.heights
        return next(line.rise_m for line in heights if "off a box" in line.test)

    assert rebound("20 cm") == rebound("60 cm") == pytest.approx(g * 0.5**2 / 8)


def test_drop_jump_without_its_box_is_left_out_aloud(benchmarks):
    trials = [{"contact": "0.2 s", "flight": "0.5 s"}]
    result = estimate_gap(
        jumper([TOUCH, CONTACT, {"kind": "force-platform", "jump": "drop", "trials": trials}]), benchmarks
    )
    assert told(result, "drop-without-box")
    assert not result.qualities["speed-exposure"].tested


@pytest.mark.parametrize(
    "test",
    [
        {"kind": "flying-sprint", "distance": "10 m", "trials": ["0.5 s"]},
        {"kind": "flying-sprint", "distance": "0 m", "trials": ["1 s"]},
        {"kind": "flying-sprint", "distance": "10 m", "trials": ["0 s"]},
        {"kind": "sprint-splits", "distances": ["20 m", "30 m"], "trials": [["3 s", "3.4 s"]]},
    ],
)
def test_speed_that_nobody_runs_is_left_out_aloud(benchmarks, test):
    result = estimate_gap(jumper([TOUCH, CONTACT, test]), benchmarks)
    assert told(result, "sprint-not-believed")
    assert not result.qualities["speed-exposure"].tested


def test_drop_jump_is_never_the_target_jump(benchmarks):
    test = {"kind": "drop-jump", "drop": "30 cm", "trials": [{"contact": "0.200 s", "flight": "0.500 s"}]}
    target = {"rise": "45 cm", "method": "flight-time"}
    with pytest.raises(UserError, match="no test of the target jump"):
        estimate_gap(jumper([test], target=target, **STAND), benchmarks)


# --- Errors of a test, on to its confidence -------------------------------------------------------------------------


def drop(count):
    return {"kind": "drop-jump", "drop": "30 cm", "trials": [{"contact": "0.2 s", "flight": "0.5 s"}] * count}


def test_more_trials_make_a_test_more_sure(benchmarks):
    one, two = (
        estimate_gap(jumper([TOUCH, CONTACT, drop(count)]), benchmarks).qualities["speed-exposure"].counted[0]
        for count in (1, 2)
    )
    assert one.relative_se == pytest.approx(one.reading.test.standard_error)
    day_N = 0.03 * one.reading.have  # a second trial of one day leaves the day's error as it is
    one_N, two_N = (math.sqrt(each.reading.have_se**2 - day_N**2) for each in (one, two))
    assert two_N == pytest.approx(one_N / math.sqrt(2))
    assert two.confidence > one.confidence


def test_guessed_reserve_is_said_and_believed_less(benchmarks):
    def squat(reserve):
        test = {"kind": "lift", "movement": "back-squat", "load": "110 kg", "reps": 3, "reps_in_reserve": reserve}
        return estimate_gap(jumper([TOUCH, CONTACT, test]), benchmarks)

    usual, guess = squat(4), squat(5)
    assert not told(usual, "reserve-is-a-guess")
    assert "5 reps in reserve is a guess beyond 4" in told(guess, "reserve-is-a-guess")[0].message
    assert usual.qualities["maximal-strength"].confidence > guess.qualities["maximal-strength"].confidence


# --- Tests in their own unit ----------------------------------------------------------------------------------------


def test_one_leg_hip_thrust_stays_in_its_own_unit_and_after_the_split_squat(benchmarks):
    thrust = {"kind": "lift", "movement": "one-leg-hip-thrust", "side": "left", "load": "40 kg", "reps": 6}
    alone = estimate_gap(jumper_with(thrust), benchmarks).qualities["unilateral-hip"]
    (one,) = alone.counted
    maximum_kg = (40 + 37) * (1 + 6 / 30) - 37  # Epley on load and half the body
    assert (one.reading.unit, one.reading.have) == ("× body mass", pytest.approx(maximum_kg / 74))
    assert alone.first_test.id == "rear-foot-split-squat"
    split = {**thrust, "movement": "rear-foot-split-squat"}
    both = estimate_gap(jumper_with(thrust, split), benchmarks).qualities["unilateral-hip"]
    assert [judgement.reading.test.id for judgement in both.counted] == ["rear-foot-split-squat"]
    assert "0.75 × body mass" in page(jumper_with(thrust), benchmarks)


def test_isometric_peak_and_rebounds_are_shown(benchmarks):
    pull = {"kind": "isometric-force", "position": "squat", "trials": ["2.4 kN", "2400 N"]}
    bounce = {"kind": "contact-mat", "take_off": "two-leg", "trials": [{"contact": "0.180 s", "flight": "0.440 s"}]}
    text = page(jumper_with(pull, bounce), benchmarks)
    assert "isometric squat: peak force, body weight in: 2,400 N: 3.31 body weights" in text
    assert "reactive strength index, flight over contact, of rebounds on a mat: 2.44" in text


# --- What limits, and what is enough --------------------------------------------------------------------------------


def test_what_the_page_calls_enough_is_never_what_limits(benchmarks):
    """The squat is 1 % short: too little to act on, so the shares leave it out."""
    squat = {"kind": "lift", "movement": "back-squat", "load": "110 kg", "reps": 3, "reps_in_reserve": 2}
    result = estimate_gap(jumper_with(squat), benchmarks)
    assert 0 < result.qualities["maximal-strength"].deficit < 0.02
    assert (result.gap.strength_share, result.gap.speed_share) == (0, 1)
    story = " ".join(result.gap.story)
    assert "short, but not enough to act on, of maximal strength by 1 %" in story
    assert "the way to the target is limited by fast force and speed." in story


def test_novice_whose_untested_qualities_have_no_test_to_advise_is_told_so(benchmarks):
    raises = {"kind": "heel-raise", "form": "strict", "protocol": "60 a minute", "left": 20, "right": 20}
    goblet = {"kind": "lift", "movement": "goblet-squat", "load": "20 kg", "reps": 8}
    sprint = {"kind": "flying-sprint", "distance": "10 m", "trials": ["1.4 s"]}
    novice = jumper([TOUCH, CONTACT, raises, goblet, sprint], level="novice", landing="not-yet")
    text = page(novice, benchmarks)
    assert "Every quality has its best test" not in text
    assert "No other test is advised at this level" in text
