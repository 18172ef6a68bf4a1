"""Body weight from quiet standing just before the jump, how good that weighing is, and where the jump begins."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from planner.domain.platform_rule import PlatformRule
from planner.force_platform.signal import Samples, error_of_mean, runs, window_sd


@dataclass(frozen=True)
class Weighing:
    """``start``..``end``: the samples weighed; ``mean_N`` as read, offset included; ``onset``: the jump begins.

    ``restless_share``: standard deviation, as a share of body weight, over all of the usual length before the onset; a
    short quiet moment in it may be no more than the turn of a sway.
    """

    start: int
    end: int
    mean_N: float
    sd_N: float
    se_N: float
    onset: int
    seconds: float
    step_share: float
    restless_share: float = 0.0
    stepped_N: float | None = None  # what an earlier, longer stand read more than this one: a step lies between


def weigh_before(force_N: Samples, rate_Hz: float, rule: PlatformRule, begin: int, take_off: int) -> Weighing | None:
    """Weigh in ``begin``..``take_off``; None where not even the shortest quiet window fits."""
    seed = _quiet_window(force_N, rate_Hz, rule, begin, take_off)
    if seed is None:
        return None
    found = _weigh_around(seed, force_N, rate_Hz, rule, begin, take_off)
    later = _stand_at_another_level(found, force_N, rate_Hz, rule, take_off)
    if later is None:
        return found
    again = _weigh_around(later, force_N, rate_Hz, rule, found.onset, take_off)
    return replace(again, stepped_N=found.mean_N - again.mean_N)


def _weigh_around(
    seed: tuple[int, int], force_N: Samples, rate_Hz: float, rule: PlatformRule, begin: int, take_off: int
) -> Weighing:
    """The onset after a quiet window, and the weighing of the usual length before it, as far as it is quiet."""
    start, end = seed
    mean, sd = float(np.mean(force_N[start:end])), float(np.std(force_N[start:end]))
    band = rule.onset_multiple * max(sd, rule.search.least_scatter * mean)
    away = _first_away(np.abs(force_N[end:take_off] - mean) > band, max(2, round(rule.search.away_for * rate_Hz)))
    leaves = end + away if away is not None else end
    onset = max(start + 2, leaves - round(rule.onset_back * rate_Hz))
    quiet_from = start
    while quiet_from > begin and abs(force_N[quiet_from - 1] - mean) <= band:
        quiet_from -= 1
    usual_start = max(begin, onset - round(rule.weighing * rate_Hz))
    found = weighed(force_N, rate_Hz, rule, max(quiet_from, usual_start), onset, onset)
    restless = float(np.std(force_N[usual_start:onset])) / max(abs(mean), 1.0)
    return replace(found, restless_share=restless)


def _stand_at_another_level(
    found: Weighing, force_N: Samples, rate_Hz: float, rule: PlatformRule, take_off: int
) -> tuple[int, int] | None:
    """A stand between the onset and the jump whose weight is another: what looked like the onset was a step."""
    length = round(rule.search.other_stand * rate_Hz)
    last = take_off - round(rule.shortest_movement * rate_Hz)
    if last - found.onset < length:
        return None
    means, sds = window_sd(force_N[found.onset : last], length)
    ratio = means / found.mean_N
    stands = (sds <= rule.noisy_over * np.abs(means)) & (np.abs(ratio - 1.0) < rule.search.other_within)
    other = stands & (np.abs(ratio - 1.0) > rule.step_over)
    if not np.any(other):
        return None
    latest = int(np.flatnonzero(other & (sds <= rule.search.quiet_tolerance * np.min(sds[other])))[-1])
    return found.onset + latest, found.onset + latest + length


def weigh_after(force_N: Samples, rate_Hz: float, rule: PlatformRule, begin: int, end: int) -> Weighing | None:
    """The quietest stretch of the usual length between two samples, for jumps that no standing precedes."""
    length = round(rule.weighing * rate_Hz)
    if end - begin < length:
        return None
    _, sds = window_sd(force_N[begin:end], length)
    start = begin + int(np.argmin(sds))
    return weighed(force_N, rate_Hz, rule, start, start + length, start + length)


def weighed(force_N: Samples, rate_Hz: float, rule: PlatformRule, start: int, end: int, onset: int) -> Weighing:
    """The figures of one weighing window."""
    values = force_N[start:end]
    half = len(values) // 2
    mean = float(np.mean(values))
    step = abs(float(np.mean(values[half:]) - np.mean(values[:half]))) / mean if half and mean else 0.0
    se = error_of_mean(values, round(rule.search.sway_block * rate_Hz))
    return Weighing(start, end, mean, float(np.std(values)), se, onset, len(values) / rate_Hz, step)


def _quiet_window(
    force_N: Samples, rate_Hz: float, rule: PlatformRule, begin: int, take_off: int
) -> tuple[int, int] | None:
    """The longest window that is quiet, of these the latest; where none is quiet, the quietest of the shortest."""
    last = take_off - round(rule.shortest_movement * rate_Hz)
    least = max(4, round(rule.shortest_weighing * rate_Hz))
    length = min(round(rule.weighing * rate_Hz), last - begin)
    earliest_end = take_off - round(rule.longest_movement * rate_Hz)
    quietest: tuple[int, int] | None = None
    while length >= least:
        first = max(begin, earliest_end - length)
        means, sds = window_sd(force_N[first:last], length)
        shares = sds / np.maximum(np.abs(means), 1.0)
        best = int(np.argmin(shares))
        quietest = (first + best, first + best + length)
        if shares[best] <= rule.noisy_over:
            good = np.flatnonzero(shares <= rule.search.quiet_tolerance * shares[best])
            latest = int(good[-1])
            return first + latest, first + latest + length
        length = int(length / 1.3)
    return quietest


def _first_away(away: np.ndarray, sustained: int) -> int | None:
    return next((a for a, b in runs(away) if b - a >= sustained), None)
