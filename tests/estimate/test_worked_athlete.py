"""A jumper of 74 kg worked by hand from test to sets. Standing: common practice, no source.

Touch 3.05 m now, 3.20 m aimed at, reach 2.38 m, heel rise 12 cm (stand-in), contact 0.21 s, off the left leg.
"""

from dataclasses import replace

import pytest

from planner.estimate.emphasis import emphasised_sets
from planner.estimate.estimate_gap import estimate_gap
from planner.estimate.force_gap import TakeOffInputs, force_gap, take_off_at
from planner.estimate.strength import brzycki_kg, epley_kg, load_for_reps_kg
from planner.estimate.take_off import contact_time_for_force_s, take_off_in_contact
from planner.estimate.uncertainty import Estimate
from planner.units import POUND_FORCE_N, STANDARD_GRAVITY_m_s2
from tests.estimate.people import jumper, jumper_with, shipped_benchmarks

one_newton = 1.0
one_pound_force = 1.0
half_a_last_place = 0.0051
one_tenth_percent = 0.0006
one_tenth_kilogram = 0.06
one_tenth_set = 0.06
scale_and_scatter = 1.5  # N: the worked errors leave out body mass and the steps of the tape

BASE_SETS = {"maximal-strength": 9.0, "unilateral-hip": 7.0, "knee-dominant": 5.5, "calf-ankle": 7.5}
BASE_SPRINTS, BASE_HIGH_CONTACTS = 8, 16


@pytest.fixture(scope="module")
def worked():
    return estimate_gap(jumper(), shipped_benchmarks())


@pytest.fixture
def inputs():
    return TakeOffInputs(
        body_mass_kg=Estimate(74.0, 0.0),
        rise_now_m=Estimate(0.55, 0.02),
        rise_target_m=Estimate(0.70, 0.0),
        heel_rise_se_m=0.03,
        contact_time_s=Estimate(0.21, 0.006),
    )


def lines(result, quality):
    return {line.side: line for line in result.gap.qualities if line.quality == quality}


@pytest.mark.parametrize(
    ("key", "now", "target", "gap", "tolerance"),
    [
        ("rise_m", 0.55, 0.70, 0.15, 0.0001),
        ("take_off_speed_m_s", 3.284, 3.705, 0.421, 0.0006),
        ("net_impulse_Ns", 243.0, 274.2, 31.1, 0.06),
        ("mean_net_force_N", 1157, 1306, 148, one_newton),
        ("mean_ground_force_N", 1883, 2031, 148, one_newton),
        ("mean_ground_force_bw", 2.595, 2.799, 0.204, 0.0006),
    ],
)
def test_take_off_now_target_and_gap(worked, key, now, target, gap, tolerance):
    found = [getattr(line, key) for line in (worked.gap.now, worked.gap.target, worked.gap.gap)]
    assert found == pytest.approx([now, target, gap], abs=tolerance)


def test_ground_force_in_pounds_force(worked):
    found = [line.mean_ground_force_N / POUND_FORCE_N for line in (worked.gap.now, worked.gap.target, worked.gap.gap)]
    assert found == pytest.approx([423, 457, 33], abs=one_pound_force)


def test_eight_percent_of_force_is_twenty_seven_percent_of_height(worked):
    gap = worked.gap
    assert gap.gap.mean_ground_force_N / gap.now.mean_ground_force_N == pytest.approx(0.079, abs=one_tenth_percent)
    assert gap.gap.rise_m / gap.now.rise_m == pytest.approx(0.27, abs=half_a_last_place)


def test_errors_shared_by_now_and_target_count_once(inputs):
    force = force_gap(inputs)
    now, target, gap = (line.mean_ground_force_N.se for line in (force.now, force.target, force.gap))
    assert [now, target, gap] == pytest.approx([50, 47, 22], abs=0.6)
    assert (now**2 + target**2) ** 0.5 == pytest.approx(69, abs=0.6)  # what naive quadrature would say


def test_whole_estimate_carries_those_errors(worked):
    force = worked.force_on_curves  # without the range of the fall at touch-down
    found = [line.mean_ground_force_N.se for line in (force.now, force.target, force.gap)]
    # With the days: a touch of 2.5 and a contact of 7.2 ms instead of the trials' 2 cm and 6 ms alone.
    assert found == pytest.approx([57, 53, 27.5], abs=scale_and_scatter)
    assert not worked.gap.inside_noise


