"""The instant of zero force, between the samples: exact on a line, true to its error in noise, whatever the rate."""

import numpy as np
import pytest

from planner.force_platform.edges import edge_of

slope_N_s = 30_000.0
threshold_N = 20.0
soft_s = 0.003


def ramp(rate_Hz, instant_s, noise_N=0.0, seed=0, offset_N=0.0):
    """Zero, and from ``instant_s`` on a line: force outwards from a flight, and its first sample over the threshold."""
    times_s = np.arange(round(0.2 * rate_Hz)) / rate_Hz
    force = np.clip(times_s - instant_s, 0.0, None) * slope_N_s
    force = force + offset_N + np.random.default_rng(seed).normal(0, noise_N, len(force))
    late = np.flatnonzero((force < threshold_N) & (times_s < instant_s + 0.01))[-1] + 1
    return force, int(late)


def told_s(force, crossing, rule, rate_Hz, noise_N):
    edge = edge_of(force, crossing, threshold_N=threshold_N, noise_N=noise_N, rate_Hz=rate_Hz, rule=rule.edges)
    return (crossing - 0.5) / rate_Hz - edge.under_s, edge.se_s


@pytest.mark.parametrize("rate_Hz", [100.0, 200.0, 500.0, 1000.0, 2000.0])
def test_line_without_noise_is_told_to_a_twentieth_of_a_sample_on_average_and_within_its_error(rate_Hz, rule):
    """Ends of push and of landing are soft, and the fit allows for that: a straight one is not told exactly."""
    off = []
    for part in np.arange(0.0, 1.0, 0.1):
        instant_s = 0.1 + part / rate_Hz
        force, crossing = ramp(rate_Hz, instant_s)
        instant, se_s = told_s(force, crossing, rule, rate_Hz, 1.0)
        assert abs(instant - instant_s) <= 1.96 * se_s
        off.append((instant - instant_s) * rate_Hz)
    assert float(np.mean(off)) == pytest.approx(0.0, abs=0.05)


@pytest.mark.parametrize("rate_Hz", [200.0, 500.0, 1000.0])
def test_soft_end_is_told_without_bias(rate_Hz, rule):
    """Force that begins at half its later slope, as when the toes leave last."""
    off = []
    for part in np.arange(0.0, 1.0, 0.1):
        instant_s = 0.1 + part / rate_Hz
        since_s = np.clip(np.arange(round(0.2 * rate_Hz)) / rate_Hz - instant_s, 0.0, None)
        force = slope_N_s * np.where(since_s < soft_s, since_s / 2, since_s - soft_s / 2)
        crossing = int(np.flatnonzero(force >= threshold_N)[0])
        instant, se_s = told_s(force, crossing, rule, rate_Hz, 1.0)
        assert abs(instant - instant_s) <= 1.96 * se_s
        off.append((instant - instant_s) / se_s)
    assert abs(float(np.mean(off))) < 0.6


def test_scatter_in_noise_is_the_error_stated(rule):
    """Instants told from 200 noisy ramps scatter about the truth by no more than they say, nor by far less."""
    rate_Hz, noise_N = 1000.0, 5.0
    ratios = []
    for seed in range(200):
        instant_s = 0.1 + seed / 200 / rate_Hz
        force, crossing = ramp(rate_Hz, instant_s, noise_N, seed)
        told, se_s = told_s(force, crossing, rule, rate_Hz, noise_N)
        ratios.append((told - instant_s) / se_s)
    assert 0.6 < float(np.std(ratios)) < 1.1
    assert abs(float(np.mean(ratios))) < 0.3


def test_rough_edge_has_the_larger_error(rule):
    force, crossing = ramp(1000.0, 0.1)
    rough = force.copy()
    rough[crossing : crossing + 8] += np.array([30.0, -30.0] * 4)
    assert told_s(rough, crossing, rule, 1000.0, 3.0)[1] > 2 * told_s(force, crossing, rule, 1000.0, 3.0)[1]


def test_contact_of_one_sample_is_no_edge(rule):
    force, crossing = ramp(1000.0, 0.1)
    edge = edge_of(
        force[: crossing + 1], crossing, threshold_N=threshold_N, noise_N=1.0, rate_Hz=1000.0, rule=rule.edges
    )
    assert edge.se_s == rule.edges.longest_under
