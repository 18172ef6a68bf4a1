"""What is wrong with a record is refused or warned of, each with its figure."""

import re
from dataclasses import replace

import numpy as np
import pytest

from planner.domain.findings import UserError
from planner.estimate.notebook import Notebook
from planner.force_platform.analyse import analyse
from planner.force_platform.force_record import ForceRecord
from planner.force_platform.jump_case import Options
from tests.force_platform.simulate import SHAPES, Shape, simulate

USUAL = SHAPES["one hump"]
RATE_Hz = 1000


def forces(shape=USUAL, **options):
    made = simulate(shape, rate_Hz=RATE_Hz, noise_N=3.0, seed=5, **options)
    return np.array(made.record.force_N), made.truth


def codes(force, rule, rate_Hz=RATE_Hz, sides=(), **options):
    """Findings by code, whether the record was analysed or refused; and the jumps."""
    notes = Notebook()
    record = ForceRecord("made", rate_Hz, list(force), sides)
    try:
        jumps = analyse(record, rule, Options(**options), notes)
        return {finding.code: finding for finding in notes.findings}, jumps
    except UserError as error:
        return {finding.code: finding for finding in error.findings}, []


def test_sound_record_has_no_warning(rule):
    found, jumps = codes(forces()[0], rule)
    assert len(jumps) == 1
    assert {finding.level for finding in found.values()} == {"note"}


def test_short_weighing_is_warned_of_with_its_seconds(rule):
    found, (jump,) = codes(forces(replace(USUAL, quiet_s=0.5))[0], rule)
    assert found["weighing-short"].level == "warning"
    assert f"only {jump.weighing.seconds:.2f} s" in found["weighing-short"].message


def test_record_that_begins_in_the_dip_tells_the_flight_alone(rule):
    """The standing after the landing weighs the body; the speed at the record's start is not known."""
    force, truth = forces()
    found, (jump,) = codes(force[1560:], rule)
    assert jump.rise_by_impulse_m is None
    assert jump.verdict.believed == "flight"
    assert "no still stand before the jump" in found["believed"].message
    assert jump.body_weight_N.value == pytest.approx(truth.body_weight_N, abs=3 * jump.body_weight_N.se)
    assert jump.rise_by_flight_m.value == pytest.approx(truth.rise_m, abs=3 * jump.rise_by_flight_m.se)


def test_record_without_any_standing_is_refused(rule):
    force, truth = forces()
    found, jumps = codes(force[1560 : round((truth.landing_s + 0.3) * RATE_Hz)], rule)
    assert not jumps
    assert set(found) & {"no-weighing", "weighing-noisy", "no-impulse"}


def test_noisy_weighing_is_warned_of_then_tells_no_height(rule):
    force, truth = forces()
    sway = np.sin(np.arange(len(force)) / 40.0) * (np.arange(len(force)) < 1450)
    found, jumps = codes(force + 25 * sway, rule)
    assert found["weighing-noisy"].level == "warning"
    assert "% of body weight" in found["weighing-noisy"].message
    assert jumps
    found, (jump,) = codes(force + 0.25 * truth.body_weight_N * sway, rule)
    assert "cannot be weighed" in found["weighing-noisy"].message
    assert jump.verdict.believed == "flight"
    assert jump.rise_by_impulse_m is None


def test_leaning_that_lets_go_slowly_is_warned_of(rule):
    """No stand at another level, but halves of the weighing that differ."""
    force, truth = forces()
    force[:1500] += np.linspace(0.12, 0.0, 1500) * truth.body_weight_N
    found, _ = codes(force, replace_rule(rule, noisy_over=0.05))
    assert found["stepping"].level == "warning"
    by = 100 * 0.5 * 0.08 / 1.04  # half a second of 8 % a second, of a mean that leans by 4 %
    told = re.search(r"half differ by (\d\.\d) %", found["stepping"].message)
    assert float(told.group(1)) == pytest.approx(by, abs=0.1)


