"""Every kind of test: what it gives, what is refused, what gets a warning, and that heights are not mixed."""

import math

import pytest

from planner.domain.findings import UserError
from planner.domain.measure import TEST_KINDS, Test
from planner.estimate.estimate_gap import estimate_gap
from planner.units import STANDARD_GRAVITY_m_s2 as g
from tests.estimate.people import jumper, jumper_with

rounding = 1e-9
STANDING = {"take_off": "two-leg", "approach": {"steps": 0}}
CMJ = {"kind": "countermovement-jump", "arms": "free", "trials": ["0.55 s", "0.56 s"]}
BY_FLIGHT = {"target": {"rise": "45 cm", "method": "flight-time"}}
BY_IMPULSE = {"target": {"rise": "45 cm", "method": "impulse"}}


def codes(result):
    return {finding.code: finding for finding in result.findings}


def standing(tests, **changes):
    return jumper(tests, **{**STANDING, **BY_FLIGHT, **changes})


def rise_m(*flights_s):
    best = sorted(flights_s)[-2:]
    return g * (sum(best) / len(best)) ** 2 / 8


def test_every_kind_is_in_the_shipped_file_with_one_error_and_its_source(benchmarks):
    assert set(benchmarks.test_kinds) == set(TEST_KINDS)
    in_union = {member.model_fields["kind"].annotation.__args__[0] for member in Test.__origin__.__args__}
    assert in_union == set(TEST_KINDS)


# --- Video frames -------------------------------------------------------------------------------------------------


def video(rate, trials, **more):
    return {
        "kind": "video-frames",
        "take_off": "one-leg left",
        "run_up": True,
        "frame_rate": rate,
        "trials": trials,
        **more,
    }


CONTACT_FRAMES = [{"touch_down": 100, "take_off": 150}, {"touch_down": 10, "take_off": 61}]
TOUCH = {"kind": "touch", "take_off": "one-leg left", "run_up": True, "trials": ["3.05 m"]}


def test_contact_from_frames_with_the_error_of_a_frame(benchmarks):
    result = estimate_gap(jumper([TOUCH, video("240 /s", CONTACT_FRAMES)]), benchmarks)
    assert result.gap.contact_time_s == pytest.approx((50 + 51) / 2 / 240)
    assert "240 frames" in result.gap.contact_time_from
    frame_se = 1 / (240 * math.sqrt(6))
    assert result.inputs.contact_time_s.se == pytest.approx(
        math.hypot(0.004, math.hypot(0.006, frame_se) / math.sqrt(2))  # the day, and two trials
    )
    assert not {"video-slow", "video-too-slow"} & set(codes(result))


def test_contact_under_120_frames_is_refused_under_240_warned_of(benchmarks):
    result = estimate_gap(jumper([TOUCH, video("60 /s", [{"touch_down": 100, "take_off": 112}])]), benchmarks)
    assert "± 17 ms" in codes(result)["video-too-slow"].message
    assert "no-contact-time" in codes(result)
    result = estimate_gap(jumper([TOUCH, video("120 /s", [{"touch_down": 100, "take_off": 125}])]), benchmarks)
    assert "± 8 ms" in codes(result)["video-slow"].message
    assert result.gap.contact_time_s == pytest.approx(25 / 120)


def test_frames_that_cannot_be_are_named_and_left_out(benchmarks):
    trials = [*CONTACT_FRAMES, {"touch_down": 160, "take_off": 150}]
    result = estimate_gap(jumper([TOUCH, video("240 /s", trials)]), benchmarks)
    assert "video-contact" in codes(result)
    assert result.gap.contact_time_s == pytest.approx((50 + 51) / 2 / 240)


def test_flight_from_frames_is_a_height_from_a_stand_only(benchmarks):
    flight = video("240 /s", [{"take_off": 0, "landing": 132}], take_off="two-leg", run_up=False)
    result = estimate_gap(standing([flight]), benchmarks)
    assert result.gap.now.rise_m == pytest.approx(rise_m(132 / 240))
    frame_m = g * (132 / 240) / 4 / (240 * math.sqrt(6))
    assert result.gap.now.rise_m_se > frame_m
    off_run_up = video("240 /s", [{"take_off": 0, "landing": 160}])
    with pytest.raises(UserError, match="bent legs"):
        estimate_gap(jumper([off_run_up]), benchmarks)


