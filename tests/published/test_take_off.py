"""Take-off physics against printed problems and figures that coaches pass on. Each check takes the g of its source.

Tolerances are half a unit in the last place the source prints.
"""

import math

import pytest

from planner.estimate.take_off import (
    half_sine_peak_N,
    rise_from_flight_time_m,
    take_off_in_contact,
    take_off_over_push_off,
    take_off_speed_m_s,
)
from planner.units import POUND_FORCE_N, FOOT_m, INCH_m

g_of_openstax = 9.80
g_of_coaches = 9.8
last_place_of_speed = 0.005
one_pound_force = 1.0
one_newton = 1.0
float_rounding = 1e-9


def test_speed_acceleration_and_force_against_openstax_college_physics_ch4_problem_46():
    jump = take_off_over_push_off(rise_m=0.900, body_mass_kg=110, push_off_m=0.300, g=g_of_openstax)
    assert jump.take_off.take_off_speed_m_s == pytest.approx(4.20, abs=last_place_of_speed)
    assert jump.take_off.mean_net_force_N / 110 == pytest.approx(29.4, abs=0.05)
    assert jump.take_off.mean_ground_force_N == pytest.approx(4312, abs=one_newton)


def test_speed_force_and_power_against_openstax_college_physics_ch7_problem_69():
    jump = take_off_over_push_off(rise_m=0.950, body_mass_kg=105, push_off_m=0.400, g=g_of_openstax)
    assert jump.take_off.take_off_speed_m_s == pytest.approx(4.32, abs=last_place_of_speed)
    assert jump.take_off.mean_ground_force_N == pytest.approx(3470, abs=5.0)
    assert jump.take_off.mean_ground_force_N * 0.400 / jump.push_off_time_s == pytest.approx(7490, abs=5.0)


def test_speed_against_openstax_college_physics_ch2_problem_43():
    assert take_off_speed_m_s(rise_m=1.25, g=g_of_openstax) == pytest.approx(4.95, abs=last_place_of_speed)


def test_force_and_speed_against_samozino_2008():
    """J Biomech 41:2940: F = m g (h/d + 1), v = sqrt(g h / 2), written out here with other numbers."""
    m, h, d, g = 80.0, 0.36, 0.40, 9.81
    jump = take_off_over_push_off(rise_m=h, body_mass_kg=m, push_off_m=d, g=g)
    force, speed = m * g * (h / d + 1), math.sqrt(g * h / 2)
    assert jump.take_off.mean_ground_force_N == pytest.approx(force, rel=float_rounding)
    assert d / jump.push_off_time_s == pytest.approx(speed, rel=float_rounding)


def test_weight_against_common_practice_no_source():
    standing = 85 * g_of_coaches
    assert standing == pytest.approx(833, abs=0.5)
    assert standing / POUND_FORCE_N == pytest.approx(187, abs=0.5)


def test_take_off_speed_against_common_practice_no_source():
    speed = take_off_speed_m_s(rise_m=40 * INCH_m, g=g_of_coaches)
    assert speed == pytest.approx(4.46, abs=last_place_of_speed)
    assert speed * 3600 / (5280 * FOOT_m) == pytest.approx(10, abs=0.5)  # miles an hour


def test_plant_against_common_practice_no_source():
    """The figure that is passed on is the net force; the foot presses with body weight on top of it."""
    plant = take_off_in_contact(rise_m=40 * INCH_m, body_mass_kg=85, contact_time_s=0.20, g=g_of_coaches)
    acceleration = plant.mean_net_force_N / 85
    assert acceleration == pytest.approx(22.3, abs=0.05)
    assert acceleration / FOOT_m == pytest.approx(73, abs=0.5)
    assert plant.mean_net_force_N == pytest.approx(1897, abs=one_newton)
    assert plant.mean_net_force_N / POUND_FORCE_N == pytest.approx(426, abs=one_pound_force)
    # Quoted in round steps as 22.5 m/s2 and 430 lbf: within 1 %.
    assert acceleration == pytest.approx(22.5, rel=0.01)
    assert plant.mean_net_force_N / POUND_FORCE_N == pytest.approx(430, rel=0.01)


def test_plant_total_follows_from_the_plant():
    plant = take_off_in_contact(rise_m=40 * INCH_m, body_mass_kg=85, contact_time_s=0.20, g=g_of_coaches)
    assert plant.mean_ground_force_N == pytest.approx(2730, abs=one_newton)
    assert plant.mean_ground_force_N / POUND_FORCE_N == pytest.approx(614, abs=one_pound_force)
    assert plant.mean_ground_force_bw == pytest.approx(3.28, abs=0.005)


def test_rise_from_flight_time_agrees_with_rise_from_take_off_speed():
    flight_s, g = 0.52, 9.81
    speed = g * flight_s / 2  # up and down take equal times
    assert rise_from_flight_time_m(flight_time_s=flight_s, g=g) == pytest.approx(speed**2 / (2 * g), rel=float_rounding)


def test_half_sine_peak_is_the_mean_of_its_own_half_sine():
    peak = half_sine_peak_N(mean_force_N=1000)
    steps = 10_000
    mean = sum(peak * math.sin(math.pi * (step + 0.5) / steps) for step in range(steps)) / steps
    assert mean == pytest.approx(1000, rel=1e-6)
