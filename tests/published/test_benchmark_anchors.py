"""Published figures that the shipped benchmarks rest on, and what the estimate makes of them, each under its source.

Curves and stand-ins without a source are common practice; a test of the benchmarks holds the file to saying so.
"""

import math

import pytest
from pydantic import TypeAdapter

from planner.domain.base import BodyMass, ContactTime, Touch
from planner.estimate.estimate_gap import estimate_gap
from planner.estimate.qualities import supported_on_curve
from planner.estimate.second_opinions import reading_of
from planner.estimate.take_off import drop_jump_mean_force_N, rise_from_flight_time_m
from planner.units import STANDARD_GRAVITY_m_s2, parse_quantity
from tests.estimate.people import jumper, jumper_with

half_a_last_place = 0.005
float_rounding = 1e-9
CONTACT = {"kind": "contact-time", "take_off": "one-leg left", "trials": ["0.21 s"]}
TOUCH = {"kind": "touch", "take_off": "one-leg left", "run_up": True, "trials": ["3.05 m"]}


def quality_test(benchmarks, quality, test):
    return next(one for one in benchmarks.qualities[quality].tests if one.id == test)


def test_lead_foot_carries_84_4_percent_in_helme_2022_jscr_36_1781(benchmarks):
    test = quality_test(benchmarks, "unilateral-hip", "rear-foot-split-squat")
    assert test.lift.leg_share == 0.844
    lift = {"kind": "lift", "movement": "rear-foot-split-squat", "side": "left", "load": "50 kg", "reps": 1}
    (one,) = estimate_gap(jumper_with(lift), benchmarks).qualities["unilateral-hip"].counted
    assert one.reading.have == pytest.approx(0.844 * (50 + 74) * STANDARD_GRAVITY_m_s2)


@pytest.mark.parametrize(("body_weights", "low", "high"), [(1.86, 2.5, 2.9), (2.00, 2.7, 3.1)])
def test_seated_push_of_rugby_players_in_lee_2023_phys_ther_sport_61_114(benchmarks, body_weights, low, high):
    """All players 1.86 +- 0.31, backs 2.00 body weights: on the curve they support a usual good take-off."""
    curve = quality_test(benchmarks, "calf-ankle", "isometric-calf").curves["one-leg"]
    assert low < supported_on_curve(curve, body_weights, highest=benchmarks.axis.high) < high


def test_free_against_strict_heel_raises_after_green_2024_biomed_4_89(benchmarks):
    assert quality_test(benchmarks, "calf-ankle", "heel-raise").free_form_factor == 0.65


def test_error_of_heel_raises_from_the_limits_of_agreement_of_hebert_losier_2017_physiotherapy_103_446(benchmarks):
    """About +- 6 repetitions at a median of 24: SD of differences 6 / 1.96, of one result that over the root of 2."""
    error = benchmarks.test_kinds["heel-raise"].share_error
    assert error.typical_error == pytest.approx(6 / 1.96 / math.sqrt(2) / 24, abs=half_a_last_place)


@pytest.mark.parametrize("rise_m", [0.30, 0.40])
def test_error_of_jumps_is_within_the_variation_of_2_4_to_5_8_percent_published_for_countermovement_jumps(
    benchmarks, rise_m
):
    flight_s = math.sqrt(8 * rise_m / STANDARD_GRAVITY_m_s2)
    variation = 2 * benchmarks.test_kinds["countermovement-jump"].time_error.typical_error / flight_s
    assert 0.024 < variation < 0.058
    assert 0.024 < benchmarks.test_kinds["force-platform"].length_error.typical_error / rise_m < 0.058


def test_stated_reserve_errs_by_0_95_repetitions_in_halperin_2022_sports_med_52_377(benchmarks):
    assert benchmarks.strength.reserve_error_reps >= 0.95
    assert benchmarks.strength.guessed_reserve_error_reps > benchmarks.strength.reserve_error_reps


def test_slow_drop_jump_is_no_fast_stretch_shortening_over_250_ms_schmidtbleicher_1992(benchmarks):
    def tested(contact):
        test = {"kind": "drop-jump", "drop": "30 cm", "trials": [{"contact": contact, "flight": "0.5 s"}]}
        return estimate_gap(jumper([TOUCH, CONTACT, test]), benchmarks).qualities["speed-exposure"].tested

    assert tested("250 ms")
    assert not tested("251 ms")


def test_drop_below_the_box_is_within_the_error_baca_1999_msse_31_437(benchmarks):
    """A true drop of 26 cm off a 30 cm box reads 3.23 instead of 3.31 body weights (worked; common practice)."""

    def body_weights(drop_m):
        force_N = drop_jump_mean_force_N(body_mass_kg=74, drop_m=drop_m, contact_time_s=0.215, flight_time_s=0.50)
        return force_N / (74 * STANDARD_GRAVITY_m_s2)

    assert body_weights(0.30) == pytest.approx(3.31, abs=half_a_last_place)
    assert body_weights(0.26) == pytest.approx(3.23, abs=half_a_last_place)
    test = quality_test(benchmarks, "speed-exposure", "drop-jump")
    assert 1 - body_weights(0.26) / body_weights(0.30) < test.standard_error


