"""One body weight a record: slow squats are no stands, noise is no sway, and a zero set under load is none."""

import re
from dataclasses import replace

import numpy as np
import pytest

from planner.domain.findings import UserError
from planner.estimate.notebook import Notebook
from planner.force_platform.analyse import analyse
from planner.force_platform.force_record import ForceRecord
from planner.force_platform.jump_case import Options
from tests.force_platform.simulate import SHAPES, Shape, drawn_record, simulate

RATE_Hz = 1000.0
g = 9.80665
# Down slowly, 0.5 s of braking at 1.08 body weights, up: as a person squats who was told to pause.
SLOW_SQUAT = Shape(
    quiet_s=0.7, dip_s=0.6, dip=0.16, hold_s=0.5, hold=1.08, brake_s=0.3, brake=1.4, push_s=0.3, push=1.9, after_s=0.6
)


def read(force, rule, rate_Hz=RATE_Hz, sides=(), stated=False, **options):
    notes = Notebook()
    record = ForceRecord("made", rate_Hz, list(force), sides, rate_stated=stated)
    jumps = analyse(record, rule, Options(take_all=True, **options), notes)
    return jumps, {finding.code: finding for finding in notes.findings}


def made(shape, **options):
    one = simulate(shape, rate_Hz=RATE_Hz, **options)
    return np.array(one.record.force_N), one.truth


def test_three_slow_squats_weigh_one_body(rule):
    parts = [made(SLOW_SQUAT, noise_N=2.0, seed=seed) for seed in range(3)]
    jumps, _ = read(np.concatenate([force for force, _ in parts]), rule)
    assert len(jumps) == 3
    weights = {jump.body_weight_N.value for jump in jumps}
    assert len(weights) == 1
    truth = parts[0][1]
    assert weights.pop() == pytest.approx(truth.body_weight_N, abs=2.0)
    for jump in jumps:
        assert jump.verdict.believed == "both"
        assert jump.rise_by_impulse_m.value == pytest.approx(truth.rise_m, abs=0.01)


def test_slow_squat_without_a_stand_before_it_tells_its_flight_alone(rule):
    first, truth = made(replace(SLOW_SQUAT, after_s=0.02), noise_N=2.0, seed=1)
    second, _ = made(replace(SLOW_SQUAT, quiet_s=0.02), noise_N=2.0, seed=2)
    (one, two), found = read(np.concatenate([first, second]), rule)
    assert one.verdict.believed == "both"
    assert two.rise_by_impulse_m is None
    assert two.verdict.believed == "flight"
    assert "no still stand" in found["believed"].message
    assert two.body_weight_N.value == pytest.approx(truth.body_weight_N, abs=3.0)
    assert two.rise_by_flight_m.value == pytest.approx(truth.rise_m, abs=0.005)
    assert two.push_off_m == pytest.approx(one.push_off_m, abs=0.05)


def test_stand_of_its_own_that_weighs_more_is_said(rule):
    """A hand on a rail before the second jump: too little for another stand, enough to be told."""
    first, truth = made(SHAPES["one hump"], noise_N=1.0, seed=1)
    second, _ = made(SHAPES["one hump"], noise_N=1.0, seed=2)
    second[:1500] -= 0.0105 * truth.body_weight_N
    jumps, found = read(np.concatenate([first, second]), rule)
    assert jumps[0].body_weight_N == jumps[1].body_weight_N
    less_N = 0.0105 * truth.body_weight_N
    told_N = float(re.search(r"reads (\d+\.\d) N less", found["own-weighing"].message).group(1))
    assert told_N == pytest.approx(less_N, abs=1.0)


def test_real_push_is_not_weighed_for_lack_of_quiet(rule):
    """0.69 s of standing in noise of 1.7 % of body weight: noise, not sway, and no reason to weigh the push."""
    force, truth = made(replace(SHAPES["one hump"], quiet_s=0.69), noise_N=0.017 * 735, seed=3)
    (jump,), _ = read(force, rule)
    assert jump.body_weight_N.value == pytest.approx(truth.body_weight_N, abs=3 * jump.body_weight_N.se)
    assert jump.rise_by_impulse_m.value == pytest.approx(truth.rise_m, abs=2 * jump.rise_by_impulse_m.se)


def test_zero_set_under_load_is_refused_for_that(rule):
    force, truth = made(SHAPES["one hump"], noise_N=3.0)
    with pytest.raises(UserError) as caught:
        read(force - truth.body_weight_N, rule)
    (finding,) = caught.value.findings
    assert finding.code == "zeroed-under-load"
    assert "with the body on it" in finding.message


