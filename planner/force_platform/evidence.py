"""What a record holds for the balance: readings of weight and zero line, impulses of push and landing, their errors."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from planner.force_platform.balance import Balance, Impulse, Known, MeanForce, StillAgain, left_over_Ns, solve
from planner.force_platform.flights import Air
from planner.force_platform.jump_case import Case
from planner.force_platform.signal import Samples, integral, runs
from planner.force_platform.weighing import Weighing, weigh_after

HALVED_SHARE = 1.0 / 3.0  # error of a trapezoid sum, of what it changes with every other sample left out


@dataclass(frozen=True)
class Evidence:
    """The solved balance, the impulse of the push that it rests on, and the standing after, where it was used.

    ``disagrees_N``: how much more the standing after reads than the one before, where it is too much to be used;
    ``disagrees_m_s``: the speed that the body would have in it, if the landing's impulse were right.
    """

    balance: Balance
    push: Impulse
    after: Weighing | None
    disagrees_N: float | None = None
    disagrees_m_s: float | None = None

    @property
    def landing_used(self) -> bool:
        return self.after is not None and self.disagrees_m_s is None


def evidence_of(case: Case, weighing: Weighing, *, hidden: bool) -> Evidence:
    """Weigh all there is. ``hidden``: small readings were set to zero, and the zero line with them."""
    force, rate, rule, air = case.force_N, case.rate_Hz, case.rule, case.air
    noise = weighing.sd_N if hidden or not air.noise_N else min(air.noise_N, weighing.sd_N)
    push = impulse_of(force, rate, weighing.onset, air.start, air)
    readings = [*_halves(force, weighing, air, rate), *_zero_lines(case, hidden)]
    alone = Known(
        readings, push, noise * float(np.sqrt(push.seconds / rate)), _unrest_Ns(force, rate, weighing), rule.drift_N_s
    )
    after = _standing_after(case)
    if after is None:
        return Evidence(solve(alone), push, None)
    twice = replace(alone, readings=[*readings, _standing(after, air, rate)])
    again = _still_again(case, weighing, after, noise)
    without = solve(twice)
    left = left_over_Ns(without, push, again)
    if abs(left.value) <= rule.disagree_over * left.se:
        return Evidence(solve(replace(twice, again=again)), push, after)
    differs_N = _too_different_N(case, weighing, after)
    if differs_N is not None:
        apart_s = (after.start + after.end - weighing.start - weighing.end) / (2.0 * rate)
        allowed = max(rule.drift_N_s, abs(differs_N) / apart_s)  # it may be a step, it may be drift
        return Evidence(solve(replace(alone, drift_allowed_N_s=allowed)), push, None, disagrees_N=differs_N)
    return Evidence(without, push, after, disagrees_m_s=left.value * case.options.g / without.weight_N.value)


def _too_different_N(case: Case, before: Weighing, after: Weighing) -> float | None:
    """How much more is read after than before, where that is more than the errors and the usual drift explain."""
    apart_s = (after.start + after.end - before.start - before.end) / (2.0 * case.rate_Hz)
    differs = after.mean_N - before.mean_N
    expected = float(np.sqrt(after.se_N**2 + before.se_N**2 + (case.rule.drift_N_s * apart_s) ** 2))
    return differs if abs(differs) > case.rule.disagree_over * expected else None


def impulse_of(force_N: Samples, rate_Hz: float, start: int, end: int, air: Air) -> Impulse:
    """Of the samples ``start`` to ``end``, as read; at an end that borders on the flight, to zero force beyond it."""
    part = force_N[start:end]
    total = float(integral(part, rate_Hz)[-1])
    if end == air.start:
        total += (air.before.under_s + 0.5 / rate_Hz) * (float(part[-1]) - air.offset_N) / 2.0
    if start == air.end:
        total += (air.after.under_s + 0.5 / rate_Hz) * (float(part[0]) - air.offset_N) / 2.0
    seconds = (len(part) - 1) / rate_Hz
    return Impulse(total, seconds, seconds * ((start + end - 1) / 2.0 - air.middle) / rate_Hz)


def _standing(weighing: Weighing, air: Air, rate_Hz: float) -> MeanForce:
    middle = (weighing.start + weighing.end - 1) / 2.0
    return MeanForce((middle - air.middle) / rate_Hz, weighing.mean_N, weighing.se_N, in_air=False)


def _halves(force_N: Samples, weighing: Weighing, air: Air, rate_Hz: float) -> list[MeanForce]:
    """The standing before as two readings: together its mean, apart what it shows of the drift."""
    cut = (weighing.start + weighing.end) // 2
    if cut - weighing.start < 2:
        return [_standing(weighing, air, rate_Hz)]
    readings = []
    for start, end in ((weighing.start, cut), (cut, weighing.end)):
        time_s = ((start + end - 1) / 2.0 - air.middle) / rate_Hz
        readings.append(MeanForce(time_s, float(np.mean(force_N[start:end])), weighing.se_N * 2.0**0.5, in_air=False))
    return readings


def _zero_lines(case: Case, hidden: bool) -> list[MeanForce]:
    air = case.air
    if hidden:
        return [MeanForce(0.0, air.offset_N, case.rule.hidden_zero_error, in_air=True)]
    return [
        MeanForce((one.middle - air.middle) / case.rate_Hz, one.offset_N, one.offset_se_N, in_air=True)
        for one in (air, *case.others)
    ]


def _unrest_Ns(force_N: Samples, rate_Hz: float, weighing: Weighing) -> float:
    """Standard deviation of the body's momentum while it is weighed: nobody stands without swaying."""
    values = force_N[weighing.start : weighing.end]
    return float(np.std(integral(values - np.mean(values), rate_Hz)))


def _standing_after(case: Case) -> Weighing | None:
    """Quiet standing after the landing, where one contact leads to it, whole and below the platform's ceiling."""
    force, rate, rule, air = case.force_N, case.rate_Hz, case.rule, case.air
    settled = air.end + round(rule.settled_after * rate)
    if settled >= case.next_contact_end:
        return None
    found = weigh_after(force, rate, rule, settled, case.next_contact_end)
    if found is None or found.sd_N > rule.noisy_over * abs(found.mean_N):
        return None
    landing = force[air.end : found.end]
    flat = any(b - a >= rule.clipped_samples for a, b in runs(landing >= np.max(landing)))
    return None if flat or np.any(case.missing[air.end : found.end]) else found


def _still_again(case: Case, weighing: Weighing, after: Weighing, noise_N: float) -> StillAgain:
    force, rate, air = case.force_N, case.rate_Hz, case.air
    landing = impulse_of(force, rate, air.end, after.start + 1, air)
    part = force[air.end : after.start + 1]
    part = part[: len(part) - (len(part) + 1) % 2]  # an odd count can be halved
    halved = float(integral(part[::2], rate / 2.0)[-1] - integral(part, rate)[-1])
    edge = case.air.after.se_s * abs(float(part[0]) - air.offset_N) / 2.0
    errors = (
        noise_N * float(np.sqrt(landing.seconds / rate)), HALVED_SHARE * halved, edge, _unrest_Ns(force, rate, after)
    )  # fmt: skip
    return StillAgain(landing, (after.start - weighing.onset) / rate, float(np.sqrt(sum(one**2 for one in errors))))