def test_fastest_sprint_of_taylor_and_beneke_2012_ijsm_33_667_is_believed_and_its_contact_can_be_written(benchmarks):
    """12.3 m/s, on the ground for 0.091 s; a speed above that is a slip of the pen."""
    for kind in ("sprint-splits", "flying-sprint"):
        assert 12.3 < benchmarks.test_kinds[kind].refuse_speed_over_m_s < 14
    assert TypeAdapter(ContactTime).validate_python("0.091 s") == 0.091

    def speeds(time):
        test = {"kind": "sprint-splits", "distances": ["20 m", "30 m"], "trials": [["3 s", f"{3 + time} s"]]}
        counted = estimate_gap(jumper([TOUCH, CONTACT, test]), benchmarks).qualities["speed-exposure"].counted
        return [one.reading.have for one in counted]

    assert speeds(10 / 12.3) == [pytest.approx(12.3, rel=1e-6)]
    assert speeds(0.5) == []


def test_bent_ankles_at_landing_read_18_percent_high_in_goncalves_2024_peerj_12_e17704(benchmarks):
    """Of a 30 cm jump; that is far more than a flight time's own error, so off a run-up it is never the height."""
    flight_s = math.sqrt(8 * 0.30 * 1.18 / STANDARD_GRAVITY_m_s2)
    assert rise_from_flight_time_m(flight_time_s=flight_s) == pytest.approx(0.354, abs=half_a_last_place / 10)
    own_error = 2 * benchmarks.test_kinds["flight-time"].time_error.typical_error / flight_s
    assert own_error < 0.18 / 3


def test_other_definitions_differ_by_up_to_15_cm_in_xu_2023_sports_med_53_1055(benchmarks):
    """The error that joins a height of another method covers it at three standard errors; the source is named."""
    other = benchmarks.errors.other_method
    assert 3 * other.typical_error == pytest.approx(0.15)
    assert "Xu et al. 2023" in other.source


def test_heel_rise_stand_ins_are_common_practice_and_a_tip_toe_reach_after_ferreira_2010_jscr_24_1596(benchmarks):
    one, two = (benchmarks.take_offs[legs].heel_rise for legs in ("one-leg", "two-leg"))
    assert (one.stand_in, one.standard_error, two.stand_in) == (0.12, 0.03, 0.10)
    for heel in (one, two):
        assert "common practice, no source, for the estimate" in heel.source
        assert "Ferreira et al. 2010" in heel.source
        assert heel.measured_standard_error < heel.standard_error
    assert "Vint & Hinrichs 1996" in one.source


def test_rim_of_fiba_and_nba_and_nets_of_fivb_can_be_written():
    """3.05 m, 10 ft = 3.048 m; 2.43 m and 2.24 m."""
    touch = TypeAdapter(Touch)
    assert touch.validate_python("3.05 m") == 3.05
    assert parse_quantity("10 ft", "length") == pytest.approx(3.048, rel=float_rounding)
    assert [touch.validate_python(f"{net} m") for net in (2.43, 2.24)] == [2.43, 2.24]
    assert TypeAdapter(BodyMass).validate_python("187 lb") == pytest.approx(84.8, abs=0.05)


@pytest.mark.parametrize(
    ("index", "says"), [(0.59, "fast and ballistic"), (0.60, "both"), (0.79, "both"), (0.81, "maximal")]
)
def test_dynamic_strength_bands_after_sheppard_and_comfort_seen_second_hand(benchmarks, index, says):
    rule = benchmarks.second_opinions.dynamic_strength
    assert reading_of(index, rule).startswith(says)
    assert "second-hand" in rule.source
    assert "PLoS One 2025, e0331519" in rule.caution


def test_ratio_of_countermovement_to_squat_jump_is_doubted_kozinc_2021(benchmarks):
    assert "Kozinc 2021" in benchmarks.second_opinions.stretch_shortening.caution


def test_against_the_profile_stand_lindberg_2021_valenzuela_2021_and_kotani_2022_jscr_36_3000(benchmarks):
    caution = benchmarks.second_opinions.profile.imbalance.caution
    for words in ("12-14 % against 7 %", "Lindberg et al. 2021", "17-27 %", "Valenzuela 2021", "Kotani 2022"):
        assert words in caution


def test_gains_of_a_block_in_markovic_2007_bjsm_41_349(benchmarks):
    """CMJ 8.7 % (7.0-10.4), with arms 7.5 %, squat and drop jump 4.7 %; strength with power 2.9-3.4 cm (2023, IJSM)."""
    assert {gain.percent for gain in benchmarks.outlook.gains} == {4.7, 7.5, 8.7}
    assert "2.9-3.4 cm" in benchmarks.outlook.source


def test_strong_enough_squat_of_suchomel_2016_is_from_memory_and_said_so(benchmarks):
    test = quality_test(benchmarks, "maximal-strength", "back-squat")
    assert test.curves["one-leg"].need(3.1) - 1 == pytest.approx(2.0, rel=0.02)
    assert "Suchomel et al. 2016, from memory" in test.source
