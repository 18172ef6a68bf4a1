"""Published formulas and bands of the figures shown as second opinions, and of the change that a test can show."""

import math

import numpy as np
import pytest
from scipy.optimize import minimize_scalar

from planner.estimate.detectable_change import minimal_detectable_change, smallest_worthwhile_change
from planner.estimate.force_velocity import best_slope, load_point, profile_of, take_off_speed_on_profile
from planner.estimate.power import harman_peak_power_W, sayers_peak_power_W
from planner.estimate.second_opinions import reading_of
from planner.estimate.take_off import (
    reactive_index_flight,
    reactive_index_height_m_s,
    rise_from_flight_time_m,
    take_off_over_push_off,
)
from planner.units import STANDARD_GRAVITY_m_s2 as g

float_rounding = 1e-9


def test_sayers_1999_msse_31_572_at_55_cm_and_80_kg():
    assert sayers_peak_power_W(rise_cm=55, body_mass_kg=80) == pytest.approx(4907.5, abs=float_rounding)


def test_harman_1991_takes_1822_off():
    assert harman_peak_power_W(rise_cm=55, body_mass_kg=80) == pytest.approx(61.9 * 55 + 36.0 * 80 - 1822)


def test_samozino_2008_point_of_one_load_is_the_push_off_of_that_load():
    """Mean force m g (h/d + 1) and mean speed sqrt(g h / 2) (Samozino et al. 2008, J Biomech 41:2940)."""
    point = load_point(load_kg=20, rise_m=0.30, body_mass_kg=75, push_off_m=0.40)
    push = take_off_over_push_off(rise_m=0.30, body_mass_kg=95, push_off_m=0.40)
    assert point.force_N_kg * 75 == pytest.approx(push.take_off.mean_ground_force_N)
    assert point.speed_m_s == pytest.approx(0.40 / push.push_off_time_s)


def test_samozino_2012_eq_6_agrees_with_the_points_it_was_drawn_from():
    """A jumper exactly on a line: the predicted take-off is the one of the body-weight jump (MSSE 44:313)."""
    f0, v0, d = 34.0, 3.2, 0.40
    slope = -f0 / v0

    def rise(load_share):
        """Rise at which mean force and mean speed meet the line, by bisection."""
        low, high = 0.0, 2.0
        for _ in range(100):
            middle = (low + high) / 2
            force = (1 + load_share) * g * (middle / d + 1)
            low, high = (middle, high) if force < f0 + slope * math.sqrt(g * middle / 2) else (low, middle)
        return low

    points = [
        load_point(load_kg=70 * share, rise_m=rise(share), body_mass_kg=70, push_off_m=d)
        for share in (0, 0.3, 0.6, 0.9)
    ]
    profile = profile_of(points, push_off_m=d)
    assert (profile.f0_N_kg, profile.v0_m_s) == (pytest.approx(f0), pytest.approx(v0))
    assert profile.power_W_kg == pytest.approx(f0 * v0 / 4)
    predicted = take_off_speed_on_profile(power_W_kg=profile.power_W_kg, slope=profile.slope, push_off_m=d)
    assert predicted == pytest.approx(math.sqrt(2 * g * rise(0)), rel=1e-6)


@pytest.mark.parametrize("power", [15.0, 25.0, 40.0])
@pytest.mark.parametrize("push_off_m", [0.30, 0.45])
def test_best_slope_is_the_maximum_of_samozino_2012(power, push_off_m):
    """At the same power, a tenth of a per cent steeper or flatter is slower; so is every slope of a wide range."""
    ours = best_slope(power_W_kg=power, push_off_m=push_off_m)

    def speed(slope):
        return take_off_speed_on_profile(power_W_kg=power, slope=slope, push_off_m=push_off_m)

    assert all(speed(ours) > speed(ours * factor) for factor in (0.999, 1.001, *np.geomspace(0.02, 0.99, 40)))
    assert all(speed(ours) > speed(ours * factor) for factor in np.geomspace(1.01, 20, 40))
    theirs = minimize_scalar(lambda log_slope: -speed(-np.exp(log_slope)), bounds=(np.log(2), np.log(100)))
    assert speed(ours) >= -theirs.fun - float_rounding


@pytest.mark.parametrize(
    ("imbalance", "says"),
    [
        (0.59, "large force deficit"),
        (0.75, "small force deficit"),
        (1.0, "balanced"),
        (1.2, "small velocity deficit"),
        (1.5, "large velocity deficit"),
    ],
)
def test_imbalance_bands_of_jimenez_reyes_2017_front_physiol_7_677(benchmarks, imbalance, says):
    assert reading_of(imbalance, benchmarks.second_opinions.profile.imbalance) == says


def test_reactive_indices_after_healy_2017_are_two_figures():
    assert reactive_index_height_m_s(contact_time_s=0.2, flight_time_s=0.5) == pytest.approx(g * 0.25 / 8 / 0.2)
    assert reactive_index_flight(contact_time_s=0.2, flight_time_s=0.5) == pytest.approx(2.5)


def test_minimal_detectable_change_of_weir_2005_and_worthwhile_change_of_hopkins_2000(benchmarks):
    rule = benchmarks.retest
    assert minimal_detectable_change(1.0, multiple=rule.multiple) == pytest.approx(1.96 * math.sqrt(2))
    assert smallest_worthwhile_change(1.0, share=rule.worthwhile_share) == pytest.approx(0.2)


def test_course_of_duarte_and_watanabe_height_from_flight_time():
    """Biomechanics and Motor Control (BMClab/BMC, CC BY 4.0): 250 samples at 600 Hz, g 9.8: 0.212674 m."""
    assert rise_from_flight_time_m(flight_time_s=250 / 600, g=9.8) == pytest.approx(0.212674, abs=1e-6)