def test_falling_at_touch_down_adds_to_both_and_not_to_the_gap(inputs):
    falling = force_gap(replace(inputs, touch_down_speed_m_s=-0.4))
    assert falling.now.mean_ground_force_N.value == pytest.approx(2024, abs=one_newton)
    assert falling.target.mean_ground_force_N.value == pytest.approx(2172, abs=one_newton)
    assert falling.now.mean_ground_force_bw.value == pytest.approx(2.79, abs=half_a_last_place)
    assert falling.target.mean_ground_force_bw.value == pytest.approx(2.99, abs=half_a_last_place)
    assert falling.gap.mean_ground_force_N.value == pytest.approx(148, abs=one_newton)


@pytest.mark.parametrize(("contact_s", "force_N"), [(0.18, 2249), (0.20, 2097), (0.22, 1972)])
def test_target_at_other_contact_times(inputs, contact_s, force_N):
    at = replace(inputs, contact_time_s=Estimate(contact_s, 0.0))
    assert take_off_at(at, 0.70).mean_ground_force_N == pytest.approx(force_N, abs=one_newton)


def test_present_force_needs_a_longer_plant(worked):
    time_s = contact_time_for_force_s(
        rise_m=0.70, body_mass_kg=74, mean_ground_force_N=worked.gap.now.mean_ground_force_N
    )
    assert time_s == pytest.approx(0.237, abs=0.0006)


@pytest.mark.parametrize(("heel_m", "gap_N"), [(0.10, 146), (0.12, 148), (0.15, 152)])
def test_heel_rise_hardly_moves_the_gap(inputs, heel_m, gap_N):
    shift_m = 0.12 - heel_m
    moved = replace(inputs, rise_now_m=Estimate(0.55 + shift_m, 0.02), rise_target_m=Estimate(0.70 + shift_m, 0.0))
    assert force_gap(moved).gap.mean_ground_force_N.value == pytest.approx(gap_N, abs=one_newton)


@pytest.mark.parametrize(("frames_per_s", "low_N", "high_N"), [(30, 1725, 2101), (240, 1861, 1906)])
def test_one_video_frame_more_or_less(frames_per_s, low_N, high_N):
    longer, shorter = (
        take_off_in_contact(rise_m=0.55, body_mass_kg=74, contact_time_s=0.21 + step / frames_per_s) for step in (1, -1)
    )
    assert longer.mean_ground_force_N == pytest.approx(low_N, abs=one_newton)
    assert shorter.mean_ground_force_N == pytest.approx(high_N, abs=one_newton)


def test_maximal_strength(worked):
    assert epley_kg(load_kg=120, reps_to_failure=5) == pytest.approx(140.0, abs=one_tenth_kilogram)
    assert brzycki_kg(load_kg=120, reps_to_failure=5) == pytest.approx(135.0, abs=one_tenth_kilogram)
    one_rm = worked.one_rm_kg["back-squat", "both"].value
    assert one_rm == pytest.approx(137.5, abs=one_tenth_kilogram)
    assert one_rm / 74 == pytest.approx(1.86, abs=half_a_last_place)
    line = lines(worked, "maximal-strength")["both"]
    assert (line.have, line.need) == (
        pytest.approx(2074, abs=one_newton),
        pytest.approx(1981, abs=one_newton),
    )
    assert line.need / STANDARD_GRAVITY_m_s2 - 74 == pytest.approx(128.0, abs=one_tenth_kilogram)
    assert line.deficit == pytest.approx(-0.047, abs=one_tenth_percent)
    assert line.confidence == pytest.approx(0.55, abs=half_a_last_place)
    judgement = worked.qualities["maximal-strength"].counted[0]
    assert judgement.supported_x == pytest.approx(2.96, abs=half_a_last_place)


@pytest.mark.parametrize(
    ("quality", "need_N", "leg_share", "one_rm_kg", "load_for_8_kg"),
    [("unilateral-hip", 1291, 0.844, 82, 49), ("knee-dominant", 1059, 1.0, 34, 11)],
)
def test_untested_strength_keeps_its_share(worked, quality, need_N, leg_share, one_rm_kg, load_for_8_kg):
    line = lines(worked, quality)["each"]
    assert (line.status, line.have, line.deficit, line.confidence, line.emphasis) == ("untested", None, 0, 0, 1)
    assert line.need == pytest.approx(need_N, abs=one_newton)
    one_rm = line.need / (leg_share * STANDARD_GRAVITY_m_s2) - 74
    assert one_rm == pytest.approx(one_rm_kg, abs=0.5)
    load = load_for_reps_kg(one_rm=one_rm, reps_to_failure=8, body_mass_kg=74, body_mass_share=1)
    assert load == pytest.approx(load_for_8_kg, abs=0.5)