# --- Jumps from a stand -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "test",
    [
        CMJ,
        {"kind": "flight-time", "take_off": "two-leg", "trials": ["0.55 s", "0.56 s"]},
        {"kind": "contact-mat", "take_off": "two-leg", "trials": [{"flight": "0.55 s"}, {"flight": "0.56 s"}]},
        {"kind": "force-platform", "jump": "countermovement", "trials": [{"flight": "0.55 s"}, {"flight": "0.56 s"}]},
    ],
    ids=lambda test: test["kind"],
)
def test_flight_times_of_any_clock_are_one_formula(benchmarks, test):
    assert estimate_gap(standing([test]), benchmarks).gap.now.rise_m == pytest.approx(rise_m(0.55, 0.56))


def test_one_leg_jump_counts_for_its_own_leg(benchmarks):
    test = {"kind": "one-leg-jump", "left": ["0.40 s"], "right": ["0.44 s"]}
    left = estimate_gap(standing([test], take_off="one-leg left"), benchmarks)
    assert left.gap.now.rise_m == pytest.approx(rise_m(0.40))
    right = estimate_gap(standing([test], take_off="one-leg right"), benchmarks)
    assert right.gap.now.rise_m == pytest.approx(rise_m(0.44))


def test_squat_jump_is_never_the_target_jump(benchmarks):
    with pytest.raises(UserError, match="no test of the target jump"):
        estimate_gap(standing([{**CMJ, "kind": "squat-jump"}]), benchmarks)


def test_hands_on_hips_stand_in_only_where_no_other_is_and_aloud(benchmarks):
    hips = {**CMJ, "arms": "hips", "trials": ["0.60 s"]}
    assert "hands-on-hips" in codes(estimate_gap(standing([hips]), benchmarks))
    both = estimate_gap(standing([hips, CMJ]), benchmarks)
    assert "hands-on-hips" not in codes(both)
    assert both.gap.now.rise_m == pytest.approx(rise_m(0.55, 0.56))


def test_platform_impulse_carries_the_records_own_error(benchmarks):
    trial = {"rise_by_impulse": "0.400 m", "rise_by_impulse_error": "0.010 m", "flight": "0.58 s"}
    test = {"kind": "force-platform", "jump": "countermovement", "arms": "free", "trials": [trial, trial]}
    result = estimate_gap(standing([test], **BY_IMPULSE), benchmarks)
    assert (result.gap.method, result.gap.now.rise_m) == ("impulse", pytest.approx(0.4))
    assert result.gap.now.rise_m_se == pytest.approx(
        math.hypot(0.015, math.hypot(0.015, 0.010) / math.sqrt(2))  # the day, and two trials
    )


def test_conversion_is_said_and_editable(benchmarks):
    one = benchmarks.conversions[0].model_copy(update={"add_cm": -2.0, "standard_error_cm": 4.0})
    edited = benchmarks.model_copy(update={"conversions": (one,)})
    result = estimate_gap(standing([CMJ], **BY_IMPULSE), edited)
    assert result.gap.now.rise_m == pytest.approx(rise_m(0.55, 0.56) - 0.02)
    assert result.gap.now.rise_m_se > 0.04
    assert "with -2 cm added" in codes(result)["other-method"].message


def test_two_methods_in_conflict_are_shown_not_averaged(benchmarks):
    platform = {
        "kind": "force-platform", "jump": "countermovement", "arms": "free",
        "trials": [{"rise_by_impulse": "0.300 m", "flight": "0.56 s"}],
    }  # fmt: skip
    result = estimate_gap(standing([CMJ, platform]), benchmarks)
    assert "flight time and impulse tell different heights" in codes(result)["tests-in-conflict"].message
    assert result.gap.now.rise_m == pytest.approx(rise_m(0.55, 0.56))
    assert [line.counts for line in result.gap.heights] == [True, False]
    agreeing = {**platform, "trials": [{"rise_by_impulse": "0.385 m", "flight": "0.56 s"}]}
    assert "tests-in-conflict" not in codes(estimate_gap(standing([CMJ, agreeing]), benchmarks))


