"""A countermovement or squat jump on a platform, from quiet standing to landing."""

from __future__ import annotations

import numpy as np

from planner.domain.platform_rule import PlatformRule
from planner.estimate.flight_rise import rise_by_flight
from planner.estimate.notebook import Notebook
from planner.estimate.uncertainty import Estimate
from planner.force_platform import height_doubts, record_faults
from planner.force_platform.balance import Balance
from planner.force_platform.evidence import Evidence, Landing
from planner.force_platform.flight_and_sides import drawn, flight_of, side_loads
from planner.force_platform.flights import Air
from planner.force_platform.jump_case import Case
from planner.force_platform.jump_phases import PhaseMaker, push_start, standing_phases
from planner.force_platform.platform_jump import Dependence, PlatformJump, WeighingQuality
from planner.force_platform.push_motion import Motion, motion_before, motion_from_flight, rise_with
from planner.force_platform.signal import Samples, window_sd
from planner.force_platform.stands import Stand
from planner.force_platform.verdict import HeightVerdict, ImpulseBasis, verdict_of
from planner.force_platform.weighing import Weighing, quietest_before, weighing_before
from planner.units import STANDARD_GRAVITY_m_s2 as g

WEIGHT_STEP_N = 1.0


def standing_jump(
    case: Case, own: Stand | None, evidence: Evidence | None, balance: Balance, notes: Notebook
) -> PlatformJump | None:
    """One jump from a stand; None with errors in ``notes`` where it cannot be trusted.

    ``own``: the stand before it, ``evidence``: what the balance says of the jump; both None without such a stand.
    """
    rule, rate, air = case.rule, case.rate_Hz, case.air
    weight = balance.weight_N
    weighing = weighing_before(own, case, _drift_off(case, balance)) if own else None
    first = weighing.onset if weighing else _first_seen(case)
    record_faults.clipping(case, weight.value, (first, air.start), notes)
    record_faults.missing_samples(case.missing, rate, weighing.start if weighing else first, case.just_landed, notes)
    record_faults.body_weight(weight.value, notes)
    if weighing is not None:
        record_faults.weighing_quality(weighing, rate, rule, notes)
    elif (window := quietest_before(case)) is not None:
        record_faults.no_stand(weighing_before(window, case, case.force_N), rule, notes)
    if notes.has_errors:
        return None
    flight, _, _ = flight_of(air, rate)
    force = _drift_off(case, balance) - balance.zero_N(air.middle / rate).value
    motion, basis = None, None
    if weighing is not None and evidence is not None and own is not None:
        record_faults.own_weight(own.mean_N - balance.zero_N(own.middle / rate).value, own.se_N, weight, rule, notes)
        record_faults.standing_disagrees(evidence.landing.disagrees_N, evidence.landing.disagrees_m_s, notes)
        motion = motion_before(force, rate, first, air, evidence)
        if motion.take_off_m_s.value < rule.slowest_take_off_m_s:
            record_faults.no_impulse(motion.take_off_m_s.value, notes)
            return None
        basis = ImpulseBasis(motion.rise_m, _weighs_well(weighing, own, rule), evidence.landing.again is not None)
    verdict = verdict_of(rise_by_flight(flight), basis, rule)
    verdict = height_doubts.doubt_body_mass(verdict, weight, case.options.body_mass_kg, rule, notes)
    used = motion if motion is not None and verdict.impulse else None
    used = used or motion_from_flight(force, rate, first, air, weight, flight)
    verdict = height_doubts.doubt_push_off(verdict, _push_off_m(used, air, rate), case.record, rule, notes)
    height_doubts.note_believed(verdict, notes)
    if weighing is not None:
        _note_dip(case, weighing, weight.value, notes)
    return _figures(case, force, weighing, first, evidence, balance, motion, used, verdict, notes)