def test_calf_by_repetitions_stays_in_repetitions(worked):
    sides = lines(worked, "calf-ankle")
    assert [sides[leg].have for leg in ("left", "right")] == [22, 27]
    assert {sides[leg].unit for leg in ("left", "right")} == {"reps"}
    assert sides["left"].need == pytest.approx(28, abs=0.5)
    assert sides["left"].deficit == pytest.approx(0.21, abs=0.006)
    assert sides["right"].deficit == pytest.approx(0.04, abs=0.006)
    assert sides["left"].confidence == pytest.approx(0.14, abs=half_a_last_place)
    newtons = worked.target_x * 0.70 * 74 * STANDARD_GRAVITY_m_s2
    assert newtons == pytest.approx(1422, abs=one_newton)  # the loaded raise's need


def test_fast_force(worked):
    line = lines(worked, "speed-exposure")["both"]
    assert line.have == pytest.approx(2404, abs=one_newton)
    assert line.have / (74 * STANDARD_GRAVITY_m_s2) == pytest.approx(3.31, abs=half_a_last_place)
    assert line.need == pytest.approx(2561, abs=one_newton)
    assert line.deficit == pytest.approx(0.061, abs=one_tenth_percent)
    assert line.confidence == pytest.approx(0.50, abs=half_a_last_place)
    assert worked.qualities["speed-exposure"].counted[0].supported_x == pytest.approx(2.53, abs=half_a_last_place)


def test_speed_limits_and_strength_does_not(worked):
    assert worked.gap.strength_share == 0
    assert worked.gap.speed_share == 1


def test_next_tests_are_hip_then_loaded_calf_raise(worked):
    assert "split squat" in worked.useful_tests[0]
    assert "49 kg × 8" in worked.useful_tests[0]
    assert "loaded one-leg standing calf raise" in worked.useful_tests[1]


def test_emphasis_from_deficits(worked):
    assert worked.emphasis.tilts == pytest.approx(
        {
            "maximal-strength": 0.90,
            "unilateral-hip": 1.0,
            "knee-dominant": 1.0,
            "calf-ankle": 1.12,
            "speed-exposure": 1.12,
        },
        abs=half_a_last_place,
    )
    assert not worked.emphasis.strong_and_sure


def test_week_of_sets_sprints_and_high_contacts(worked):
    sets = emphasised_sets(BASE_SETS, worked.emphasis.tilts)
    assert list(sets.values()) == pytest.approx([8.1, 7.0, 5.5, 8.4], abs=one_tenth_set)
    assert sum(sets.values()) == pytest.approx(sum(BASE_SETS.values()))
    assert round(BASE_SPRINTS * worked.emphasis.tilts["speed-exposure"]) == 9
    assert round(BASE_HIGH_CONTACTS * worked.emphasis.tilts["speed-exposure"]) == 18


def test_weaker_squat_turns_the_budget_to_strength():
    weaker = {"kind": "lift", "movement": "back-squat", "load": "95 kg", "reps": 5, "reps_in_reserve": 2}
    result = estimate_gap(jumper_with(weaker), shipped_benchmarks())
    one_rm = result.one_rm_kg["back-squat", "both"].value
    assert one_rm == pytest.approx(115.6, abs=one_tenth_kilogram)
    assert one_rm / 74 == pytest.approx(1.56, abs=half_a_last_place)
    assert lines(result, "maximal-strength")["both"].deficit == pytest.approx(0.061, abs=one_tenth_percent)
    # 6.1 ± 8.7 %: inside its error, so 1.10 where the gain alone would make 1.14.
    assert result.emphasis.tilts["maximal-strength"] == pytest.approx(1.10, abs=half_a_last_place)
    sets = emphasised_sets(BASE_SETS, result.emphasis.tilts)
    assert list(sets.values()) == pytest.approx([9.3, 6.6, 5.2, 7.9], abs=one_tenth_set)


def test_story_says_it_in_words(worked):
    story = " ".join(worked.gap.story)
    assert "148 ± 27 N more" in story
    assert "+7.9 % of force is +27.3 % of height" in story
    assert "untested: one-leg hip strength and knee-dominant strength" in story
    assert "limited by fast force and speed" in story
    assert "Technique and approach: not measured" in story
