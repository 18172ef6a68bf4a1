"""The take-off: from a rise to speed, impulse and force, within a contact time or over a push-off distance.

Two forces, two names. The *net* force is the force above body weight, which changes the speed ("m x a"); the *ground*
force is what the foot presses with, body weight included.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from planner.units import STANDARD_GRAVITY_m_s2


@dataclass(frozen=True)
class TakeOffFigures:
    """One take-off of one body. Forces are means over the contact (or the push-off), vertical."""

    rise_m: float
    take_off_speed_m_s: float
    net_impulse_Ns: float
    mean_net_force_N: float
    mean_ground_force_N: float
    mean_ground_force_bw: float


@dataclass(frozen=True)
class PushOffFigures:
    """A push-off from rest over a distance, force constant along it (Samozino et al. 2008, J Biomech 41:2940)."""

    take_off: TakeOffFigures
    push_off_time_s: float


def rise_from_touch_m(*, touch_m: float, standing_reach_m: float, heel_rise_m: float) -> float:
    """Rise of the body after take-off from a touched mark: minus the flat-footed reach and the heel rise."""
    return touch_m - standing_reach_m - heel_rise_m


def rise_from_flight_time_m(*, flight_time_s: float, g: float = STANDARD_GRAVITY_m_s2) -> float:
    """h = g T^2 / 8, for equal posture at take-off and landing.

    Landing with bent legs reads high: bent ankles alone +18 % on a 30 cm jump (Goncalves 2024, PeerJ 12:e17704). Do not
    use it off a run-up, where nobody lands in the posture of take-off.
    """
    return g * flight_time_s**2 / 8.0


def take_off_speed_m_s(*, rise_m: float, g: float = STANDARD_GRAVITY_m_s2) -> float:
    """v = sqrt(2 g h)."""
    return math.sqrt(2.0 * g * rise_m)


def take_off_in_contact(
    *,
    rise_m: float,
    body_mass_kg: float,
    contact_time_s: float,
    touch_down_speed_m_s: float = 0.0,
    g: float = STANDARD_GRAVITY_m_s2,
) -> TakeOffFigures:
    """Take-off within a contact time. J = m (v - v0), mean net force J/t, mean ground force m g + J/t.

    ``touch_down_speed_m_s`` is the vertical speed at touch-down, 0 or negative (downwards). Off a run-up it is a few
    tenths below 0 and seldom known; 0 is the convention of the benchmark curves, not a claim.
    """
    speed = take_off_speed_m_s(rise_m=rise_m, g=g)
    impulse = body_mass_kg * (speed - touch_down_speed_m_s)
    net = impulse / contact_time_s
    weight = body_mass_kg * g
    return TakeOffFigures(rise_m, speed, impulse, net, weight + net, (weight + net) / weight)


def take_off_over_push_off(
    *, rise_m: float, body_mass_kg: float, push_off_m: float, g: float = STANDARD_GRAVITY_m_s2
) -> PushOffFigures:
    """Take-off from rest over a push-off distance d: mean ground force m g (h/d + 1), mean speed sqrt(g h / 2).

    Samozino et al. 2008, J Biomech 41:2940.
    """
    speed = take_off_speed_m_s(rise_m=rise_m, g=g)
    weight = body_mass_kg * g
    net = weight * rise_m / push_off_m
    ground = weight + net
    mean_speed = math.sqrt(g * rise_m / 2.0)
    return PushOffFigures(
        take_off=TakeOffFigures(rise_m, speed, body_mass_kg * speed, net, ground, ground / weight),
        push_off_time_s=push_off_m / mean_speed,
    )


def contact_time_for_force_s(
    *, rise_m: float, body_mass_kg: float, mean_ground_force_N: float, touch_down_speed_m_s: float = 0.0
) -> float:
    """Contact time in which this mean ground force gives this rise. Raises ValueError for no more than body weight."""
    net = mean_ground_force_N - body_mass_kg * STANDARD_GRAVITY_m_s2
    if net <= 0:
        raise ValueError("a ground force at or below body weight lifts nobody")
    return body_mass_kg * (take_off_speed_m_s(rise_m=rise_m) - touch_down_speed_m_s) / net


def half_sine_peak_N(*, mean_force_N: float) -> float:
    """Peak of a half sine with this mean: pi/2 times it. A model: a plant with an impact peak exceeds it."""
    return math.pi / 2.0 * mean_force_N


def drop_jump_mean_force_N(*, body_mass_kg: float, drop_m: float, contact_time_s: float, flight_time_s: float) -> float:
    """Mean ground force of a drop jump: m g + m (sqrt(2 g drop) + g T / 2) / t.

    The landing speed comes from the box, so a real drop from less than the box's height reads a little high (Baca 1999,
    MSSE 31:437); the rebound comes from the flight.
    """
    g = STANDARD_GRAVITY_m_s2
    landing_m_s = math.sqrt(2.0 * g * drop_m)
    leaving_m_s = g * flight_time_s / 2.0
    return body_mass_kg * (g + (landing_m_s + leaving_m_s) / contact_time_s)


def reactive_index_height_m_s(*, contact_time_s: float, flight_time_s: float) -> float:
    """Reactive strength index as rebound height over contact time (m/s)."""
    return rise_from_flight_time_m(flight_time_s=flight_time_s) / contact_time_s


def reactive_index_flight(*, contact_time_s: float, flight_time_s: float) -> float:
    """Reactive strength index as flight time over contact time (no unit). Not comparable with the height form."""
    return flight_time_s / contact_time_s
