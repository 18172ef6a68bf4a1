"""How a force-platform record is read: thresholds and limits, each editable, with their sources."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planner.domain.base import Force, Fraction, Model, ShortTime, Text

Multiple = Annotated[float, Field(ge=0, le=100)]


class PlatformRule(Model):
    """Limits and thresholds of force-platform analysis.

    Take-off and landing: force under ``airborne_under`` after the zero offset is off (more, where the noise in flight
    asks for it: ``noise_multiple`` standard deviations). Onset: ``onset_back`` before force leaves body weight by
    ``onset_multiple`` standard deviations of the weighing.
    """

    airborne_under: Force
    noise_multiple: Multiple
    shortest_flight: ShortTime
    longest_flight: ShortTime
    weighing: ShortTime  # usual; shorter is warned of
    shortest_weighing: ShortTime  # shorter is refused
    noisy_over: Fraction  # of body weight, standard deviation of the weighing: warned of
    refuse_noise_over: Fraction  # of body weight: refused
    onset_multiple: Multiple
    onset_back: ShortTime
    propulsion_over_m_s: Annotated[float, Field(ge=0, le=1)]
    longest_movement: ShortTime  # from onset to take-off; the search goes no further back
    longest_rebound_contact: ShortTime  # a contact between two flights, shorter than this, is a rebound jump
    dip_over: Fraction  # of body weight: a squat jump that unweights by more had a countermovement
    step_over: Fraction  # of body weight: difference of the weighing's halves that says stepping or leaning
    drift_N_s: Annotated[float, Field(ge=0, le=100)]  # standard uncertainty of the zero line's drift
    lowest_rate_Hz: Annotated[float, Field(ge=1, le=20000)]  # refused below
    usual_rate_Hz: Annotated[float, Field(ge=1, le=20000)]  # warned of below
    source: Text
    limits_source: Text