def _figures(
    case: Case,
    force: Samples,
    weighing: Weighing | None,
    first: int,
    evidence: Evidence | None,
    balance: Balance,
    by_impulse: Motion | None,
    motion: Motion,
    verdict: HeightVerdict,
    notes: Notebook,
) -> PlatformJump:
    """All figures of a jump; ``force`` with zero offset and drift off, ``motion``: by the height that is believed."""
    air, rate, kind = case.air, case.rate_Hz, case.kind
    flight, crossing, under = flight_of(air, rate)
    push = first if kind == "squat" else push_start(motion, first, case.rule)[1]
    weight, zero = balance.weight_N, balance.zero_N(air.middle / rate).value
    maker = PhaseMaker(force, rate, weight.value)
    phases = standing_phases(maker, case, weighing, first, motion)
    pushed = force[push : air.start]
    power = pushed * motion.speed_m_s[push - first :]
    take_off_s = (air.start - 0.5) / rate + air.before.under_s
    lasting = take_off_s - weighing.onset / rate if weighing else None
    lowest = float(np.min(motion.height_m))
    landing_end = round(phases[-1].end_s * rate)
    trace_start, trace = drawn(force, rate, weighing.start if weighing else first, landing_end)
    landing = evidence.landing if evidence else Landing()
    return PlatformJump(
        number=case.number,
        kind=kind,
        rate_Hz=rate,
        body_weight_N=weight,
        body_mass_kg=Estimate(weight.value / g, weight.se / g),
        weighing=WeighingQuality(weighing.seconds, weighing.sd_N, weighing.step_share) if weighing else None,
        offset_N=zero,
        noise_N=air.noise_N,
        threshold_N=air.threshold_N,
        onset_s=weighing.onset / rate if weighing else None,
        take_off_s=take_off_s,
        landing_s=(air.end - 0.5) / rate - air.after.under_s,
        flight_s=flight,
        flight_at_threshold_s=crossing,
        under_threshold_s=under,
        rise_by_flight_m=rise_by_flight(flight),
        rise_by_impulse_m=by_impulse.rise_m if by_impulse else None,
        take_off_speed_m_s=(by_impulse or motion).take_off_m_s,
        peak_force_N=float(np.max(pushed)),
        mean_push_force_N=float(np.mean(pushed)),
        peak_power_W=float(np.max(power)),
        mean_push_power_W=float(np.mean(power)),
        time_to_take_off_s=lasting,
        index_modified_m_s=by_impulse.rise_m.value / lasting if by_impulse and lasting and verdict.impulse else None,
        depth_m=-lowest if kind == "countermovement" and verdict.impulse else None,
        push_off_m=_push_off_m(motion, air, rate),
        phases=phases,
        sides=side_loads(case, (push, air.start), weighing, landing_end, notes),
        depends=_dependences(_drift_off(case, balance), case, weighing),
        trace_start_s=trace_start,
        trace_N=trace,
        drift_N_s=balance.drift_N_s,
        weighed_after_s=(landing.stand.end - landing.stand.start) / rate if landing.stand else None,
        verdict=verdict,
        landing_used=landing.again is not None,
    )


def _first_seen(case: Case) -> int:
    """From where a jump without a stand before it is looked at: after the landing before it, if there was one."""
    settled = round(case.rule.settled_after * case.rate_Hz) if case.contact_start else 0
    last = case.air.start - round(case.rule.shortest_movement * case.rate_Hz)
    earliest = case.air.start - round(case.rule.longest_movement * case.rate_Hz)
    return max(case.contact_start, min(last, max(case.contact_start + settled, earliest)))


def _weighs_well(weighing: Weighing, own: Stand, rule: PlatformRule) -> bool:
    return weighing.seconds >= rule.weighing - 1e-6 and own.sd_N <= rule.noisy_over * abs(own.mean_N)


def _push_off_m(motion: Motion, air: Air, rate_Hz: float) -> float:
    """From the lowest point to zero force, a little after the last sample."""
    risen = float(motion.height_m[-1] - np.min(motion.height_m))
    return risen + motion.take_off_m_s.value * (air.before.under_s + 0.5 / rate_Hz)


