"""The rise that a flight tells, with its error."""

from __future__ import annotations

from planner.estimate.take_off import rise_from_flight_time_m
from planner.estimate.uncertainty import Estimate
from planner.units import STANDARD_GRAVITY_m_s2


def rise_by_flight(flight: Estimate) -> Estimate:
    """h = g T^2 / 8 in metres, from seconds; dh/dT = g T / 4."""
    metres_a_second = STANDARD_GRAVITY_m_s2 * flight.value / 4.0
    return Estimate(rise_from_flight_time_m(flight_time_s=flight.value), metres_a_second * flight.se)