def test_change_beyond_noise_is_told(benchmarks):
    better = {"kind": "touch", "take_off": "one-leg left", "run_up": True, "trials": ["3.13 m"]}
    assert "higher than on 2025-01-04" in codes(estimate_gap(jumper_with(better), benchmarks))["real-change"].message
    same = {**better, "trials": ["3.08 m"]}
    assert "real-change" not in codes(estimate_gap(jumper_with(same), benchmarks))


# --- Qualities ----------------------------------------------------------------------------------------------------


def test_drop_jump_on_a_platform_reads_like_one_on_a_mat(benchmarks):
    trials = [{"contact": "0.215 s", "flight": "0.50 s"}]
    platform = {"kind": "force-platform", "jump": "drop", "drop": "30 cm", "trials": trials}
    on_mat = estimate_gap(jumper(), benchmarks).qualities["speed-exposure"]
    on_platform = estimate_gap(jumper_with(platform), benchmarks).qualities["speed-exposure"]
    assert on_platform.counted[0].reading.have == pytest.approx(on_mat.counted[0].reading.have)
    assert on_platform.counted[0].reading.date != on_mat.counted[0].reading.date


def test_last_split_from_20_m_is_a_speed_an_early_one_is_not(benchmarks):
    splits = {"kind": "sprint-splits", "distances": ["10 m", "20 m", "30 m"], "trials": [["1.8 s", "3.0 s", "4.2 s"]]}
    found = estimate_gap(jumper_with(splits), benchmarks).qualities["speed-exposure"].counted
    assert [one.reading.have for one in found if one.reading.unit == "m/s"] == [pytest.approx(10 / 1.2)]
    early = {**splits, "distances": ["5 m", "10 m", "15 m"]}
    found = estimate_gap(jumper_with(early), benchmarks).qualities["speed-exposure"].counted
    assert all(one.reading.unit != "m/s" for one in found)
    flying = {"kind": "flying-sprint", "distance": "10 m", "trials": ["1.25 s"]}
    found = estimate_gap(jumper_with(splits, flying), benchmarks).qualities["speed-exposure"].counted
    assert [one.reading.have for one in found if one.reading.unit == "m/s"] == [pytest.approx(8.0)]


# --- Left and right -----------------------------------------------------------------------------------------------


def sides_of(benchmarks, *tests):
    return {one.test.split(" (")[0]: one for one in estimate_gap(jumper_with(*tests), benchmarks).gap.sides}


def test_sides_differ_only_beyond_their_error(benchmarks):
    hop = {"kind": "one-leg-hop", "left": ["1.80 m", "1.82 m"], "right": ["1.78 m", "1.80 m"]}
    near = sides_of(benchmarks, hop)["one-leg hop"]
    assert near.weaker is None
    far = sides_of(benchmarks, {**hop, "right": ["1.40 m", "1.45 m"]})["one-leg hop"]
    assert far.weaker == "right"
    assert far.difference_percent == pytest.approx(100 * (1.81 - 1.425) / 1.81)


def test_sides_of_pushes_jumps_pulls_and_lifts(benchmarks):
    found = sides_of(
        benchmarks,
        {"kind": "isometric-calf", "left": "1200 N", "right": "1500 N"},
        {"kind": "one-leg-jump", "left": ["0.40 s"], "right": ["0.42 s"]},
        {"kind": "isometric-force", "position": "squat", "side": "left", "trials": ["1500 N"]},
        {"kind": "isometric-force", "position": "squat", "side": "right", "trials": ["1550 N"]},
        {"kind": "lift", "movement": "rear-foot-split-squat", "side": "left", "load": "50 kg", "reps": 6},
        {"kind": "lift", "movement": "rear-foot-split-squat", "side": "right", "load": "52.5 kg", "reps": 6},
    )
    assert found["seated isometric calf push"].weaker == "left"
    assert found["one-leg jump, rise by flight time"].weaker is None
    assert found["isometric squat"].weaker is None
    assert found["rear foot split squat, one-repetition maximum of the load"].weaker is None