@pytest.mark.parametrize("more_N", [40.0, -60.0])
def test_stand_after_a_step_is_weighed_and_the_step_told(more_N, rule):
    """Leaning for a second, then half a second free: the long stand is not the weight, and the step no onset."""
    force, truth = forces()
    force[:1000] += more_N
    found, (jump,) = codes(force, rule)
    assert f"before 1.00 s the standing reads {abs(more_N):.0f} N {'more' if more_N > 0 else 'less'}" in (
        found["stepping"].message
    )
    assert jump.weighing.seconds == pytest.approx(0.47, abs=0.04)
    assert jump.onset_s > 1.4
    assert jump.rise_by_impulse_m.value == pytest.approx(truth.rise_m, abs=0.005)


def test_wrong_unit_is_refused_with_the_weight_it_gives(rule):
    force, _ = forces()
    found, _ = codes(force * 4.448, rule)
    assert "3,2" in found["body-weight"].message
    assert "kg), which no athlete has" in found["body-weight"].message
    found, _ = codes(force / 1000, rule)
    assert "check the unit" in found["no-flight"].hint


def replace_rule(rule, **changes):
    return rule.model_copy(update=changes)


def test_clipped_push_is_refused_clipped_landing_warned_of(rule):
    force, truth = forces()
    found, jumps = codes(np.minimum(force, 1.9 * truth.body_weight_N), rule)
    assert found["clipped"].level == "error"
    assert not jumps
    found, jumps = codes(np.minimum(force, 3.0 * truth.body_weight_N), rule)
    assert found["clipped"].level == "warning"
    assert "at landing" in found["clipped"].message
    assert jumps


def test_missing_samples_inside_are_refused_outside_warned_of(rule):
    force, _ = forces()
    inside, outside = force.copy(), force.copy()
    inside[1700:1704] = np.nan
    outside[3:8] = np.nan
    found, jumps = codes(inside, rule)
    assert found["missing-samples"].level == "error"
    assert "4 samples are missing within the jump, the first at 1.700 s" in found["missing-samples"].message
    found, jumps = codes(outside, rule)
    assert found["missing-samples"].level == "warning"
    assert jumps


def test_several_jumps_ask_which(rule):
    force, _ = forces()
    two = np.concatenate([force, force])
    found, jumps = codes(two, rule)
    assert "2 jumps in this record" in found["several-jumps"].message
    assert not jumps
    _, (second,) = codes(two, rule, number=2)
    assert second.take_off_s > len(force) / RATE_Hz
    _, both = codes(two, rule, take_all=True)
    assert [jump.number for jump in both] == [1, 2]
    found, _ = codes(two, rule, number=3)
    assert "no-such-jump" in found


@pytest.mark.parametrize("force", [np.full(3000, 700.0), np.zeros(3000), np.full(10, 700.0), np.full(3000, np.nan)])
def test_no_flight_is_refused(force, rule):
    found, jumps = codes(force, rule)
    assert not jumps
    assert set(found) & {"no-flight", "missing-samples"}


def test_low_rate_is_refused_or_warned_of(rule):
    made = simulate(USUAL, rate_Hz=80, noise_N=3.0)
    found, _ = codes(made.record.force_N, rule, rate_Hz=80)
    assert found["rate-low"].level == "error"
    made = simulate(USUAL, rate_Hz=200, noise_N=3.0)
    found, _ = codes(made.record.force_N, rule, rate_Hz=200)
    assert found["rate-low"].level == "warning"


def test_squat_jump_with_a_dip_is_warned_of(rule):
    found, _ = codes(forces()[0], rule, kind="squat")
    assert "squat-jump-dip" in found
    found, _ = codes(forces(SHAPES["squat jump"])[0], rule)
    assert "no-dip" in found
    found, _ = codes(forces(SHAPES["squat jump"])[0], rule, kind="squat")
    assert not {"squat-jump-dip", "no-dip"} & set(found)


