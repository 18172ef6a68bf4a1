"""The stand that a jump begins from, and how good a weighing it is."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from planner.domain.platform_rule import PlatformRule
from planner.force_platform.jump_case import Case
from planner.force_platform.signal import Samples, error_of_mean, window_sd
from planner.force_platform.stands import SHORTER, Stand, agrees, stand_around


@dataclass(frozen=True)
class Weighing:
    """``start``..``end``: the samples weighed; ``mean_N`` as read, offset included; ``onset``: the jump begins.

    ``slow_sd_N``: standard deviation with noise smoothed off. ``restless_share``: the same, as a share of body weight,
    over all of the usual length before the onset; a short quiet moment in it may be no more than the turn of a sway.
    """

    start: int
    end: int
    mean_N: float
    sd_N: float
    slow_sd_N: float
    se_N: float
    onset: int
    seconds: float
    step_share: float
    restless_share: float = 0.0
    stepped_N: float | None = None  # how much more an earlier stand read: there was a step between


def own_stand(case: Case) -> Stand | None:
    """The latest stand before the jump that tells body weight, or the quietest window where it weighs the same.

    None where nothing of the kind lies within the longest movement before take-off: then the speed with which the push
    began is not known, and the impulse tells no height.
    """
    rate, rule, standing, take_off = case.rate_Hz, case.rule, case.standing, case.air.start
    last = take_off - round(rule.shortest_movement * rate)
    earliest = max(case.contact_start, take_off - round(rule.longest_movement * rate))
    here = [one for one in standing.believed if case.contact_start <= one.start and earliest <= one.end <= last]
    if here:
        return here[-1]
    window = quietest_before(case)
    if window is None or not standing.confirmed:
        return window
    return window if all(agrees(window, one, rate, rule) for one in standing.believed) else None


def quietest_before(case: Case) -> Stand | None:
    """The quietest window before the jump, whatever it weighs; None where not even the shortest fits."""
    rate, rule, smooth = case.rate_Hz, case.rule, case.standing.smooth
    seed = _quiet_window(smooth.force_N, rate, rule, case.contact_start, case.air.start)
    if seed is None:
        return None
    last = max(seed[1], case.air.start - round(rule.shortest_movement * rate))
    return stand_around(seed, (case.contact_start, last), case.force_N, smooth, rate, rule)


def weighing_before(stand: Stand, case: Case, force_N: Samples) -> Weighing:
    """The usual length before the onset, as far as the stand goes back; ``force_N`` with the drift off."""
    rate, rule, smooth = case.rate_Hz, case.rule, case.standing.smooth.force_N
    usual = max(case.contact_start, stand.end - round(rule.weighing * rate))
    start = max(stand.start, usual)
    restless = float(np.std(smooth[usual : stand.end])) / max(abs(stand.mean_N), 1.0)
    earlier = [one for one in case.standing.others if case.contact_start <= one.start and one.end <= stand.start]
    found = _weighed(force_N, smooth, rate, rule, start, stand.end)
    stepped = earlier[-1].mean_N - found.mean_N if earlier else None
    if stepped is not None and abs(stepped) <= rule.step_over * abs(found.mean_N):
        stepped = None
    return Weighing(**{**vars(found), "restless_share": restless, "stepped_N": stepped})


def weigh_after(force_N: Samples, rate_Hz: float, rule: PlatformRule, begin: int, end: int) -> Weighing | None:
    """The quietest stretch of the usual length between two samples, for jumps that no standing precedes."""
    length = round(rule.weighing * rate_Hz)
    if end - begin < length:
        return None
    _, sds = window_sd(force_N[begin:end], length)
    start = begin + int(np.argmin(sds))
    return _weighed(force_N, force_N, rate_Hz, rule, start, start + length)


def _weighed(force_N: Samples, smooth_N: Samples, rate_Hz: float, rule: PlatformRule, start: int, end: int) -> Weighing:
    values = force_N[start:end]
    half = len(values) // 2
    mean = float(np.mean(values))
    step = abs(float(np.mean(values[half:]) - np.mean(values[:half]))) / abs(mean) if half and mean else 0.0
    se = error_of_mean(values, round(rule.search.sway_block * rate_Hz))
    slow = float(np.std(smooth_N[start:end]))
    return Weighing(start, end, mean, float(np.std(values)), slow, se, end, len(values) / rate_Hz, step)


def _quiet_window(
    smooth_N: Samples, rate_Hz: float, rule: PlatformRule, begin: int, take_off: int
) -> tuple[int, int] | None:
    """The longest window that is quiet, of these the latest; where none is quiet, the quietest of the shortest."""
    last = take_off - round(rule.shortest_movement * rate_Hz)
    least = max(4, round(rule.shortest_weighing * rate_Hz))
    length = min(round(rule.weighing * rate_Hz), last - begin)
    earliest_end = take_off - round(rule.longest_movement * rate_Hz)
    quietest: tuple[int, int] | None = None
    while length >= least:
        first = max(begin, earliest_end - length)
        means, sds = window_sd(smooth_N[first:last], length)
        shares = sds / np.maximum(np.abs(means), 1.0)
        best = int(np.argmin(shares))
        quietest = (first + best, first + best + length)
        if shares[best] <= rule.noisy_over:
            good = np.flatnonzero(shares <= rule.search.quiet_tolerance * shares[best])
            latest = int(good[-1])
            return first + latest, first + latest + length
        length = int(length / SHORTER)
    return quietest
