"""The stated standard errors against a seeded Monte Carlo that draws every shared input once for both heights."""

from dataclasses import replace

import numpy
import pytest

from planner.estimate.force_gap import QUANTITIES, TakeOffInputs, force_gap
from planner.estimate.trials import days_and_trials_se, mean_of_days, middle, middle_of
from planner.estimate.uncertainty import Estimate, confidence, single_trial_se
from planner.units import STANDARD_GRAVITY_m_s2 as g

draws = 200_000
curvature_and_chance = 0.03  # first-order errors against the full formulas, and 200,000 draws
negligible = 1e-12

BODY = Estimate(74.0, 1.0)
NOW, TARGET = Estimate(0.55, 0.02), Estimate(0.70, 0.0)
HEEL_SE_m = 0.03
CONTACT = TakeOffInputs(
    body_mass_kg=BODY,
    rise_now_m=NOW,
    rise_target_m=TARGET,
    heel_rise_se_m=HEEL_SE_m,
    contact_time_s=Estimate(0.21, 0.006),
)
PUSH_OFF = TakeOffInputs(
    body_mass_kg=BODY,
    rise_now_m=NOW,
    rise_target_m=TARGET,
    heel_rise_se_m=HEEL_SE_m,
    push_off_m=Estimate(0.40, 0.02),
)


def in_contact(rise_m, mass_kg, time_s):
    speed = numpy.sqrt(2 * g * rise_m)
    net = mass_kg * speed / time_s
    return [rise_m, speed, mass_kg * speed, net, net + mass_kg * g, net / (mass_kg * g) + 1]


def over_push_off(rise_m, mass_kg, distance_m):
    speed = numpy.sqrt(2 * g * rise_m)
    net = mass_kg * g * rise_m / distance_m
    return [rise_m, speed, mass_kg * speed, net, net + mass_kg * g, rise_m / distance_m + 1]


def drawn(inputs, formula, shared):
    random = numpy.random.default_rng(20)
    mass = random.normal(inputs.body_mass_kg.value, inputs.body_mass_kg.se, draws)
    time_or_distance = random.normal(shared.value, shared.se, draws)
    heel = random.normal(0.0, inputs.heel_rise_se_m, draws)
    now = formula(random.normal(NOW.value, NOW.se, draws) - heel, mass, time_or_distance)
    target = formula(numpy.full(draws, TARGET.value) - heel, mass, time_or_distance)
    return now, target


@pytest.mark.parametrize(
    ("inputs", "formula", "shared"),
    [(CONTACT, in_contact, CONTACT.contact_time_s), (PUSH_OFF, over_push_off, PUSH_OFF.push_off_m)],
    ids=["contact time", "push-off distance"],
)
def test_standard_errors_of_now_target_and_gap(inputs, formula, shared):
    force = force_gap(inputs)
    now, target = drawn(inputs, formula, shared)
    for number, name in enumerate(QUANTITIES):
        spread = [numpy.std(now[number]), numpy.std(target[number]), numpy.std(target[number] - now[number])]
        stated = [getattr(line, name).se for line in (force.now, force.target, force.gap)]
        assert stated == pytest.approx(spread, rel=curvature_and_chance, abs=negligible), name


def test_twice_the_standard_error_covers_the_truth():
    force = force_gap(CONTACT)
    now, target = drawn(CONTACT, in_contact, CONTACT.contact_time_s)
    gap = target[4] - now[4]
    covered = numpy.mean(abs(gap - force.gap.mean_ground_force_N.value) < 2 * force.gap.mean_ground_force_N.se)
    assert 0.94 < covered < 0.97


def test_drawing_the_shared_inputs_twice_would_look_like_noise():
    """This guards against a gap error that is three times too large."""
    force = force_gap(CONTACT)
    naive = (force.now.mean_ground_force_N.se**2 + force.target.mean_ground_force_N.se**2) ** 0.5
    assert naive > 2.5 * force.gap.mean_ground_force_N.se


def test_target_given_as_a_rise_does_not_share_the_heel_rise():
    """A target rise is exact, so the heel rise's error affects only the present touch, and the gap is less sure."""
    alone = force_gap(replace(CONTACT, target_from_touch=False))
    assert alone.target.rise_m.se == 0
    assert alone.gap.rise_m.se == pytest.approx((NOW.se**2 + HEEL_SE_m**2) ** 0.5)
    assert force_gap(CONTACT).gap.rise_m.se == pytest.approx(NOW.se)


def test_either_a_contact_time_or_a_push_off_is_needed():
    with pytest.raises(ValueError, match="either"):
        TakeOffInputs(body_mass_kg=BODY, rise_now_m=NOW, rise_target_m=TARGET)


def test_every_trial_counts_and_narrows():
    """Three trials: a quarter of the lowest and the highest, half of the middle one; the day's part stays."""
    estimate = middle_of([3.02, 3.06, 2.90], single_se=0.02, day_se=0.01)
    assert estimate.value == pytest.approx((3.06 + 2 * 3.02 + 2.90) / 4)
    assert estimate.se == pytest.approx((0.01**2 + 0.02**2 / 3) ** 0.5)
    assert middle_of([3.02], single_se=0.02) == Estimate(3.02, 0.02)
    assert middle([3.0, 3.1]) == pytest.approx(3.05)


def test_one_failed_jump_of_six_moves_the_value_little():
    good = [3.00, 3.01, 3.02, 3.03, 3.04, 3.05]
    failed = [2.60, *good[1:]]
    assert middle(good) - middle(failed) < 0.01 < sum(good) / 6 - sum(failed) / 6


@pytest.mark.parametrize(("days", "jumps", "detectable_cm"), [(1, 2, 5.7), (1, 5, 4.8), (2, 3, 3.7), (3, 3, 3.0)])
def test_detectable_change_by_days_and_jumps(days, jumps, detectable_cm):
    """A touch whose trial errs by 2.0 and whose day errs by 1.5 cm."""
    error_cm = days_and_trials_se(single_se=2.0, day_se=1.5, days=days, trials=jumps)
    assert 1.96 * 2**0.5 * error_cm == pytest.approx(detectable_cm, abs=0.06)


def test_days_count_by_how_sure_they_are():
    pooled = mean_of_days([Estimate(3.0, 0.01), Estimate(3.1, 0.02)])
    assert pooled.value == pytest.approx((4 * 3.0 + 3.1) / 5)
    assert pooled.se == pytest.approx(0.01 * 0.8**0.5)


def test_step_of_the_scale_adds_as_a_uniform_error():
    random = numpy.random.default_rng(3)
    read = numpy.round(random.normal(100, 2.0, draws) / 2.0) * 2.0
    assert single_trial_se(typical_error=2.0, resolution=2.0) == pytest.approx(numpy.std(read), rel=0.01)


confidences = [(0.05, 0.80), (0.09, 0.55), (0.10, 0.50), (0.12, 0.41), (0.25, 0.14)]


@pytest.mark.parametrize(("relative_se", "expected"), confidences)
def test_confidence_from_standard_error(relative_se, expected):
    assert confidence(relative_se=relative_se, scatter=0.10) == pytest.approx(expected, abs=0.005)
