"""The instant at which force becomes or ceases to be zero: between the samples, from the curve on either side of it.

A threshold says when force passed the threshold, by whole samples. The body left or touched the ground while the true
force was still under it. So force next to the flight is taken as zero up to an instant, and from there as a line that
may bend a little; every instant in reach is weighed by how well that fits the samples, those under the threshold
included. The mean of these weights is the instant, their scatter its error.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from planner.domain.platform_rule import EdgeRule
from planner.force_platform.signal import Samples

LEAST_FITTED = 2  # samples of the contact, at low rates: a third is too far up for a line
HIDDEN_TIMES = 2  # times as much of the contact is fitted where nothing under the threshold is seen
SHARE_AT_Hz = 100.0  # the rate for which the share of a sample is given
STEPS_A_SAMPLE = 20  # of the search; a step is far under any error
FITTED = 2  # figures: the instant and the slope


@dataclass(frozen=True)
class Edge:
    """``under_s``: time from zero force to the threshold's crossing, which is taken half a sample before the first
    sample over it; negative where noise put it too far out. ``se_s``: standard error of the instant of zero force.
    """

    under_s: float
    se_s: float


def edge_of(
    outwards_N: Samples, crossing: int, *, threshold_N: float, noise_N: float, rate_Hz: float, rule: EdgeRule
) -> Edge:
    """The instant of zero force on a stretch that runs from the flight outwards to the contact, zero offset off.

    ``crossing``: the first sample over the threshold. Where small readings were set to zero before, those under the
    threshold say nothing, and only the contact is fitted.
    """
    reach = round(rule.longest_under * rate_Hz) + 1
    hidden = noise_N == 0.0 and not np.any(outwards_N[max(0, crossing - reach) : crossing])
    stretches = HIDDEN_TIMES if hidden else 1
    contact = outwards_N[crossing : crossing + max(LEAST_FITTED + hidden, round(stretches * rule.fit * rate_Hz))]
    if len(contact) < 2:
        return Edge(0.0, rule.longest_under)
    contact = contact[: max(2, int(np.argmax(contact)) + 1)]  # nothing after an impact peak
    first = crossing if hidden else max(0, crossing - 2 * reach)
    values = np.asarray(np.concatenate([outwards_N[first:crossing], contact]), dtype=np.float64)
    times_s = (np.arange(first, crossing + len(contact)) - (crossing - 0.5)) / rate_Hz
    step_s = 1.0 / (STEPS_A_SAMPLE * rate_Hz)
    latest_s = 0.5 / rate_Hz  # force is over the threshold there
    instants_s = np.arange(-max(rule.longest_under, 1.0 / rate_Hz), latest_s, step_s)
    since = np.clip(times_s[None, :] - instants_s[:, None], 0.0, None)
    scatter_N, bend_per_s = max(noise_N, rule.least_noise), rule.bend_per_s / stretches
    misfit, slopes_N_s = _misfit(values, since, scatter_N, bend_per_s)
    beyond_noise = float(np.min(misfit)) / max(1, len(values) - FITTED)
    if beyond_noise > rule.rougher:  # than the flight: then its own roughness is the noise
        scatter_N *= beyond_noise**0.5
        misfit, slopes_N_s = _misfit(values, since, scatter_N, bend_per_s)
    likely = np.exp(-(misfit - np.min(misfit)) / 2.0)
    weights = likely / np.sum(likely)
    mean_s = float(np.sum(weights * instants_s))
    scatter_s = float(np.sqrt(np.sum(weights * (instants_s - mean_s) ** 2)))
    seen_from_N = max(threshold_N, float(contact[0])) if hidden else threshold_N
    under_s = min(rule.longest_under, seen_from_N / float(np.sum(weights * slopes_N_s)))
    # What the curve does between two samples is a share of their interval; a shorter one is straighter, if it is seen.
    coarse_s = rule.sample_share / rate_Hz * (stretches if hidden else min(1.0, (SHARE_AT_Hz / rate_Hz) ** 0.5))
    unseen_s = (rule.hidden_share if hidden else rule.unseen_share) * under_s
    parts = (scatter_s, step_s / 12.0**0.5, unseen_s, coarse_s)
    return Edge(-mean_s, float(np.sqrt(sum(part**2 for part in parts))))


def _misfit(values_N: Samples, since_s: Samples, scatter_N: float, bend_per_s: float) -> tuple[Samples, Samples]:
    """Of slope (u + bend u^2), u the time since the instant: sum of squares in units of the scatter, and the slope.

    One row of ``since_s`` is one instant. The bend is drawn to none, with the standard deviation ``bend_per_s``.
    """
    squared = since_s * since_s
    squares, cubes = np.sum(squared, axis=1), np.einsum("ij,ij->i", since_s, squared)
    fourths = np.einsum("ij,ij->i", squared, squared)
    by_line, by_square = since_s @ values_N, squared @ values_N
    first_slope = np.maximum(by_line / squares, 1.0)
    drawn = fourths + (scatter_N / (bend_per_s * first_slope)) ** 2
    determinant = squares * drawn - cubes**2
    slope = (by_line * drawn - by_square * cubes) / determinant
    bent = (by_square * squares - by_line * cubes) / determinant
    misfit = (np.sum(values_N**2) - slope * by_line - bent * by_square) / scatter_N**2
    return misfit + np.where(slope <= 0.0, 1e6, 0.0), np.maximum(slope, 1.0)