def test_platform_shares_need_three_jumps_and_their_own_scatter(benchmarks):
    def platform(*shares):
        trials = [{"flight": "0.5 s", "left_share": share} for share in shares]
        return {"kind": "force-platform", "jump": "countermovement", "trials": trials}

    assert "share of the push on a platform" not in sides_of(benchmarks, platform(0.55, 0.56))
    steady = sides_of(benchmarks, platform(0.55, 0.56, 0.555))["share of the push on a platform"]
    assert steady.weaker == "right"
    loose = sides_of(benchmarks, platform(0.45, 0.58, 0.51))["share of the push on a platform"]
    assert loose.weaker is None


# --- Second opinions ----------------------------------------------------------------------------------------------


def opinions(benchmarks, *tests):
    result = estimate_gap(jumper_with(*tests), benchmarks)
    return {one.name.split(":")[0].split(",")[0]: one for one in result.gap.second_opinions}, result


def test_both_reactive_indices_are_named(benchmarks):
    result = estimate_gap(jumper(), benchmarks)
    named = [(one.name.split(", ")[1], one.value) for one in result.gap.second_opinions]
    assert named == [
        ("height over contact", pytest.approx(g * 0.5**2 / 8 / 0.215)),
        ("flight over contact", pytest.approx(0.5 / 0.215)),
    ]


PULL = {"kind": "isometric-force", "position": "mid-thigh-pull", "trials": ["2500 N", "2500 N"]}


@pytest.mark.parametrize(("peak", "says"), [(1450, "fast"), (1750, "both"), (2050, "maximal")])
def test_dynamic_strength_index_bands_with_the_caution(benchmarks, peak, says):
    trial = {"flight": "0.5 s", "peak_force": f"{peak} N"}
    found, result = opinions(
        benchmarks, {"kind": "force-platform", "jump": "countermovement", "trials": [trial, trial]}, PULL
    )
    one = found["dynamic strength index"]
    assert one.value == pytest.approx(peak / 2500)
    assert one.says.startswith(says)
    assert "one voice, not the judge" in one.caution
    assert result.emphasis.tilts == estimate_gap(jumper(), benchmarks).emphasis.tilts  # shown, never acted on


def test_pull_without_body_weight_is_made_alike(benchmarks):
    trial = {"flight": "0.5 s", "peak_force": "1750 N"}
    bare = {**PULL, "includes_body_weight": False}
    found, _ = opinions(benchmarks, {"kind": "force-platform", "jump": "countermovement", "trials": [trial]}, bare)
    assert found["dynamic strength index"].value == pytest.approx(1750 / (2500 + 74 * g))


def test_countermovement_over_squat_jump_only_for_hands_alike(benchmarks):
    squat = {"kind": "squat-jump", "trials": ["0.50 s"]}
    found, _ = opinions(benchmarks, squat, {**CMJ, "arms": "hips", "trials": ["0.53 s"]})
    assert found["countermovement over squat jump"].value == pytest.approx(0.53**2 / 0.50**2)
    found, _ = opinions(benchmarks, squat, CMJ)
    assert "countermovement over squat jump" not in found


def loaded(*sets):
    return {
        "kind": "loaded-jump", "form": "squat", "push_off": "40 cm",
        "sets": [{"load": f"{load} kg", "flights": [f"{flight} s"]} for load, flight in sets],
    }  # fmt: skip


def test_profile_with_its_cautions_and_refused_from_two_loads(benchmarks):
    found, _ = opinions(benchmarks, loaded((0, 0.53), (20, 0.46), (40, 0.40), (60, 0.345)))
    one = found["force-velocity imbalance"]
    assert 0.2 < one.value < 2
    for words in ("weak evidence", "Lindberg", "17-27 %", "not fit for programming"):
        assert words in one.caution
    found, result = opinions(benchmarks, loaded((0, 0.53), (20, 0.46)))
    assert "force-velocity imbalance" not in found
    assert "it takes 3 loads" in codes(result)["no-profile"].message
    found, result = opinions(benchmarks, loaded((0, 0.40), (20, 0.46), (40, 0.53)))
    assert "no-profile" in codes(result)  # force must fall as speed grows