def test_body_mass_that_is_given_is_held_against_the_standing(rule):
    force, _ = made(SHAPES["one hump"], noise_N=3.0)
    (jump,), found = read(force, rule, body_mass_kg=75.5)
    assert jump.verdict.believed == "both"
    (jump,), found = read(force, rule, body_mass_kg=60.0)
    assert "weighs 75.0" in found["body-mass-differs"].message
    assert jump.verdict.believed == "flight"


@pytest.mark.parametrize(("factor", "option"), [(2.2, "--rate"), (0.62, "--rate")])
def test_wrong_rate_is_doubted_and_no_height_believed(factor, option, rule):
    force, _ = made(replace(SHAPES["one hump"], quiet_s=2.5, after_s=2.5), noise_N=3.0)
    (jump,), found = read(force, rule, rate_Hz=RATE_Hz * factor, stated=True)
    assert option in found["rate-doubted"].hint
    told_Hz = float(re.search(r"about ([\d,]+) would", found["rate-doubted"].hint).group(1).replace(",", ""))
    assert told_Hz == pytest.approx(RATE_Hz, rel=0.3)
    assert jump.verdict.believed == "neither"


def test_both_heights_grow_alike_at_a_wrong_rate(rule):
    """A height is g times a time squared, so a rate 1.2 times too high shrinks both by 1.44: they cannot tell it."""
    force, _ = made(replace(SHAPES["one hump"], quiet_s=2.5, after_s=2.5), noise_N=3.0)
    ((right,), _), ((wrong,), _) = read(force, rule), read(force, rule, rate_Hz=1.2 * RATE_Hz)
    for name in ("rise_by_impulse_m", "rise_by_flight_m"):
        assert getattr(right, name).value / getattr(wrong, name).value == pytest.approx(1.44, rel=0.01)


def test_jump_from_one_platform_to_the_other_tells_no_sides(rule):
    force, truth = made(SHAPES["one hump"])
    take_off = round((truth.take_off_s + truth.landing_s) / 2 * RATE_Hz)
    noise = np.random.default_rng(1).normal(0, 2, (2, len(force)))
    before, after = force.copy(), force.copy()
    before[take_off:], after[:take_off] = 0.0, 0.0
    sides = (("1", (before + noise[0]).tolist()), ("2", (after + noise[1]).tolist()))
    (jump,), found = read(before + after + noise.sum(axis=0), rule, sides=sides)
    assert jump.sides == ()
    assert "from platform '1' to '2'" in found["between-platforms"].message
    assert "one-platform" not in found


def test_one_spoilt_jump_of_several_is_left_out_and_said_to_be(rule):
    force, truth = made(SHAPES["one hump"], noise_N=2.0, seed=1)
    spoilt = force.copy()
    spoilt[round(truth.take_off_s * RATE_Hz) - 60] = np.nan
    jumps, found = read(np.concatenate([force, spoilt]), rule)
    assert [jump.number for jump in jumps] == [1]
    assert found["missing-samples"].level == "warning"
    assert found["missing-samples"].message.startswith("jump 2: ")


# --- noise and rates ----------------------------------------------------------------------------------------------

draws = 160
bias_in_se = 0.5  # of the usual error, of which so many draws tell a bias to a twelfth
covered = 0.90


@pytest.mark.long
@pytest.mark.parametrize("noise_N", [0.0, 10.0, 20.0])
@pytest.mark.parametrize("rate_Hz", [100.0, 200.0, 500.0, 1000.0, 2000.0])
def test_noise_up_to_20_newtons_is_in_the_errors_and_no_bias(rate_Hz, noise_N, rule):
    random = np.random.default_rng(round(rate_Hz + noise_N))
    impulse, flight = [], []
    for _ in range(draws):
        one = drawn_record(random, rate_Hz=rate_Hz, noise_N=noise_N, drift_N_s=0.0, rises_m=(0.1, 0.9))
        ((jump, *_), _) = read(one.record.force_N, rule, rate_Hz)
        impulse.append((jump.rise_by_impulse_m.value - one.truth.rise_m, jump.rise_by_impulse_m.se))
        flight.append((jump.rise_by_flight_m.value - one.truth.rise_m, jump.rise_by_flight_m.se))
    for told in (impulse, flight):
        errors, ses = np.array(told).T
        assert np.mean(np.abs(errors) < 1.96 * ses) >= covered
        assert abs(np.mean(errors)) < bias_in_se * np.sqrt(np.mean(ses**2))
