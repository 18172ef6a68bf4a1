"""What a record holds for the balance: readings of weight and zero line, impulses of push and landing, their errors."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from planner.estimate.uncertainty import Estimate
from planner.force_platform.balance import Balance, Impulse, JumpKnown, Known, MeanForce, StillAgain, solve
from planner.force_platform.flights import Air
from planner.force_platform.jump_case import Case
from planner.force_platform.signal import Samples, fast_noise, integral, runs
from planner.force_platform.stands import Stand
from planner.units import STANDARD_GRAVITY_m_s2 as g

HALVED_SHARE = 1.0 / 3.0  # error of a trapezoid sum, of what it changes with every other sample left out (Richardson)


@dataclass(frozen=True)
class Landing:
    """``stand``: the one after it that is used; ``again``: its impulse up to there, if that is.

    ``disagrees_N``: how much more another stand after it reads, which is not used; ``disagrees_m_s``: the speed that
    the body would have in it, if the landing's impulse were right.
    """

    stand: Stand | None = None
    again: StillAgain | None = None
    disagrees_N: float | None = None
    disagrees_m_s: float | None = None


@dataclass(frozen=True)
class Evidence:
    """What the solved balance of the whole record tells of one jump."""

    balance: Balance
    known: Known
    place: int
    landing: Landing

    @property
    def push(self) -> Impulse:
        return self.known.jumps[self.place].push


def evidence_of(
    starts: Sequence[tuple[Case, Stand]], case: Case, airs: Sequence[Air], *, hidden: bool
) -> tuple[Balance, list[Evidence]]:
    """One solution for a record, and what it tells of every jump that a still stand precedes, as in ``starts``.

    ``case``: any jump of the record. ``hidden``: small readings were set to zero, and the zero line with them.
    """
    rate, standing = case.rate_Hz, case.standing
    used = sorted(dict.fromkeys([*standing.believed, *(own for _, own in starts)]), key=lambda one: one.start)
    # A short stand does not see a slow sway: the most restless one tells how this body moves in all of them.
    unrest_Ns = max((one.unrest_Ns for one in used), default=0.0)
    readings = [
        *(reading for stand in used for reading in _halves(case.force_N, stand, rate)),
        *_zero_lines(case, airs, hidden),
    ]
    jumps = [_jump(one, own, unrest_Ns, hidden) for one, own in starts]
    known = _scattered(Known(readings, case.rule.drift_N_s, jumps), len(used))
    alone = solve(known)
    told = [_landing(one, own, alone, jumps[place], place, unrest_Ns) for place, (one, own) in enumerate(starts)]
    known = replace(known, jumps=[replace(jump, again=one.again) for jump, one in zip(jumps, told, strict=True)])
    balance = solve(known)
    return balance, [Evidence(balance, known, place, landing) for place, landing in enumerate(told)]


def impulse_of(force_N: Samples, rate_Hz: float, start: int, end: int, air: Air) -> Impulse:
    """Of the samples ``start`` to ``end``, as read; at an end that borders on the flight, to zero force beyond it."""
    part = force_N[start:end]
    total = float(integral(part, rate_Hz)[-1]) - between_samples_Ns(part, rate_Hz)
    if end == air.start:
        total += (air.before.under_s + 0.5 / rate_Hz) * (float(part[-1]) - air.offset_N) / 2.0
    if start == air.end:
        total += (air.after.under_s + 0.5 / rate_Hz) * (float(part[0]) - air.offset_N) / 2.0
    seconds = (len(part) - 1) / rate_Hz
    return Impulse(total, seconds, seconds * (start + end - 1) / 2.0 / rate_Hz)


def between_samples_Ns(part_N: Samples, rate_Hz: float) -> float:
    """What a trapezoid sum takes too much, by what it changes with every other sample left out."""
    odd = part_N[: len(part_N) - (len(part_N) + 1) % 2]  # an odd count can be halved
    return HALVED_SHARE * float(integral(odd[::2], rate_Hz / 2.0)[-1] - integral(odd, rate_Hz)[-1])


def _jump(case: Case, own: Stand, unrest_Ns: float, hidden: bool) -> JumpKnown:
    """``start_Ns``: the body's unrest, and the most that a movement under the onset's band may hide."""
    rate, air = case.rate_Hz, case.air
    push = impulse_of(case.force_N, rate, own.end, air.start, air)
    unseen_Ns = own.band_N * case.rule.onset_back / 3.0
    noise_N = _noise(case, own, hidden)
    return JumpKnown(push, noise_N * float(np.sqrt(push.seconds / rate)), float(np.hypot(unrest_Ns, unseen_Ns)))


def _noise(case: Case, own: Stand, hidden: bool) -> float:
    """Of a sample: what the flight shows or, from more samples, what changes between two of them in the stand."""
    still_N = case.force_N[own.start : own.end]
    sd = float(np.std(still_N))
    return sd if hidden or not case.air.noise_N else min(max(case.air.noise_N, fast_noise(still_N)), sd)


def _scattered(known: Known, stands: int) -> Known:
    """Stands that scatter more than their errors say have larger ones: by the root of the mean square misfit."""
    if stands < 2:
        return known
    balance = solve(known)
    weight, standing = balance.weight_N.value, [one for one in known.readings if not one.in_air]
    misfits = [(one.mean_N - balance.zero_N(one.time_s).value - weight) / one.se_N for one in standing]
    ratio = float(np.sqrt(sum(one**2 for one in misfits) / (len(misfits) - 1)))
    if ratio <= 1.0:
        return known
    return replace(
        known, readings=[one if one.in_air else replace(one, se_N=ratio * one.se_N) for one in known.readings]
    )


def _halves(force_N: Samples, stand: Stand, rate_Hz: float) -> list[MeanForce]:
    """A stand as two readings: together its mean, apart what it shows of the drift."""
    cut = (stand.start + stand.end) // 2
    if cut - stand.start < 2:
        return [MeanForce(stand.middle / rate_Hz, stand.mean_N, stand.se_N, in_air=False)]
    return [
        MeanForce((a + b - 1) / 2.0 / rate_Hz, float(np.mean(force_N[a:b])), stand.se_N * 2.0**0.5, in_air=False)
        for a, b in ((stand.start, cut), (cut, stand.end))
    ]


def _zero_lines(case: Case, airs: Sequence[Air], hidden: bool) -> list[MeanForce]:
    if hidden:
        error_N = case.rule.hidden_zero_error
        return [MeanForce(case.air.middle / case.rate_Hz, case.air.offset_N, error_N, in_air=True)]
    return [MeanForce(one.middle / case.rate_Hz, one.offset_N, one.offset_se_N, in_air=True) for one in airs]


def _landing(case: Case, own: Stand, alone: Balance, jump: JumpKnown, place: int, unrest_Ns: float) -> Landing:
    settled = case.air.end + round(case.rule.settled_after * case.rate_Hz)
    standing = case.standing
    here = [one for one in standing.believed if case.air.end < one.start and one.end <= case.next_contact_end]
    if not here:
        long_enough = round(case.rule.weighing * case.rate_Hz / 2.0)
        other = next(
            (one for one in standing.others if settled <= one.start and one.end <= case.next_contact_end), None
        )
        if other is None or other.end - other.start < long_enough:
            return Landing()
        return Landing(disagrees_N=other.mean_N - own.mean_N)
    after = here[0]
    landing = case.force_N[case.air.end : after.end]
    flat = any(b - a >= case.rule.clipped_samples for a, b in runs(landing >= np.max(landing)))
    if flat or np.any(case.missing[case.air.end : after.end]):
        return Landing(after)
    again = _still_again(case, own, after, unrest_Ns)
    left: Estimate = alone.left_over_Ns(jump.push, place, again)
    if abs(left.value) <= case.rule.disagree_over * left.se:
        return Landing(after, again)
    return Landing(after, disagrees_m_s=left.value * g / alone.weight_N.value)


def _still_again(case: Case, own: Stand, after: Stand, unrest_Ns: float) -> StillAgain:
    force, rate, air = case.force_N, case.rate_Hz, case.air
    landing = impulse_of(force, rate, air.end, after.start + 1, air)
    part = force[air.end : after.start + 1]
    edge = air.after.se_s * abs(float(part[0]) - air.offset_N) / 2.0
    noise_N = _noise(case, own, False)
    errors = (
        noise_N * float(np.sqrt(landing.seconds / rate)), between_samples_Ns(part, rate), edge, unrest_Ns,
        after.band_N * case.rule.onset_back / 3.0,
    )  # fmt: skip
    return StillAgain(landing, (after.start - own.end) / rate, float(np.sqrt(sum(one**2 for one in errors))))
