"""How a force-platform record is read: thresholds and limits, each editable, with their sources."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planner.domain.base import Distance, Force, Fraction, Load, Model, ShortTime, Text
from planner.domain.fields import Source

Multiple = Annotated[float, Field(ge=0, le=100)]
PositiveTime = Annotated[ShortTime, Field(gt=0)]


class EdgeRule(Model):
    """The instant of zero force, between the samples: a line that may bend, fitted to the contact next to it."""

    fit: PositiveTime = Field(description="How much of the contact next to the threshold's crossing is fitted.")
    bend_per_s: float = Field(
        gt=0,
        le=1000,
        description="How far the fitted line may bend: standard deviation of its slope's relative change per second.",
    )
    longest_under: PositiveTime = Field(
        description="The instant of zero force is at most this far from the threshold's crossing."
    )
    least_noise: Force = Field(description="Least scatter of force about the fit.")
    unseen_share: Fraction = Field(
        description="Standard error for what force does unseen under the threshold, as a share of the time spent there."
    )
    hidden_share: Fraction = Field(
        description="The same where small readings were set to zero before the file was saved."
    )
    sample_share: Fraction = Field(
        description="Standard error of the instant, as a share of the sample interval at 100 a second; less at more."
    )
    rougher: Multiple = Field(
        description="Above this many times the noise's mean square about the fit, the fit's own scatter is used as "
        "the noise."
    )
    source: Source


class SearchRule(Model):
    """How standing, push and flight are found in a record, before anything is read from them."""

    smooth: PositiveTime = Field(description="Length of the moving mean in which air is first looked for.")
    coarse_share: Fraction = Field(description="Air where that mean is under this share of the usual standing force.")
    standing_from: Fraction = Field(
        description="Samples above this share of the record's range give that standing force."
    )
    back_for: PositiveTime = Field(
        description="Force is back on the ground when it stays over the threshold this long."
    )
    stray_multiple: Multiple = Field(
        description="Readings in the air that are more standard deviations off do not move the zero line."
    )
    quiet_tolerance: float = Field(
        ge=1, le=10, description="The latest window up to this many times as restless as the quietest is the weighing."
    )
    sway_block: PositiveTime = Field(
        description="Length of the pieces in which sway is counted for the weighing's error."
    )
    least_scatter: Fraction = Field(
        description="Least standard deviation of the weighing, share of body weight, when the onset is looked for."
    )
    away_for: PositiveTime = Field(description="The jump has begun when force stays away from body weight this long.")
    source: Source


class StandRule(Model):
    """When a quiet stretch of a record is a stand."""

    least: PositiveTime = Field(description="A shorter stretch is not a stand.")
    noise_share: float = Field(
        gt=0, le=0.1, description="The record is smoothed until its noise is this share of body weight."
    )
    plain_band: float = Field(
        gt=0,
        le=0.5,
        description="Up to this band around a stand, as a share of body weight, the onset's usual time back is long "
        "enough.",
    )
    flight_speed_error_m_s: float = Field(
        gt=0, le=1, description="Standard error of the take-off speed by half the flight, metres a second."
    )
    misfit_over: Multiple = Field(
        description="A quiet stretch this many standard errors off what the flight next to it gives is not a stand."
    )
    level_share: Fraction = Field(description="How much stands of one body differ, as a share of its weight.")
    differ_over: Multiple = Field(description="Two stands this many standard errors apart do not weigh the same body.")
    source: Source


class TrustRule(Model):
    """When the heights by impulse and by flight contradict each other, and which is then believed."""

    posture_error: Distance = Field(description="Standard error of a height for landing otherwise than taking off.")
    contradict_over: Multiple = Field(
        description="Impulse and flight contradict each other from this many of their joint errors."
    )
    impulse_error_over: Distance = Field(
        description="A height by impulse with a larger error is not written into an athlete's file."
    )
    bent_landing_up_to: Distance = Field(
        description="Landing with bent legs makes the flight's height read up to this much more."
    )
    push_off_from: Distance = Field(description="A shorter push-off makes the rate of the record doubtful.")
    push_off_to: Distance = Field(description="A longer push-off makes the rate of the record doubtful.")
    source: Source


class PlatformRule(Model):
    """Limits and thresholds of force-platform analysis."""

    airborne_under: Force = Field(description="Force under which the feet are off the platform.")
    noise_multiple: Multiple = Field(
        description="The threshold is at least this many standard deviations of the noise in flight."
    )
    edges: EdgeRule = Field(description="How the instants of zero force are found, between the samples.")
    search: SearchRule = Field(description="How standing, push and flight are found.")
    stand: StandRule = Field(description="Which quiet stretches of a record tell body weight.")
    trust: TrustRule = Field(description="Which height is believed where impulse and flight contradict each other.")
    shortest_flight: ShortTime = Field(description="A shorter gap in the force is not a flight.")
    longest_flight: ShortTime = Field(description="A longer gap is a step off the platform.")
    shortest_contact: ShortTime = Field(description="A shorter contact between two stretches of air is a knock.")
    weighing: ShortTime = Field(description="Usual time of standing still; a shorter one gets a warning.")
    shortest_weighing: ShortTime = Field(description="A shorter time of standing still is refused.")
    noisy_over: Fraction = Field(description="Scatter while standing, as a share of body weight, that gets a warning.")
    refuse_noise_over: Fraction = Field(
        description="Scatter while standing, as a share of body weight, that is refused."
    )
    onset_multiple: Multiple = Field(
        description="The jump has begun when force leaves body weight by this many standard deviations."
    )
    onset_back: ShortTime = Field(description="The onset is this much earlier.")
    propulsion_over_m_s: float = Field(
        ge=0, le=1, description="Upward speed from which the push counts, metres a second."
    )
    longest_movement: ShortTime = Field(description="Longest time from onset to take-off.")
    shortest_movement: ShortTime = Field(description="Shortest time from onset to take-off; standing ends before it.")
    settled_after: ShortTime = Field(description="Nobody stands still sooner than this after landing.")
    longest_rebound_contact: ShortTime = Field(description="A shorter contact between two flights is a rebound.")
    slowest_take_off_m_s: float = Field(
        ge=0,
        le=3,
        description="An impulse that gives a lower take-off speed is not a jump from a stand, metres a second.",
    )
    unit_doubted_under: Force = Field(description="A record whose force stays below this is in another unit.")
    clipped_over: Multiple = Field(description="Above this many body weights the force is checked for a cut-off top.")
    clipped_samples: int = Field(
        ge=2, le=1000, description="This many equal highest samples in a row are a ceiling, not a peak."
    )
    landing_whole: ShortTime = Field(description="Time into the landing in which no sample may be missing.")
    short_weighing_share: Fraction = Field(
        description="A weighing shorter than this share of the usual is judged with the record around it."
    )
    zeroed_share: Fraction = Field(
        description="Share of the samples in the air that are exactly zero where small readings were set to zero."
    )
    zeroed_over: Force = Field(description="And the smallest reading that was kept is above this.")
    least_jumps_for_sides: int = Field(
        ge=2, le=50, description="From this many jumps, their scatter gives the error of a side's share."
    )
    missing_over: Fraction = Field(description="A record that lacks a larger share of its samples is refused.")
    dip_over: Fraction = Field(description="A held-squat jump that unweights by more (share of body weight) had a dip.")
    step_over: Fraction = Field(
        description="Difference between the halves of the weighing (share of body weight) that means stepping or "
        "leaning."
    )
    one_foot_under: Fraction = Field(
        description="A platform that carries a smaller share of the weight has no foot on it."
    )
    one_platform_over: Fraction = Field(
        description="A push on one platform and a landing on the other, each with a larger share, is a jump between "
        "them."
    )
    drift_N_s: float = Field(
        ge=0, le=100, description="Standard uncertainty of the zero line's drift, newtons a second."
    )
    loaded_zero_over: Fraction = Field(
        description="A zero line this far below zero, as a share of body weight, was set with the body on the platform."
    )
    hidden_zero_error: Force = Field(
        description="Standard error of a zero line that was hidden when small readings were set to zero."
    )
    given_mass_error: Load = Field(
        description="Standard error of a body mass that is given, not weighed on the platform."
    )
    mass_differs_over: Fraction = Field(
        description="A larger difference between body mass on the platform and in the athlete's file, as a share, "
        "gets a warning."
    )
    disagree_over: Multiple = Field(
        description="A landing, or standing after it, more standard errors off the rest is not used."
    )
    lowest_rate_Hz: float = Field(ge=1, le=20000, description="Records of a lower rate are refused, hertz.")
    usual_rate_Hz: float = Field(ge=1, le=20000, description="Records of a lower rate get a warning, hertz.")
    source: Source
    limits_source: Text = Field(description="Where the limits come from.")
