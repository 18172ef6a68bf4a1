"""From force to motion: speed and height of the centre of mass up to the take-off."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from planner.estimate.uncertainty import Estimate
from planner.force_platform.evidence import Evidence, impulse_of
from planner.force_platform.flights import Air
from planner.force_platform.signal import Samples, integral
from planner.units import STANDARD_GRAVITY_m_s2 as g


@dataclass(frozen=True)
class Motion:
    """Samples from the onset to the last one over the threshold; ``take_off_m_s`` is a little later, at zero force."""

    speed_m_s: Samples
    height_m: Samples
    take_off_m_s: Estimate
    rise_m: Estimate


def until_zero(air: Air, seconds: float, rate_Hz: float) -> Estimate:
    """Seconds to zero force from a sample this long before the last one over the threshold."""
    return Estimate(seconds + air.before.under_s + 0.5 / rate_Hz, air.before.se_s)


def motion_before(force_N: Samples, rate_Hz: float, onset: int, air: Air, evidence: Evidence) -> Motion:
    """Integrate from a still stand at the onset to the take-off; ``force_N`` with zero offset and drift off.

    What the balance knows of the noise summed up and of the sway at the start is taken off along the way.
    """
    balance = evidence.balance
    weight = balance.weight_N
    mass = weight.value / g
    ground = force_N[onset : air.start]
    along = np.linspace(0.0, 1.0, len(ground))
    noise, start = balance.noise_and_start_Ns(evidence.place)
    speed = integral((ground - weight.value) / mass, rate_Hz) + (start - along * noise) / mass
    until = until_zero(air, evidence.push.seconds, rate_Hz)
    leaving = balance.take_off_m_s(evidence.known, evidence.place, until)
    return _moved(speed, leaving, rate_Hz)


def motion_from_flight(
    force_N: Samples, rate_Hz: float, first: int, air: Air, weight_N: Estimate, flight: Estimate
) -> Motion:
    """Integrate back from the take-off, whose speed is that of half the flight, where no stand tells the start's."""
    ground = force_N[first : air.start]
    leaving = Estimate(g * flight.value / 2.0, g * flight.se / 2.0)
    gained = integral((ground / weight_N.value - 1.0) * g, rate_Hz)
    last_gain = until_zero(air, 0.0, rate_Hz).value * (float(ground[-1]) / 2.0 / weight_N.value - 1.0) * g
    speed = leaving.value - last_gain - (gained[-1] - gained)
    return _moved(speed, leaving, rate_Hz)


def _moved(speed_m_s: Samples, leaving: Estimate, rate_Hz: float) -> Motion:
    rise = leaving.value**2 / (2.0 * g) if leaving.value > 0 else 0.0
    rise_m = Estimate(rise, abs(leaving.value) / g * leaving.se)
    return Motion(speed_m_s, integral(speed_m_s, rate_Hz), leaving, rise_m)


def rise_with(force_N: Samples, rate_Hz: float, *, onset: int, weight_read_N: float, air: Air) -> float:
    """The rise by integrating forwards alone, with a body weight that was read somewhere: the usual way."""
    push = impulse_of(force_N, rate_Hz, onset, air.start, air)
    weight_N = weight_read_N - air.offset_N
    until = until_zero(air, push.seconds, rate_Hz)
    leaving = g * ((push.total_Ns - air.offset_N * push.seconds) / weight_N - until.value)
    return leaving**2 / (2.0 * g) if leaving > 0 else 0.0
