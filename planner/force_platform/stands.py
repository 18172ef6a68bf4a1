"""Where the body stands still in a record, and which of these stands tell its weight.

A slow squat is quiet too, while its force is another than body weight. So a stand is held against the flights next to
it: from standing still to take-off, the impulse of all forces is body weight times the time, plus the momentum that
half the flight tells. A stretch whose level does not fit that is not a stand.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from planner.domain.platform_rule import PlatformRule
from planner.force_platform.flights import Air
from planner.force_platform.signal import (
    LEAST_ERROR_N,
    Samples,
    error_of_mean,
    fast_noise,
    first_run,
    integral,
    smoothed,
    width_against,
    window_sd,
)
from planner.units import STANDARD_GRAVITY_m_s2

SHORTER = 1.3  # times: each length that is tried is this much shorter than the one before


@dataclass(frozen=True)
class Stand:
    """A quiet stretch, ``start`` to ``end``.

    ``mean_N`` as read, the zero offset on; ``sd_N``: of its slower part, noise smoothed off; ``leaves``: where force
    leaves its level for good, ``end`` is a little before; ``band_N``: what it has to leave; ``unrest_Ns``: standard
    deviation of the body's momentum in it.
    """

    start: int
    end: int
    leaves: int
    mean_N: float
    sd_N: float
    se_N: float
    unrest_Ns: float
    band_N: float

    @property
    def middle(self) -> float:
        return (self.start + self.end - 1) / 2.0


@dataclass(frozen=True)
class Smooth:
    """A record's force with most of its noise off: each sample the mean of ``width``; ``noise_N`` is what is left."""

    force_N: Samples
    width: int
    noise_N: float


@dataclass(frozen=True)
class Standing:
    """All stands of a record: those ``believed`` for its weight, and the others. ``confirmed``: a flight next to them
    agrees; where none does, the quietest one is believed for want of better."""

    believed: tuple[Stand, ...]
    others: tuple[Stand, ...]
    confirmed: bool
    smooth: Smooth


def standing_of(force_N: Samples, rate_Hz: float, rule: PlatformRule, airs: Sequence[Air]) -> Standing:
    """Every stand of a record, in order."""
    zero_N = float(np.median([air.offset_N for air in airs])) if airs else 0.0
    smooth = _smoothed(force_N, rate_Hz, rule, airs, zero_N)
    found: list[Stand] = []
    borders = [0, *(place for air in airs for place in (air.start, air.end)), len(force_N)]
    contacts = [(a, b) for a, b in zip(borders[::2], borders[1::2], strict=True) if b > a]
    for contact in contacts:
        found += _stands_in(contact, force_N, smooth, rate_Hz, rule, zero_N)
    fits = [(stand, _misfit(stand, force_N, rate_Hz, rule, airs)) for stand in found]
    confirmed = [stand for stand, misfit in fits if misfit is not None and misfit <= rule.stand.misfit_over]
    unknown = [stand for stand, misfit in fits if misfit is None]
    if confirmed:
        anchor = min(confirmed, key=lambda one: one.se_N)
        believed = [one for one in (*confirmed, *unknown) if agrees(one, anchor, rate_Hz, rule)]
    else:
        believed = [min(found, key=lambda one: one.se_N)] if found else []
    believed.sort(key=lambda one: one.start)
    others = [one for one in found if one not in believed]
    return Standing(tuple(believed), tuple(others), bool(confirmed), smooth)


def stand_around(
    seed: tuple[int, int], within: tuple[int, int], force_N: Samples, smooth: Smooth, rate_Hz: float, rule: PlatformRule
) -> Stand:
    """The stand that a quiet window belongs to, as far as force stays at its level; ``within``: no further."""
    start, end = seed
    mean, sd = float(np.mean(force_N[start:end])), float(np.std(smooth.force_N[start:end]))
    band = rule.onset_multiple * max(sd, rule.search.least_scatter * abs(mean))
    sustained = max(2, round(rule.search.away_for * rate_Hz))
    away = np.abs(smooth.force_N - mean) > band
    later, before = first_run(away[end : within[1]], sustained), first_run(away[within[0] : start][::-1], sustained)
    leaves = within[1] if later is None else end + later
    began = within[0] if before is None else start - before
    # A jump begins under the band: the wider noise makes that, the earlier. Smoothing sees it later than it is.
    plain = rule.stand.plain_band * max(abs(mean), 1.0)
    early_s = rule.onset_back * max(1.0, float(np.sqrt(rule.onset_multiple * smooth.noise_N / plain)))
    back = smooth.width // 2 + round(early_s * rate_Hz)
    last = max(start + 2, leaves - back) if leaves < within[1] else leaves
    first = min(start, began + back) if began > within[0] else began
    return measured(Stand(first, last, leaves, mean, sd, 0.0, 0.0, band), force_N, rate_Hz, rule)