def test_foot_beside_a_platform_is_warned_of(rule):
    made = simulate(USUAL, noise_N=3.0, two_platforms=True, left_share=0.99)
    found, _ = codes(made.record.force_N, rule, sides=made.record.sides)
    assert "one-platform" in found


def test_noise_in_flight_does_not_split_it(rule):
    """A naive threshold of 20 N sees this flight in pieces; ours does not."""
    made = simulate(USUAL, noise_N=12.0, seed=2)
    force = np.array(made.record.force_N)
    start, end = (round(second * RATE_Hz) for second in (made.truth.take_off_s, made.truth.landing_s))
    assert np.count_nonzero(force[start + 3 : end - 3] > 20) > 5
    _, (jump,) = codes(force, rule)
    assert jump.flight_s.value == pytest.approx(made.truth.flight_s, abs=0.004)


def test_travel_forwards_is_always_said_to_be_unknown(rule):
    assert codes(forces()[0], rule)[0]["horizontal-unknown"].level == "note"


def test_standing_after_that_reads_another_weight_is_left_out(rule):
    """Leaning on a rail after the landing, or a foot off the platform."""
    force, truth = forces()
    after = round((truth.landing_s + 0.55) * RATE_Hz)
    force[after:] -= 40.0
    found, (jump,) = codes(force, rule)
    assert re.search(r"(39|40)\.\d N less than before", found["standing-after"].message)
    assert jump.weighed_after_s is None
    assert jump.rise_by_impulse_m.value == pytest.approx(truth.rise_m, abs=2 * jump.rise_by_impulse_m.se)


def test_landing_that_does_not_end_at_rest_is_left_out(rule):
    """A platform that overshoots at the impact: the standing after still weighs, the landing's impulse is not used."""
    force, truth = forces()
    landing = round(truth.landing_s * RATE_Hz)
    force[landing + 5 : landing + 45] += 300.0
    found, (jump,) = codes(force, rule)
    moving_m_s = 300 * 0.040 / (truth.body_weight_N / g)
    assert f"{moving_m_s:.2f} m/s" in found["landing-impulse"].message
    assert not jump.landing_used
    assert jump.weighed_after_s == pytest.approx(1.2, abs=0.05)
    assert jump.rise_by_impulse_m.value == pytest.approx(truth.rise_m, abs=2 * jump.rise_by_impulse_m.se)


def test_clipped_or_missing_landing_is_not_used_for_the_height(rule):
    force, truth = forces()
    _, (clipped,) = codes(np.minimum(force, 3.0 * truth.body_weight_N), rule)
    holed = force.copy()
    holed[round((truth.landing_s + 0.3) * RATE_Hz)] = np.nan
    _, (missing,) = codes(holed, rule)
    assert not clipped.landing_used
    assert not missing.landing_used


def test_drift_is_told_from_standing_before_and_after(rule):
    made = simulate(USUAL, rate_Hz=RATE_Hz, noise_N=3.0, drift_N_s=0.8, seed=2)
    _, (jump,) = codes(made.record.force_N, rule)
    assert jump.drift_N_s.value == pytest.approx(0.8, abs=3 * jump.drift_N_s.se)
    assert jump.drift_N_s.se < rule.drift_N_s / 3


def test_readings_set_to_zero_leave_the_zero_line_in_the_error(rule):
    force, truth = forces()
    found, (jump,) = codes(np.where(force < 30.0, 0.0, force), rule)
    assert re.search(r"under about [34]\d N were set to 0", found["zeroed"].message)
    _, (seen,) = codes(force, rule)
    assert jump.body_weight_N.se > 1.5 * seen.body_weight_N.se
    assert jump.rise_by_impulse_m.value == pytest.approx(truth.rise_m, abs=2 * jump.rise_by_impulse_m.se)
    assert jump.flight_s.value == pytest.approx(truth.flight_s, abs=2 * jump.flight_s.se)


