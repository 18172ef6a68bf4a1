"""A countermovement or squat jump on a platform, from quiet standing to landing."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from planner.domain.platform_rule import PlatformRule
from planner.estimate.notebook import Notebook
from planner.force_platform import record_faults
from planner.force_platform.evidence import Evidence, evidence_of
from planner.force_platform.flight_and_sides import drawn, flight_of, rise_by_flight, side_loads
from planner.force_platform.flights import Air
from planner.force_platform.jump_case import Case
from planner.force_platform.jump_phases import PhaseMaker, push_start, standing_phases
from planner.force_platform.platform_jump import Dependence, JumpKind, PlatformJump, WeighingQuality
from planner.force_platform.push_motion import Motion, motion_before, rise_with
from planner.force_platform.signal import Samples, window_sd
from planner.force_platform.weighing import Weighing, weigh_before, weighed

WEIGHT_STEP_N = 1.0


def standing_jump(case: Case, notes: Notebook) -> PlatformJump | None:
    """One jump from a stand; None with errors in ``notes`` where it cannot be weighed or trusted."""
    rule, rate, air = case.rule, case.rate_Hz, case.air
    weighing = weigh_before(case.force_N, rate, rule, case.contact_start, air.start)
    if weighing is None or weighing.mean_N - air.offset_N <= 2 * rule.airborne_under:
        least = f"{rule.shortest_weighing:g} s"
        notes.add("error", "no-weighing", f"there is no quiet standing of even {least} before the jump")
        return None
    hidden = record_faults.zeroed(case, notes) > 0
    push = (weighing.onset, air.start)
    record_faults.clipping(case, weighing.mean_N - air.offset_N, push, notes)
    record_faults.missing_samples(case.missing, rate, weighing.start, case.just_landed, notes)
    evidence = evidence_of(case, weighing, hidden=hidden)
    force = _level(case, evidence)
    levelled = weighed(force, rate, rule, weighing.start, weighing.end, weighing.onset)
    weighing = replace(levelled, restless_share=weighing.restless_share, stepped_N=weighing.stepped_N)
    record_faults.body_weight(evidence.balance.weight_N.value, case.options.g, notes)
    record_faults.weighing_quality(weighing, rate, rule, notes)
    if notes.has_errors:
        return None
    record_faults.standing_disagrees(evidence.disagrees_N, evidence.disagrees_m_s, notes)
    motion = motion_before(force, rate, weighing.onset, air, evidence, case.options.g)
    if motion.take_off_m_s.value < rule.slowest_take_off_m_s:
        notes.add(
            "error",
            "no-impulse",
            f"the impulse before the flight gives a take-off speed of {motion.take_off_m_s.value:.2f} m/s: the body "
            "was not at rest at the start, or stepped off",
            hint="stand still, then jump and land on the platform; for a drop jump --jump drop",
        )
        return None
    _note_dip(force, weighing, air, weighing.mean_N - air.offset_N, case.kind, rule, notes)
    return _told(case, force, weighing, evidence, motion, notes)


def _told(
    case: Case, force: Samples, weighing: Weighing, evidence: Evidence, motion: Motion, notes: Notebook
) -> PlatformJump:
    """All figures of a jump that was found sound."""
    air, rate, g, kind = case.air, case.rate_Hz, case.options.g, case.kind
    flight, crossing, under = flight_of(air, rate)
    push = weighing.onset if kind == "squat" else push_start(motion, weighing.onset, case.rule)[1]
    weight, zero = evidence.balance.weight_N, evidence.balance.zero_N.value
    maker = PhaseMaker(force, rate, zero, weight.value)
    phases = standing_phases(maker, kind, weighing, motion, air, case.rule, g)
    power = motion.power_W[push - weighing.onset :]
    pushed = force[push : air.start] - zero
    take_off_s = (air.start - 0.5) / rate + air.before.under_s
    lasting = take_off_s - weighing.onset / rate
    lowest = float(np.min(motion.height_m))
    landing_end = round(phases[-1].end_s * rate)
    trace_start, trace = drawn(force, rate, zero, weighing.start, landing_end)
    return PlatformJump(
        number=case.number,
        kind=kind,
        rate_Hz=rate,
        body_weight_N=weight,
        body_mass_kg=motion.mass_kg,
        weighing=WeighingQuality(weighing.seconds, weighing.sd_N, weighing.step_share),
        offset_N=zero,
        noise_N=air.noise_N,
        threshold_N=air.threshold_N,
        onset_s=weighing.onset / rate,
        take_off_s=take_off_s,
        landing_s=(air.end - 0.5) / rate - air.after.under_s,
        flight_s=flight,
        flight_at_threshold_s=crossing,
        under_threshold_s=under,
        rise_by_flight_m=rise_by_flight(flight, g),
        rise_by_impulse_m=motion.rise_m,
        take_off_speed_m_s=motion.take_off_m_s,
        peak_force_N=float(np.max(pushed)),
        mean_push_force_N=float(np.mean(pushed)),
        peak_power_W=float(np.max(power)),
        mean_push_power_W=float(np.mean(power)),
        time_to_take_off_s=lasting,
        index_modified_m_s=motion.rise_m.value / lasting,
        depth_m=-lowest if kind == "countermovement" else None,
        push_off_m=float(motion.height_m[-1]) + motion.take_off_m_s.value * (air.before.under_s + 0.5 / rate) - lowest,
        drop=None,
        phases=phases,
        sides=side_loads(
            case.record, air, (push, air.start), (weighing.start, weighing.end), landing_end, case.rule, notes
        ),
        depends=_dependences(force, rate, weighing, air, case.rule, case.contact_start, g),
        trace_start_s=trace_start,
        trace_N=trace,
        drift_N_s=evidence.balance.drift_N_s,
        weighed_after_s=evidence.after.seconds if evidence.after else None,
        landing_used=evidence.landing_used,
    )


def _level(case: Case, evidence: Evidence) -> Samples:
    """The force with the zero line's drift off, level at the flight where the offset is read."""
    since_s = (np.arange(len(case.force_N)) - case.air.middle) / case.rate_Hz
    return case.force_N - evidence.balance.drift_N_s.value * since_s


