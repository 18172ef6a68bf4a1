"""How a force-platform record is read: thresholds and limits, each editable, with their sources."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planner.domain.base import Distance, Force, Fraction, Load, Model, ShortTime, Text

Multiple = Annotated[float, Field(ge=0, le=100)]
PositiveTime = Annotated[ShortTime, Field(gt=0)]


class EdgeRule(Model):
    """The instant of zero force, between the samples: a line that may bend, through the contact next to it.

    ``fit``: how much of the contact; ``bend_per_s``: standard deviation of the bend, the slope's relative change a
    second; ``longest_under``: no instant is looked for further from the threshold's crossing; ``least_noise``: scatter
    of force about that line at the least; ``unseen_share``: of the time the force spends under the threshold, standard
    error for what it may do there unseen, ``hidden_share`` where small readings were set to zero; ``sample_share``: of
    the time between two samples at 100 a second, standard error for what the curve does between them; ``rougher``: from
    so many times the noise's mean square about that line, its own roughness is taken for the noise.
    """

    fit: PositiveTime
    bend_per_s: Annotated[float, Field(gt=0, le=1000)]
    longest_under: PositiveTime
    least_noise: Force
    unseen_share: Fraction
    hidden_share: Fraction
    sample_share: Fraction
    rougher: Multiple
    source: Text


class SearchRule(Model):
    """How standing, push and flight are found in a record, before anything is read from them.

    Air: where the mean over ``smooth`` is less than ``coarse_share`` of the usual standing force, which is that of
    samples above ``standing_from`` of the range; contact again where force stays over the threshold for ``back_for``.
    Readings in the air more than ``stray_multiple`` standard deviations off do not move the zero line. Standing: the
    latest window up to ``quiet_tolerance`` times as restless as the quietest; its error counts sway in pieces of
    ``sway_block``, its standard deviation is at least ``least_scatter`` of body weight, and the jump begins where force
    stays away for ``away_for``.
    """

    smooth: PositiveTime
    coarse_share: Fraction
    standing_from: Fraction
    back_for: PositiveTime
    stray_multiple: Multiple
    quiet_tolerance: Annotated[float, Field(ge=1, le=10)]
    sway_block: PositiveTime
    least_scatter: Fraction
    away_for: PositiveTime
    source: Text


class StandRule(Model):
    """Which quiet stretches of a record are stands that tell body weight.

    ``least``: none shorter is looked for; ``noise_share``: the record is smoothed until noise is that share of body
    weight; ``plain_band``: a band about the stand, as a share of body weight, up to which the onset's usual time back
    does. A stand is held against the flight next to it, whose speed has the error ``flight_speed_error_m_s``, and is
    none from ``misfit_over`` standard errors. ``level_share``: by so much of body weight stands of one body differ;
    ``differ_over``: from so many standard errors two stands do not weigh the same body.
    """

    least: PositiveTime
    noise_share: Annotated[float, Field(gt=0, le=0.1)]
    plain_band: Annotated[float, Field(gt=0, le=0.5)]
    flight_speed_error_m_s: Annotated[float, Field(gt=0, le=1)]
    misfit_over: Multiple
    level_share: Fraction
    differ_over: Multiple
    source: Text


class TrustRule(Model):
    """When the heights by impulse and by flight contradict each other, and which is believed then.

    Joint error: theirs, and ``posture_error`` for a body that lands otherwise than it took off. They contradict each
    other from ``contradict_over`` joint errors. An impulse whose own error is above ``impulse_error_over`` is not
    written. Landing with bent legs explains a flight that reads up to ``bent_landing_up_to`` more. A push-off outside
    ``push_off_from`` to ``push_off_to`` makes the rate of the record doubtful.
    """

    posture_error: Distance
    contradict_over: Multiple
    impulse_error_over: Distance
    bent_landing_up_to: Distance
    push_off_from: Distance
    push_off_to: Distance
    source: Text


class PlatformRule(Model):
    """Limits and thresholds of force-platform analysis.

    Take-off and landing: force under ``airborne_under`` after the zero offset is off (more, where the noise in flight
    asks for it: ``noise_multiple`` standard deviations). Onset: ``onset_back`` before force leaves body weight by
    ``onset_multiple`` standard deviations of the weighing.
    """

    airborne_under: Force
    noise_multiple: Multiple
    edges: EdgeRule
    search: SearchRule
    stand: StandRule
    trust: TrustRule
    shortest_flight: ShortTime
    longest_flight: ShortTime
    shortest_contact: ShortTime  # a contact between two stretches of air, shorter than this, is a knock
    weighing: ShortTime  # usual; shorter is warned of
    shortest_weighing: ShortTime  # shorter is refused
    noisy_over: Fraction  # of body weight, standard deviation of the weighing: warned of
    refuse_noise_over: Fraction  # of body weight: refused
    onset_multiple: Multiple
    onset_back: ShortTime
    propulsion_over_m_s: Annotated[float, Field(ge=0, le=1)]
    longest_movement: ShortTime  # from onset to take-off; the search goes no further back
    shortest_movement: ShortTime  # from onset to take-off; no standing is looked for later
    settled_after: ShortTime  # after landing, before anyone can be standing still
    longest_rebound_contact: ShortTime  # a contact between two flights, shorter than this, is a rebound jump
    slowest_take_off_m_s: Annotated[float, Field(ge=0, le=3)]  # an impulse that gives less is no jump from a stand
    unit_doubted_under: Force  # a record whose force stays under it is in another unit
    clipped_over: Multiple  # of body weight: a flat top is looked for where force rises above it
    clipped_samples: Annotated[int, Field(ge=2, le=1000)]  # so many equal highest ones in a row are a ceiling, no peak
    landing_whole: ShortTime  # into the landing: what must not be missing for the flight to be told
    short_weighing_share: Fraction  # of the usual: a shorter weighing is judged with what stands around it
    zeroed_share: Fraction  # of the samples in the air that are exactly zero: small readings were set to zero
    zeroed_over: Force  # where the least reading that was kept is above it
    least_jumps_for_sides: Annotated[int, Field(ge=2, le=50)]  # whose own scatter tells the error of a side's share
    missing_over: Fraction  # of the samples: a record that lacks more is refused whole
    dip_over: Fraction  # of body weight: a squat jump that unweights by more had a countermovement
    step_over: Fraction  # of body weight: difference of the weighing's halves that says stepping or leaning
    one_foot_under: Fraction  # of the weight: a platform that carries less has no foot on it
    one_platform_over: Fraction  # of push and of landing, on one platform each: a jump from one to the other
    drift_N_s: Annotated[float, Field(ge=0, le=100)]  # standard uncertainty of the zero line's drift
    loaded_zero_over: Fraction  # of body weight: a zero line so far below zero was set with the body on the platform
    hidden_zero_error: Force  # standard error of the zero line where small readings were set to zero before
    given_mass_error: Load  # standard error of a body mass that is given, not weighed on the platform
    mass_differs_over: Fraction  # of the body mass in the athlete's file, from that on the platform: warned of
    disagree_over: Multiple  # standard errors: a landing or standing after it that fits worse is not used
    lowest_rate_Hz: Annotated[float, Field(ge=1, le=20000)]  # refused below
    usual_rate_Hz: Annotated[float, Field(ge=1, le=20000)]  # warned of below
    source: Text
    limits_source: Text