def measured(stand: Stand, force_N: Samples, rate_Hz: float, rule: PlatformRule) -> Stand:
    """With mean and errors of its own samples: of sway, and of the momentum that the body may begin and end with."""
    values = force_N[stand.start : stand.end]
    mean = float(np.mean(values))
    unrest = float(np.std(integral(values - mean, rate_Hz)))
    sway = error_of_mean(values, round(rule.search.sway_block * rate_Hz))
    moving = 2.0**0.5 * unrest * rate_Hz / len(values)
    return replace(stand, mean_N=mean, se_N=max(LEAST_ERROR_N, float(np.hypot(sway, moving))), unrest_Ns=unrest)


def _smoothed(force_N: Samples, rate_Hz: float, rule: PlatformRule, airs: Sequence[Air], zero_N: float) -> Smooth:
    """Over enough samples for noise to be small against body weight; at most a piece of sway."""
    on_ground = force_N[force_N - zero_N > rule.airborne_under]
    noise = float(np.median([air.noise_N for air in airs])) if airs else 0.0
    noise = noise or fast_noise(force_N)
    if len(on_ground) < 2:
        return Smooth(force_N, 1, noise)
    weight = float(np.median(on_ground)) - zero_N
    wanted = width_against(noise, rule.stand.noise_share * max(weight, 1.0))
    width = max(1, min(wanted, round(rule.search.sway_block * rate_Hz)))
    return Smooth(smoothed(force_N, width), width, noise / width**0.5)


def _stands_in(
    contact: tuple[int, int], force_N: Samples, smooth: Smooth, rate_Hz: float, rule: PlatformRule, zero_N: float
) -> list[Stand]:
    """Disjoint stands of one contact: the longest quiet windows first, of these the quietest."""
    begin, end = contact
    length, least = round(rule.weighing * rate_Hz), max(4, round(rule.stand.least * rate_Hz))
    free = np.ones(end - begin, dtype=bool)
    found: list[Stand] = []
    while length >= least:
        seed = _quietest(smooth.force_N[begin:end] - zero_N, length, free, rule)
        if seed is None:
            length = int(length / SHORTER)
            continue
        taken = np.flatnonzero(~free)
        within = (
            begin + int(max(taken[taken < seed[0]], default=-1)) + 1,
            begin + int(min(taken[taken >= seed[1]], default=end - begin)),
        )
        seed = (begin + seed[0], begin + seed[1])
        stand = stand_around(seed, within, force_N, smooth, rate_Hz, rule)
        free[min(stand.start, seed[0]) - begin : max(stand.leaves, seed[1]) - begin] = False
        found.append(stand)
    return sorted(found, key=lambda one: one.start)


def _quietest(smooth_N: Samples, length: int, free: np.ndarray, rule: PlatformRule) -> tuple[int, int] | None:
    """Of windows that are free and quiet, the one that is so the most."""
    if length > len(smooth_N):
        return None
    means, sds = window_sd(smooth_N, length)
    used = np.concatenate(([0], np.cumsum(~free)))
    usable = (used[length:] == used[:-length]) & (np.abs(means) > rule.airborne_under)
    shares = np.where(usable, sds / np.maximum(np.abs(means), 1.0), np.inf)
    best = int(np.argmin(shares))
    return (best, best + length) if shares[best] <= rule.noisy_over else None


def _misfit(stand: Stand, force_N: Samples, rate_Hz: float, rule: PlatformRule, airs: Sequence[Air]) -> float | None:
    """How many standard errors its level is off what the flight before or after it tells; None where none is near."""
    misfits = []
    for air in airs:
        if air.open_start or air.open_end:
            continue
        if air.start >= stand.end and not any(stand.end <= one.start < air.start for one in airs):
            part, under_s = force_N[stand.end - 1 : air.start], air.before.under_s
        elif air.end <= stand.start and not any(air.end < one.end <= stand.start for one in airs):
            part, under_s = force_N[air.end : stand.start + 1], air.after.under_s
        else:
            continue
        flight_s = (air.end - air.start) / rate_Hz - air.before.under_s - air.after.under_s
        contact_s = (len(part) - 0.5) / rate_Hz + under_s
        told_N = float(np.sum(part - air.offset_N)) / rate_Hz / (contact_s + flight_s / 2.0)
        level_N = stand.mean_N - air.offset_N
        by_flight_N = told_N * rule.stand.flight_speed_error_m_s / STANDARD_GRAVITY_m_s2 / (contact_s + flight_s / 2.0)
        misfits.append(abs(level_N - told_N) / float(np.hypot(by_flight_N, stand.se_N)))
    return max(misfits, default=None)


def agrees(stand: Stand, anchor: Stand, rate_Hz: float, rule: PlatformRule) -> bool:
    """Whether two stands may weigh the same body, given their errors and the usual drift between them."""
    apart_s = abs(stand.middle - anchor.middle) / rate_Hz
    error = float(np.sqrt(stand.se_N**2 + anchor.se_N**2 + (rule.drift_N_s * apart_s) ** 2))
    level = rule.stand.level_share * abs(anchor.mean_N)
    return abs(stand.mean_N - anchor.mean_N) <= rule.stand.differ_over * float(np.hypot(error, level))
