"""Where the body is in the air: flights found in spite of noise, each with the zero line and noise seen in it.

A single threshold is split by noise. So the air is first found on a smoothed record, the zero line and the noise are
read in the middle of it, and take-off and landing are where force stays over the threshold, not where it touches it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from planner.domain.platform_rule import PlatformRule
from planner.estimate.platform.signal import Samples, robust_sd, runs, smoothed

SMOOTH_s = 0.010
SUSTAINED_s = 0.003  # force is back on the ground when it stays over the threshold this long, and two samples
EDGE_FIT_s = 0.005  # the last of the push and the first of the landing, through which a line is drawn to zero
LONGEST_TAIL_s = 0.012  # a line that reaches zero later than this is not believed further
COARSE_SHARE = 0.12  # of the usual standing force: under it the smoothed record may be air


@dataclass(frozen=True)
class Air:
    """A stretch without contact. ``start``: first sample under the threshold; ``end``: first one back over it.

    ``tail_before_s``, ``tail_after_s``: time that the true force spends under the threshold at either end, by the line
    through the force next to it. ``open_start``, ``open_end``: the record begins or ends in it.
    """

    start: int
    end: int
    offset_N: float
    noise_N: float
    threshold_N: float
    tail_before_s: float
    tail_after_s: float
    open_start: bool
    open_end: bool


def stretches_of_air(force_N: Samples, rate_Hz: float, rule: PlatformRule) -> list[Air]:
    """Every stretch without contact, in order."""
    smooth = smoothed(force_N, max(1, round(SMOOTH_s * rate_Hz)))
    high = float(np.percentile(smooth, 95))
    low = float(np.min(smooth))
    standing = smooth[smooth > low + 0.3 * (high - low)]
    usual = float(np.median(standing)) - low if len(standing) else 0.0
    if usual <= 2.0 * rule.airborne_under:
        return []
    coarse = runs(smooth - low < max(COARSE_SHARE * usual, rule.airborne_under))
    least = max(3, round(0.5 * rule.shortest_flight * rate_Hz))
    found = [_air(force_N, rate_Hz, rule, a, b) for a, b in coarse if b - a >= least]
    return _merged(found)


def _air(force_N: Samples, rate_Hz: float, rule: PlatformRule, a: int, b: int) -> Air:
    margin = (b - a) // 5
    core = force_N[a + margin : b - margin]
    offset, noise = float(np.median(core)), robust_sd(core)
    threshold = max(rule.airborne_under, rule.noise_multiple * noise)
    over = force_N - offset >= threshold
    sustained = max(2, round(SUSTAINED_s * rate_Hz))
    middle = (a + b) // 2
    start, end = _back(over, middle, sustained), _on(over, middle, sustained)
    open_start, open_end = start is None, end is None
    first, last = start or 0, len(force_N) if end is None else end
    count = max(3, round(EDGE_FIT_s * rate_Hz))
    before = 0.0 if open_start else _tail_s(force_N[max(0, first - count) : first] - offset, rate_Hz, backwards=False)
    after = 0.0 if open_end else _tail_s(force_N[last : last + count] - offset, rate_Hz, backwards=True)
    return Air(first, last, offset, noise, threshold, before, after, open_start, open_end)


def _back(over: np.ndarray, middle: int, sustained: int) -> int | None:
    """First sample after the last sustained contact before ``middle``."""
    for a, b in reversed(runs(over[:middle])):
        if b - a >= sustained:
            return b
    return None


def _on(over: np.ndarray, middle: int, sustained: int) -> int | None:
    for a, b in runs(over[middle:]):
        if b - a >= sustained:
            return middle + a
    return None


def _tail_s(edge_N: Samples, rate_Hz: float, *, backwards: bool) -> float:
    """Seconds from the threshold's crossing to zero force, along the line through the contact's edge.

    The crossing lies, on average, half a sample from the first sample on its far side; that is where time is counted
    from. The edge ends at its highest sample, so that what lies beyond an impact peak is left out.
    """
    values = edge_N if not backwards else edge_N[::-1]
    if len(values) < 2:
        return 0.0
    part = values[min(int(np.argmax(values)), len(values) - 2) :]
    slope = float(np.polyfit(np.arange(len(part)), part, 1)[0]) * rate_Hz
    if slope >= 0:
        return LONGEST_TAIL_s / 2
    to_zero_s = max(0.0, float(part[-1])) / -slope
    return float(np.clip(to_zero_s - 0.5 / rate_Hz, -0.5 / rate_Hz, LONGEST_TAIL_s))


def _merged(found: list[Air]) -> list[Air]:
    """Two coarse stretches that refine to the same one are one."""
    kept: list[Air] = []
    for air in found:
        if kept and air.start <= kept[-1].end and air.start == kept[-1].start:
            continue
        kept.append(air)
    return kept