def _note_dip(
    force: Samples, weighing: Weighing, air: Air, weight: float, kind: JumpKind, rule: PlatformRule, notes: Notebook
) -> None:
    """A squat jump with a dip is none; a countermovement jump without one neither."""
    push = force[weighing.onset : air.start]
    before_peak = push[: int(np.argmax(push)) + 1]
    dip = (weighing.mean_N - float(np.min(before_peak))) / weight
    if kind == "squat" and dip > rule.dip_over:
        notes.add(
            "warning",
            "squat-jump-dip",
            f"the force dips {100 * dip:.0f} % of body weight below standing before the push: a countermovement, "
            "no squat jump",
            hint="hold the squat for two seconds, then straight up",
        )
    if kind == "countermovement" and dip < rule.dip_over:
        notes.add(
            "warning",
            "no-dip",
            f"the force dips only {100 * dip:.0f} % of body weight before the push: this looks like a squat jump",
            hint="if it was one, say --jump squat",
        )


def _dependences(
    force: Samples, rate: float, weighing: Weighing, air: Air, rule: PlatformRule, contact_start: int, g: float
) -> tuple[Dependence, ...]:
    """How the two heights move with the choices behind them."""

    def impulse(weight_read: float) -> float:
        return rise_with(force, rate, onset=weighing.onset, weight_read_N=weight_read, air=air, g=g)

    windows = _other_weighings(force, rate, weighing, rule, contact_start)
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
    crossings = _crossings(force, air)
    third = Dependence(
        "flight time, by threshold, as crossed",
        tuple(f"{threshold:.0f} N" for threshold, _ in crossings),
        tuple(g * (samples / rate) ** 2 / 8.0 for _, samples in crossings),
    )
    return first, second, third


def _other_weighings(
    force: Samples, rate: float, weighing: Weighing, rule: PlatformRule, contact_start: int
) -> list[tuple[float, float, float]]:
    """The weighing used, and up to four equally long quiet ones before it: (start s, end s, mean N)."""
    length = weighing.end - weighing.start
    chosen = [(weighing.start / rate, weighing.end / rate, weighing.mean_N)]
    for step in range(1, 5):
        start = weighing.start - step * length // 2
        if start < contact_start:
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
