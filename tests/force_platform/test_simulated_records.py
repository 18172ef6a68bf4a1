"""Simulated records with known truth: heights, flight and their errors, over shapes, rates, offset, drift, noise."""

import numpy as np
import pytest

from planner.estimate.findings import Notebook
from planner.estimate.platform.analyse import analyse
from planner.estimate.platform.case import Options
from tests.force_platform.simulate import SHAPES, drawn_shape, simulate

height_tolerance_m = 0.005
noise_N, offset_N, drift_N_s = 5.0, 30.0, 0.5
rates_Hz = (200, 500, 1000, 2000)
drawn_rates_Hz = (200.0, 250.0, 500.0, 600.0, 1000.0, 1000.0, 2000.0)


def kind_of(name):
    return "squat" if name == "squat jump" else "countermovement"


def analysed(simulated, rule, kind):
    (jump,) = analyse(simulated.record, rule, Options(kind=kind), Notebook())
    return jump


def under_s(truth, jump):
    """What the true force spends under the threshold that was used: between the two tabled ones around it."""
    return float(np.interp(jump.threshold_N, list(truth.under_s), list(truth.under_s.values())))


@pytest.mark.parametrize("two_platforms", [False, True])
@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("name", SHAPES)
def test_impulse_is_within_half_a_centimetre(name, seed, two_platforms, rule):
    sign = 1 if seed % 2 else -1
    made = simulate(
        SHAPES[name], rate_Hz=1000, noise_N=noise_N, offset_N=sign * offset_N, drift_N_s=drift_N_s * (seed % 3 - 1),
        seed=seed, two_platforms=two_platforms,
    )  # fmt: skip
    jump = analysed(made, rule, kind_of(name))
    assert jump.weighing.seconds == pytest.approx(1.0, abs=0.01)
    assert jump.rise_by_impulse_m.value == pytest.approx(made.truth.rise_m, abs=height_tolerance_m)
    assert jump.body_weight_N.value == pytest.approx(made.truth.body_weight_N, abs=2.5)


@pytest.mark.parametrize("rate_Hz", rates_Hz)
@pytest.mark.parametrize("name", SHAPES)
def test_flight_is_within_one_sample_and_the_time_under_the_threshold(name, rate_Hz, rule):
    made = simulate(SHAPES[name], rate_Hz=rate_Hz, noise_N=noise_N, offset_N=offset_N, drift_N_s=drift_N_s, seed=3)
    jump, truth = analysed(made, rule, kind_of(name)), made.truth
    crossed_too_long_s = jump.flight_at_threshold_s - truth.flight_s
    assert crossed_too_long_s == pytest.approx(under_s(truth, jump), abs=1 / rate_Hz + 0.3e-3)
    assert jump.flight_s.value == pytest.approx(truth.flight_s, abs=1 / rate_Hz)
    # what lies under the threshold stands in the error
    assert jump.flight_s.se >= 0.2 * abs(jump.under_threshold_s) / 2**0.5


def test_phases_follow_each_other_and_impulses_add_up(rule):
    made = simulate(SHAPES["one hump"], noise_N=noise_N, offset_N=offset_N, seed=1)
    jump = analysed(made, rule, "countermovement")
    names = [phase.name for phase in jump.phases]
    assert names == ["weighing", "unweighting", "braking", "propulsion", "flight", "landing"]
    for earlier, later in zip(jump.phases, jump.phases[1:], strict=False):
        assert later.start_s == pytest.approx(earlier.end_s)
    impulse = {phase.name: phase.net_impulse_Ns for phase in jump.phases}
    mass = jump.body_mass_kg.value
    assert impulse["unweighting"] == pytest.approx(-impulse["braking"], rel=0.03)
    total = impulse["unweighting"] + impulse["braking"] + impulse["propulsion"]
    assert total == pytest.approx(mass * jump.take_off_speed_m_s.value, rel=0.01)


def test_left_and_right_are_told_from_two_platforms(rule):
    made = simulate(SHAPES["one hump"], noise_N=noise_N, offset_N=60, seed=1, two_platforms=True, left_share=0.56)
    left, right = analysed(made, rule, "countermovement").sides
    assert left.name == "left"
    assert left.share_of_push == pytest.approx(0.56, abs=0.005)
    assert left.share_of_weighing == pytest.approx(0.56, abs=0.005)
    assert left.share_of_push + right.share_of_push == pytest.approx(1)


def coverage(rule, count):
    """Shares of draws in which ± 2 SE holds the true rise by impulse, and the true flight time."""
    random = np.random.default_rng(1)
    impulse, flight = [], []
    for number in range(count):
        made = simulate(
            drawn_shape(random), rate_Hz=float(random.choice(drawn_rates_Hz)), mass_kg=random.uniform(45, 110),
            noise_N=noise_N, offset_N=random.uniform(-50, 50), drift_N_s=random.normal(0, drift_N_s), seed=number,
            two_platforms=bool(number % 2),
        )  # fmt: skip
        if not 0.1 < made.truth.rise_m < 0.9:
            continue
        jump, truth = analysed(made, rule, "countermovement"), made.truth
        impulse.append(abs(jump.rise_by_impulse_m.value - truth.rise_m) < 2 * jump.rise_by_impulse_m.se)
        flight.append(abs(jump.flight_s.value - truth.flight_s) < 2 * jump.flight_s.se)
    assert len(impulse) > 0.7 * count
    return sum(impulse) / len(impulse), sum(flight) / len(flight)


def test_two_standard_errors_cover_the_truth_in_a_sample(rule):
    by_impulse, by_flight = coverage(rule, 150)
    assert 0.90 <= by_impulse <= 1.0
    assert 0.90 <= by_flight <= 1.0


@pytest.mark.long
def test_two_standard_errors_cover_the_truth_in_full(rule):
    by_impulse, by_flight = coverage(rule, 1300)  # of which over 1,000 are jumps of 10 to 90 cm
    assert 0.90 <= by_impulse <= 0.99
    assert 0.90 <= by_flight <= 0.99
