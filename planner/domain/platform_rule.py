"""How a force-platform record is read: thresholds and limits, each editable, with their sources."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planner.domain.base import Distance, Force, Fraction, Load, Model, ShortTime, Text
from planner.domain.fields import Source

Multiple = Annotated[float, Field(ge=0, le=100)]
PositiveTime = Annotated[ShortTime, Field(gt=0)]


class EdgeRule(Model):
    """The instant of zero force, between the samples: a line that may bend, through the contact next to it.

    ``fit``: how much of the contact; ``bend_per_s``: standard deviation of the bend, the slope's relative change a
    second; ``longest_under``: no instant is looked for further from the threshold's crossing; ``least_noise``: scatter
    of force about that line at the least; ``unseen_share``: of the time the force spends under the threshold, standard
    error for what it may do there unseen; ``sample_share``: of the time between two samples, standard error where no
    more than three of them tell the line; ``rougher``: from so many times the noise's mean square about that line, its
    own roughness is taken for the noise.
    """

    fit: PositiveTime = Field(description="How much of the contact next to the threshold's crossing is fitted.")
    bend_per_s: float = Field(
        gt=0,
        le=1000,
        description="How far the force may bend there: standard deviation of its slope's relative change a second.",
    )
    longest_under: PositiveTime = Field(description="No instant of zero force is looked for further from the crossing.")
    least_noise: Force = Field(description="Least scatter of force about the fit.")
    unseen_share: Fraction = Field(
        description="Error for what force does unseen under the threshold, as a share of the time it spends there."
    )
    sample_share: Fraction = Field(
        description="Standard error of the instant, of the time between two samples, where no more than three tell "
        "the line."
    )
    rougher: Multiple = Field(
        description="From so many times the noise's mean square about the fit, its own roughness is taken for the "
        "noise."
    )
    source: Source


class SearchRule(Model):
    """How standing, push and flight are found in a record, before anything is read from them.

    Air: where the mean over ``smooth`` is less than ``coarse_share`` of the usual standing force, which is that of
    samples above ``standing_from`` of the range; contact again where force stays over the threshold for ``back_for``.
    Readings in the air more than ``stray_multiple`` standard deviations off do not move the zero line. Standing: the
    latest window up to ``quiet_tolerance`` times as restless as the quietest; its error counts sway in pieces of
    ``sway_block``, its standard deviation is at least ``least_scatter`` of body weight, and the jump begins where force
    stays away for ``away_for``.
    """

    smooth: PositiveTime = Field(description="Length of the moving mean in which air is first looked for.")
    coarse_share: Fraction = Field(description="Air where that mean is under this share of the usual standing force.")
    standing_from: Fraction = Field(
        description="Samples above this share of the record's range count as standing for that."
    )
    back_for: PositiveTime = Field(
        description="Force is back on the ground when it stays over the threshold this long."
    )
    stray_multiple: Multiple = Field(
        description="Readings in the air more standard deviations off do not move the zero line."
    )
    quiet_tolerance: float = Field(
        ge=1, le=10, description="The latest window this many times as restless as the quietest is weighed."
    )
    sway_block: PositiveTime = Field(
        description="Length of the pieces in which sway counts towards the weighing's error."
    )
    least_scatter: Fraction = Field(
        description="Least standard deviation of the weighing, share of body weight, when the onset is looked for."
    )
    away_for: PositiveTime = Field(description="The jump has begun when force stays away from body weight this long.")
    source: Source


class StandRule(Model):
    """Which quiet stretches of a record are stands that tell body weight.

    ``least``: none shorter is looked for; ``noise_share``: the record is smoothed until noise is that share of body
    weight; ``plain_band``: a band about the stand, as a share of body weight, up to which the onset's usual time back
    does. A stand is held against the flight next to it, whose speed has the error ``flight_speed_error_m_s``, and is
    none from ``misfit_over`` standard errors. ``level_share``: by so much of body weight stands of one body differ;
    ``differ_over``: from so many standard errors two stands do not weigh the same body.
    """

    least: PositiveTime = Field(description="No shorter stretch is looked at as a stand.")
    noise_share: float = Field(
        gt=0, le=0.1, description="The record is smoothed until its noise is this share of body weight."
    )
    plain_band: float = Field(
        gt=0, le=0.5, description="Up to this share of body weight about a stand the usual time back to the onset does."
    )
    flight_speed_error_m_s: float = Field(
        gt=0, le=1, description="Standard error of the take-off speed by half the flight, metres a second."
    )
    misfit_over: Multiple = Field(
        description="A stand is none that is so many standard errors off what the flight next to it tells."
    )
    level_share: Fraction = Field(description="Stands of one body differ by this share of its weight.")
    differ_over: Multiple = Field(description="From so many standard errors two stands do not weigh the same body.")
    source: Source


class TrustRule(Model):
    """When the heights by impulse and by flight contradict each other, and which is believed then.

    Joint error: theirs, and ``posture_error`` for a body that lands otherwise than it took off. They contradict each
    other from ``contradict_over`` joint errors. An impulse whose own error is above ``impulse_error_over`` is not
    written. Landing with bent legs explains a flight that reads up to ``bent_landing_up_to`` more. A push-off outside
    ``push_off_from`` to ``push_off_to`` makes the rate of the record doubtful.
    """

    posture_error: Distance = Field(description="Standard error of a height for landing otherwise than taking off.")
    contradict_over: Multiple = Field(
        description="Impulse and flight contradict each other from so many of their joint errors."
    )
    impulse_error_over: Distance = Field(
        description="A height by impulse with a larger error is not written into an athlete's file."
    )
    bent_landing_up_to: Distance = Field(
        description="Landing with bent legs makes the flight's height read up to so much more."
    )
    push_off_from: Distance = Field(description="A shorter push-off makes the rate of the record doubtful.")
    push_off_to: Distance = Field(description="A longer push-off makes the rate of the record doubtful.")
    source: Source


class PlatformRule(Model):
    """Limits and thresholds of force-platform analysis.

    Take-off and landing: force under ``airborne_under`` after the zero offset is off (more, where the noise in flight
    asks for it: ``noise_multiple`` standard deviations). Onset: ``onset_back`` before force leaves body weight by
    ``onset_multiple`` standard deviations of the weighing.
    """

    airborne_under: Force = Field(description="Force under which the feet are off the platform.")
    noise_multiple: Multiple = Field(
        description="More, where so many standard deviations of the noise in flight ask for it."
    )
    edges: EdgeRule = Field(description="How the instants of zero force are told, between the samples.")
    search: SearchRule = Field(description="How standing, push and flight are found.")
    stand: StandRule = Field(description="Which quiet stretches of a record tell body weight.")
    trust: TrustRule = Field(description="Which height is believed where impulse and flight contradict each other.")
    shortest_flight: ShortTime = Field(description="A shorter gap in the force is no flight.")
    longest_flight: ShortTime = Field(description="A longer one is a step off the platform.")
    shortest_contact: ShortTime = Field(
        description="A shorter contact between two stretches of air is a knock, no contact."
    )
    weighing: ShortTime = Field(description="Usual time of standing still; a shorter one is warned of.")
    shortest_weighing: ShortTime = Field(description="A shorter one is refused.")
    noisy_over: Fraction = Field(
        description="Scatter while standing, share of body weight, from which it is warned of."
    )
    refuse_noise_over: Fraction = Field(
        description="Scatter while standing, share of body weight, from which it is refused."
    )
    onset_multiple: Multiple = Field(
        description="The jump has begun when force leaves body weight by so many standard deviations."
    )
    onset_back: ShortTime = Field(description="Its onset is taken so much earlier.")
    propulsion_over_m_s: float = Field(
        ge=0, le=1, description="Upward speed from which the push counts as upward, metres a second."
    )
    longest_movement: ShortTime = Field(description="Longest time from onset to take-off.")
    shortest_movement: ShortTime = Field(
        description="Shortest time from onset to take-off; no standing is looked for later."
    )
    settled_after: ShortTime = Field(description="Time after landing before which nobody stands still.")
    longest_rebound_contact: ShortTime = Field(description="A shorter contact between two flights is a rebound.")
    slowest_take_off_m_s: float = Field(
        ge=0, le=3, description="An impulse that gives a lower take-off speed is no jump from a stand, metres a second."
    )
    unit_doubted_under: Force = Field(description="A record whose force stays under it is in another unit.")
    clipped_over: Multiple = Field(
        description="Force that rises above so many body weights is looked at for a cut-off top."
    )
    clipped_samples: int = Field(
        ge=2, le=1000, description="So many equal highest samples in a row are a ceiling, not a peak."
    )
    landing_whole: ShortTime = Field(description="Time into the landing in which no sample may be missing.")
    short_weighing_share: Fraction = Field(
        description="A weighing shorter than this share of the usual is judged with what stands around it."
    )
    zeroed_share: Fraction = Field(
        description="Share of the samples in the air that are exactly zero where small readings were set to zero."
    )
    zeroed_over: Force = Field(description="They were, where the least reading that was kept is above it.")
    least_jumps_for_sides: int = Field(
        ge=2, le=50, description="Jumps whose own scatter tells the error of a side's share."
    )
    missing_over: Fraction = Field(description="A record that lacks more of its samples, as a share, is refused.")
    dip_over: Fraction = Field(description="A held-squat jump that unweights by more (share of body weight) had a dip.")
    step_over: Fraction = Field(
        description="Difference between the halves of the weighing (share of body weight) that says stepping or "
        "leaning."
    )
    one_foot_under: Fraction = Field(
        description="A platform that carries less of the weight, as a share, has no foot on it."
    )
    one_platform_over: Fraction = Field(
        description="Push on one platform and landing on the other, each with a larger share, are a jump between them."
    )
    drift_N_s: float = Field(
        ge=0, le=100, description="Standard uncertainty of the zero line's drift, newtons a second."
    )
    loaded_zero_over: Fraction = Field(
        description="A zero line so far below zero, as a share of body weight, was set with the body on the platform."
    )
    hidden_zero_error: Force = Field(
        description="Standard error of a zero line that was hidden when small readings were set to zero."
    )
    given_mass_error: Load = Field(
        description="Standard error of a body mass that is given, not weighed on the platform."
    )
    mass_differs_over: Fraction = Field(
        description="A body mass on the platform that differs by more from the athlete's file, as a share, is warned "
        "of."
    )
    disagree_over: Multiple = Field(
        description="A landing, or standing after it, that fits the rest worse than by so many standard errors is not "
        "used."
    )
    lowest_rate_Hz: float = Field(ge=1, le=20000, description="Records of a lower rate are refused, hertz.")
    usual_rate_Hz: float = Field(ge=1, le=20000, description="Records of a lower rate are warned of, hertz.")
    source: Source
    limits_source: Text = Field(description="Where the limits come from.")
