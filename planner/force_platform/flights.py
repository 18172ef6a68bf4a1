"""Where the body is in the air: flights found in spite of noise, each with the zero line and noise seen in it.

A single threshold is split by noise. So the air is first found on a smoothed record, the zero line and the noise are
read in the middle of it, and take-off and landing are where force stays over the threshold, not where it touches it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from planner.domain.platform_rule import PlatformRule
from planner.force_platform.edges import Edge, edge_of
from planner.force_platform.signal import Samples, fast_noise, first_run, robust_sd, runs, smoothed, width_against

FEW = 100  # samples
NOISE_IN_COARSE = 6  # standard deviations of what is left of the noise, under the level that air is looked for by


@dataclass(frozen=True)
class Air:
    """A stretch without contact. ``start``: first sample under the threshold; ``end``: first one back over it.

    ``before``, ``after``: the instants of zero force at its ends. ``offset_se_N``: the zero line's standard error by
    noise. ``open_start``, ``open_end``: the record begins or ends in it.
    """

    start: int
    end: int
    offset_N: float
    offset_se_N: float
    noise_N: float
    threshold_N: float
    before: Edge
    after: Edge
    open_start: bool
    open_end: bool

    @property
    def middle(self) -> float:
        """In samples from the record's start; where its zero line is read."""
        return (self.start + self.end - 1) / 2.0


def stretches_of_air(force_N: Samples, rate_Hz: float, rule: PlatformRule) -> list[Air]:
    """Every stretch without contact, in order."""
    least = max(3, round(0.5 * rule.shortest_flight * rate_Hz))
    high = float(np.percentile(force_N, 95))
    low = float(np.min(smoothed(force_N, least)))
    # Noise may not break a flight: it is smoothed until what is left is small against the force looked for.
    wanted = width_against(fast_noise(force_N), rule.search.coarse_share * (high - low) / NOISE_IN_COARSE)
    smooth = smoothed(force_N, max(1, round(rule.search.smooth * rate_Hz), min(wanted, least)))
    standing = smooth[smooth > low + rule.search.standing_from * (high - low)]
    usual = float(np.median(standing)) - low if len(standing) else 0.0
    if usual <= 2.0 * rule.airborne_under:
        return []
    coarse = runs(smooth - low < max(rule.search.coarse_share * usual, rule.airborne_under))
    found = [_air(force_N, rate_Hz, rule, a, b) for a, b in coarse if b - a >= least]
    return _merged(found)


def _air(force_N: Samples, rate_Hz: float, rule: PlatformRule, a: int, b: int) -> Air:
    margin = (b - a) // 5
    core = force_N[a + margin : b - margin]
    offset = float(np.median(core))
    noise = robust_sd(core)
    if len(core) < FEW:  # half of few samples tell noise badly: all but strays do
        noise = float(np.std(core[np.abs(core - offset) <= rule.search.stray_multiple * noise]))
    threshold = max(rule.airborne_under, rule.noise_multiple * noise)
    over = force_N - offset >= threshold
    sustained = max(2, round(rule.search.back_for * rate_Hz))
    middle = (a + b) // 2
    back, on = first_run(over[:middle][::-1], sustained), first_run(over[middle:], sustained)
    first, last = 0 if back is None else middle - back, len(force_N) if on is None else middle + on
    edge_samples, stray_N = round(rule.edges.longest_under * rate_Hz), rule.search.stray_multiple * noise
    offset, offset_se = _zero_line(force_N[first:last], edge_samples, offset, noise, stray_N)

    def edge(outwards: Samples, crossing: int) -> Edge:
        return edge_of(
            outwards - offset, crossing, threshold_N=threshold, noise_N=noise, rate_Hz=rate_Hz, rule=rule.edges
        )

    before = Edge(0.0, 0.0) if back is None else edge(force_N[: middle + 1][::-1], middle - first + 1)
    after = Edge(0.0, 0.0) if on is None else edge(force_N[middle:], last - middle)
    return Air(first, last, offset, offset_se, noise, threshold, before, after, back is None, on is None)


def _zero_line(air_N: Samples, edge: int, middle_N: float, noise_N: float, stray_N: float) -> tuple[float, float]:
    """Mean of the readings in the air and its standard error: ends left out, strays too."""
    core = air_N[edge:-edge] if 0 < edge < len(air_N) // 4 else air_N
    kept = core[np.abs(core - middle_N) <= stray_N] if noise_N > 0 else core
    if len(kept) < 2:
        return middle_N, noise_N
    return float(np.mean(kept)), float(np.std(kept, ddof=1)) / float(np.sqrt(len(kept)))


def _merged(found: list[Air]) -> list[Air]:
    """Of coarse stretches that refine to the same one, or overlap, the longest."""
    kept: list[Air] = []
    for air in found:
        if not kept or air.start >= kept[-1].end:
            kept.append(air)
        elif air.end - air.start > kept[-1].end - kept[-1].start:
            kept[-1] = air
    return kept
