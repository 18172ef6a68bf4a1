"""From force to motion: speed, height and power of the centre of mass, and the errors of the speed at take-off."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from planner.domain.platform_rule import PlatformRule
from planner.estimate.platform.flights import Air
from planner.estimate.platform.signal import Samples, integral
from planner.estimate.platform.weighing import Weighing
from planner.estimate.uncertainty import Estimate

# What remains uncertain of the instant of take-off: this share of a sample, and of the tail under the threshold.
# Calibrated on simulated records; see the tests.
SAMPLE_SHARE, TAIL_SHARE = 0.10, 0.25


@dataclass(frozen=True)
class Motion:
    """Samples from the onset to the last one over the threshold; ``take_off_m_s`` is a little later, at zero force."""

    speed_m_s: Samples
    height_m: Samples
    power_W: Samples
    take_off_m_s: Estimate
    rise_m: Estimate
    mass_kg: Estimate


def edge_se_s(air_tail_s: float, rate_Hz: float) -> float:
    """Standard error of the instant at which the force is zero, at one end of a flight."""
    return float(np.hypot(SAMPLE_SHARE / rate_Hz, TAIL_SHARE * abs(air_tail_s)))


def drift_N_s(rate_Hz: float, before: Weighing, after: Weighing | None, rule: PlatformRule) -> Estimate:
    """Drift of the zero line, from body weight before the jump and after it, drawn towards none.

    What the rule allows for is the expectation before looking; two weighings, as far as they are sure, narrow it. Where
    nobody stands still after landing the allowance stays.
    """
    allowed = rule.drift_N_s
    if after is None or after.sd_N > rule.noisy_over * after.mean_N or allowed <= 0:
        return Estimate(0.0, allowed)
    apart_s = (after.start + after.end - before.start - before.end) / (2.0 * rate_Hz)
    seen, seen_se = (after.mean_N - before.mean_N) / apart_s, float(np.hypot(after.se_N, before.se_N)) / apart_s
    weight = allowed**2 / (allowed**2 + seen_se**2)
    return Estimate(weight * seen, allowed * (1.0 - weight) ** 0.5)


def motion_before(
    force_N: Samples, rate_Hz: float, weighing: Weighing, air: Air, drift_se_N_s: float, g: float
) -> Motion:
    """Integrate from a still stand at the onset to the take-off."""
    weight_N = weighing.mean_N - air.offset_N
    mass = weight_N / g
    push = force_N[weighing.onset : air.start]
    acceleration = (push - weighing.mean_N) / mass
    speed = integral(acceleration, rate_Hz)
    height = integral(speed, rate_Hz)
    power = (push - air.offset_N) * speed
    tail_s = air.tail_before_s + 0.5 / rate_Hz  # from the last sample over the threshold to zero force
    leaving = float(speed[-1]) + tail_s * ((float(push[-1]) - air.offset_N) / 2.0 - weight_N) / mass
    se = _speed_se(rate_Hz, weighing, air, drift_se_N_s, g, leaving)
    rise = leaving**2 / (2.0 * g) if leaving > 0 else 0.0
    mass_se = float(np.hypot(weighing.se_N, _offset_se(air))) / g
    return Motion(
        speed, height, power, Estimate(leaving, se), Estimate(rise, abs(leaving) / g * se), Estimate(mass, mass_se)
    )


def _offset_se(air: Air) -> float:
    return air.noise_N / float(np.sqrt(max(1.0, (air.end - air.start) * 0.6)))


def _speed_se(rate_Hz: float, weighing: Weighing, air: Air, drift_se_N_s: float, g: float, leaving_m_s: float) -> float:
    """Body weight, drift of the zero line, noise along the push, and the instant of take-off, as independent."""
    weight_N = weighing.mean_N - air.offset_N
    mass = weight_N / g
    push_s = (air.start - weighing.onset) / rate_Hz
    by_weight = (push_s / mass + leaving_m_s / weight_N) * weighing.se_N
    by_offset = leaving_m_s / weight_N * _offset_se(air)
    half_weighing_s = weighing.seconds / 2.0
    to_flight_s = half_weighing_s + push_s + (air.end - air.start) / (2.0 * rate_Hz)
    drift_now = push_s * (push_s / 2.0 + half_weighing_s) / mass
    drift_mass = leaving_m_s / weight_N * to_flight_s
    by_drift = drift_se_N_s * (drift_now + drift_mass)
    noise_N = min(air.noise_N or weighing.sd_N, weighing.sd_N) if weighing.sd_N else air.noise_N
    by_noise = noise_N * (push_s / rate_Hz) ** 0.5 / mass
    by_instant = g * edge_se_s(air.tail_before_s, rate_Hz)
    return float(np.sqrt(by_weight**2 + by_offset**2 + by_drift**2 + by_noise**2 + by_instant**2))


def rise_with(force_N: Samples, rate_Hz: float, *, onset: int, weight_read_N: float, air: Air, g: float) -> float:
    """The impulse's rise with another weighing: for showing how far it depends on it."""
    push = force_N[onset : air.start]
    weight_N = weight_read_N - air.offset_N
    tail_s = air.tail_before_s + 0.5 / rate_Hz
    seconds = (len(push) - 1) / rate_Hz
    total = float(integral(push - air.offset_N, rate_Hz)[-1]) + tail_s * (float(push[-1]) - air.offset_N) / 2.0
    leaving = g * (total / weight_N - (seconds + tail_s))
    return leaving**2 / (2.0 * g) if leaving > 0 else 0.0