# --- drop jumps ---------------------------------------------------------------------------------------------------

DROP_m, CONTACT_s, REBOUND_m = 0.30, 0.22, 0.32
tail_s = 0.004
g = 9.80665


def drop_force(mass_kg=70.0, stands=True):
    """Air, a half-sine contact with just the impulse that turns the fall into the rebound, air, landing, standing."""
    weight = mass_kg * g
    down, up = (2 * g * DROP_m) ** 0.5, (2 * g * REBOUND_m) ** 0.5
    peak = (mass_kg * (down + up) / CONTACT_s + weight) * np.pi / 2
    contact = peak * np.sin(np.pi * (np.arange(round(CONTACT_s * RATE_Hz)) + 0.5) / round(CONTACT_s * RATE_Hz))
    landing = Shape()
    settle = simulate(landing, rate_Hz=RATE_Hz, mass_kg=mass_kg).record.force_N
    after = settle[-1800:] if stands else settle[-1800:-1300]  # from the landing on
    parts = [np.zeros(500), contact, np.zeros(round(2 * up / g * RATE_Hz)), after]
    return np.concatenate(parts) + np.random.default_rng(4).normal(0, 3, sum(map(len, parts)))


def test_drop_jump_by_flight_with_both_indices_and_the_true_fall(rule):
    found, (jump,) = codes(drop_force(), rule, kind="drop")
    assert jump.rise_by_impulse_m is None
    assert jump.rise_by_flight_m.value == pytest.approx(REBOUND_m, abs=0.005)
    assert jump.drop.contact_s.value == pytest.approx(CONTACT_s, abs=tail_s)
    assert jump.drop.index_height_m_s == pytest.approx(REBOUND_m / CONTACT_s, rel=0.03)
    assert jump.drop.index_flight == pytest.approx(2 * (2 * REBOUND_m / g) ** 0.5 / CONTACT_s, rel=0.03)
    assert jump.drop.fallen_m == pytest.approx(DROP_m, abs=0.03)
    assert "warning" not in {finding.level for finding in found.values()}


def test_drop_jump_is_recognised(rule):
    assert codes(drop_force(), rule)[1][0].kind == "drop"


def test_jump_of_the_other_kind_is_told(rule):
    found, _ = codes(drop_force(), rule, kind="countermovement")
    assert "at 0.72 s follows a short contact" in found["no-flight"].message
    assert found["no-flight"].hint == "say --jump drop"
    found, _ = codes(forces()[0], rule, kind="drop")
    assert "as no drop jump's does" in found["no-flight"].message


def test_drop_jump_without_standing_needs_the_body_mass(rule):
    found, _ = codes(drop_force(stands=False), rule, kind="drop")
    assert "no-weighing" in found
    _, (jump,) = codes(drop_force(stands=False), rule, kind="drop", body_mass_kg=70.0)
    assert jump.drop.fallen_m == pytest.approx(DROP_m, abs=0.03)


def test_what_is_said_of_a_record_follows_the_limits_of_the_file(rule):
    """A top cut off, readings set to zero and a doubtful unit are told by the file's own figures."""
    force, truth = forces()
    cut_off = np.minimum(force, 3.0 * truth.body_weight_N)
    to_zero = np.where(np.abs(force) < 40, 0.0, force)
    cases = [
        (cut_off, "clipped", {"clipped_over": 3.5}),
        (cut_off, "clipped", {"clipped_samples": 200}),
        (to_zero, "zeroed", {"zeroed_over": 60.0}),
    ]
    for record, code, figures in cases:
        assert code in codes(record, rule)[0]
        assert code not in codes(record, replace_rule(rule, **figures))[0], figures
    weak = replace_rule(rule, unit_doubted_under=0.1)
    assert "check the unit" in codes(force / 1000, rule)[0]["no-flight"].hint
    assert "check the unit" not in codes(force / 1000, weak)[0]["no-flight"].hint