def _drift_off(case: Case, balance: Balance) -> Samples:
    """The force with the zero line's drift off, level at the flight where the offset is read."""
    since_s = (np.arange(len(case.force_N)) - case.air.middle) / case.rate_Hz
    return case.force_N - balance.drift_N_s.value * since_s


def _note_dip(case: Case, weighing: Weighing, weight: float, notes: Notebook) -> None:
    """A squat jump has no dip, and a countermovement jump has one."""
    kind, rule = case.kind, case.rule
    push = case.standing.smooth.force_N[weighing.onset : case.air.start]
    before_peak = push[: int(np.argmax(push)) + 1]
    dip = (weighing.mean_N - float(np.min(before_peak))) / weight
    if kind == "squat" and dip > rule.dip_over:
        message = (
            f"the force dips {100 * dip:.0f} % of body weight below standing before the push: a countermovement, "
            "not a squat jump"
        )
        notes.add("warning", "squat-jump-dip", message, hint="hold the squat for two seconds, then straight up")
    if kind == "countermovement" and dip < rule.dip_over:
        message = f"the force dips only {100 * dip:.0f} % of body weight before the push: this looks like a squat jump"
        notes.add("warning", "no-dip", message, hint="if it was one, say --jump squat")


def _dependences(force: Samples, case: Case, weighing: Weighing | None) -> tuple[Dependence, ...]:
    """How the two heights move with the choices behind them."""
    rate, air = case.rate_Hz, case.air
    crossings = _crossings(force, air)
    by_threshold = Dependence(
        "flight time, by threshold, as crossed",
        tuple(f"{threshold:.0f} N" for threshold, _ in crossings),
        tuple(g * (samples / rate) ** 2 / 8.0 for _, samples in crossings),
    )
    if weighing is None:
        return (by_threshold,)

    def impulse(weight_read: float) -> float:
        return rise_with(force, rate, onset=weighing.onset, weight_read_N=weight_read, air=air)

    windows = _other_weighings(force, case, weighing)
    first = Dependence(
        "integrated forwards alone, by where body weight is taken",
        tuple(f"{start:.2f}-{end:.2f} s ({mean - air.offset_N:.0f} N)" for start, end, mean in windows),
        tuple(impulse(mean) for _, _, mean in windows),
    )
    steps = (-WEIGHT_STEP_N, 0.0, WEIGHT_STEP_N)
    second = Dependence(
        "integrated forwards alone, by body weight",
        tuple(f"{step:+.0f} N" if step else "as weighed" for step in steps),
        tuple(impulse(weighing.mean_N + step) for step in steps),
    )
    return first, second, by_threshold


def _other_weighings(force: Samples, case: Case, weighing: Weighing) -> list[tuple[float, float, float]]:
    """The weighing used, and up to four equally long quiet ones before it: (start s, end s, mean N)."""
    rate, rule = case.rate_Hz, case.rule
    length = weighing.end - weighing.start
    chosen = [(weighing.start / rate, weighing.end / rate, weighing.mean_N)]
    for step in range(1, 5):
        start = weighing.start - step * length // 2
        if start < case.contact_start:
            break
        means, sds = window_sd(force[start : start + length], length)
        if sds[0] <= 1.5 * rule.noisy_over * abs(means[0]) and abs(means[0] / weighing.mean_N - 1) < rule.step_over:
            chosen.append((start / rate, (start + length) / rate, float(means[0])))
    return chosen


def _crossings(force: Samples, air: Air) -> list[tuple[float, int]]:
    """Samples in the air at the usual thresholds and the one used; those inside the noise are left out."""
    found = []
    for threshold in sorted({10.0, 20.0, 50.0, air.threshold_N}):
        if threshold < 3.0 * air.noise_N:
            continue
        over = force - air.offset_N >= threshold
        start, end = air.start, air.end
        while start > 0 and not over[start - 1]:
            start -= 1
        while start < air.end and over[start]:
            start += 1
        while end < len(over) and not over[end]:
            end += 1
        while end > air.start and over[end - 1]:
            end -= 1
        found.append((threshold, end - start))
    return found
