"""What is wrong with a record: refused or warned of, each with its figure."""

from __future__ import annotations

import numpy as np

from planner.domain.base import HEAVIEST_kg, LIGHTEST_kg
from planner.domain.platform_rule import PlatformRule
from planner.estimate.notebook import Notebook
from planner.force_platform.jump_case import Case
from planner.force_platform.signal import runs
from planner.force_platform.weighing import Weighing


def check_rate(rate_Hz: float, rule: PlatformRule, notes: Notebook) -> None:
    if rate_Hz < rule.lowest_rate_Hz:
        notes.add(
            "error",
            "rate-low",
            f"{rate_Hz:g} samples a second are too few: one sample is {1000 / rate_Hz:.0f} ms",
            hint=f"record at {rule.usual_rate_Hz:g} or more; {rule.lowest_rate_Hz:g} is the least",
        )
    elif rate_Hz < rule.usual_rate_Hz:
        notes.add(
            "warning",
            "rate-low",
            f"{rate_Hz:g} samples a second: one sample is {1000 / rate_Hz:.1f} ms of flight time",
            hint="1000 a second is the reference",
        )


def missing_samples(missing: np.ndarray, rate_Hz: float, start: int, end: int, notes: Notebook) -> None:
    """Missing inside the jump: refused. Elsewhere: a warning."""
    inside = int(np.count_nonzero(missing[start:end]))
    outside = int(np.count_nonzero(missing)) - inside
    if inside:
        first = start + int(np.flatnonzero(missing[start:end])[0])
        notes.add(
            "error",
            "missing-samples",
            f"{inside} samples are missing within the jump, the first at {first / rate_Hz:.3f} s",
            hint="export the record anew, or jump again",
        )
    if outside:
        notes.add("warning", "missing-samples", f"{outside} samples are missing outside the jump", hint="not used")


def clipping(case: Case, weight_N: float, push: tuple[int, int], notes: Notebook) -> None:
    """A flat top: force was higher than the platform, or its amplifier, could show."""
    force_N, rate_Hz, rule = case.force_N, case.rate_Hz, case.rule
    highest = float(np.max(force_N))
    if highest < rule.clipped_over * weight_N:
        return
    flat = [(a, b) for a, b in runs(force_N >= highest - 1e-9 * abs(highest)) if b - a >= rule.clipped_samples]
    for a, b in flat:
        in_push = a < push[1] and b > push[0]
        where = "in the push" if in_push else "at landing" if a >= push[1] else "before the jump"
        notes.add(
            "error" if in_push else "warning",
            "clipped",
            f"force is cut off at {highest:,.0f} N for {b - a} samples {where} ({a / rate_Hz:.3f} s)",
            hint="set the platform's range higher and jump again",
        )


def weighing_quality(weighing: Weighing, rate_Hz: float, rule: PlatformRule, notes: Notebook) -> None:
    share = weighing.sd_N / weighing.mean_N if weighing.mean_N > 0 else 1.0
    if weighing.seconds < rule.weighing - 1e-6:
        notes.add(
            "warning",
            "weighing-short",
            f"only {weighing.seconds:.2f} s of quiet standing before the jump, {rule.weighing:g} s are usual: body "
            f"weight is {weighing.mean_N:.0f} ± {weighing.se_N:.1f} N as read, and the impulse's height hangs on it",
            hint="stand still for a full second or two before the jump",
        )
    if weighing.seconds < rule.short_weighing_share * rule.weighing:
        share = max(share, weighing.restless_share)
    if share > rule.refuse_noise_over:
        notes.add(
            "error",
            "weighing-noisy",
            f"the standing before the jump is no weighing: it varies by {100 * share:.1f} % of body weight "
            f"({share * weighing.mean_N:.0f} N)",
            hint="stand still for a full second before the jump, and jump again",
        )
    elif share > rule.noisy_over:
        notes.add(
            "warning",
            "weighing-noisy",
            f"the standing before the jump varies by {100 * share:.1f} % of body weight ({weighing.sd_N:.0f} N)",
            hint="stand still, arms quiet, for a full second",
        )
    if weighing.stepped_N is not None:
        more = "more" if weighing.stepped_N > 0 else "less"
        notes.add(
            "warning",
            "stepping",
            f"before {weighing.start / rate_Hz:.2f} s the standing reads {abs(weighing.stepped_N):.0f} N {more} than "
            f"after ({100 * abs(weighing.stepped_N) / weighing.mean_N:.1f} % of body weight): a step, or leaning on "
            "something; the later stand is weighed",
            hint="both feet on, hands off, still",
        )
    elif weighing.step_share > rule.step_over:
        notes.add(
            "warning",
            "stepping",
            f"the weighing's first and second half differ by {100 * weighing.step_share:.1f} % of body weight: a step, "
            "or leaning on something",
            hint="both feet on, hands off, still",
        )


def zeroed(case: Case, notes: Notebook) -> float:
    """Small readings set to zero before the file was written; returns the least reading that was kept (0: none)."""
    force_N, rule = case.force_N, case.rule
    core = force_N[case.air.start : case.air.end]
    if not len(core) or np.count_nonzero(core == 0.0) < rule.zeroed_share * len(core):
        return 0.0
    kept = np.abs(force_N[force_N != 0.0])
    least = float(np.min(kept)) if len(kept) else 0.0
    if least > rule.zeroed_over:
        notes.add(
            "note",
            "zeroed",
            f"readings under about {least:.0f} N were set to 0 before this file was written: its zero line and noise "
            f"in flight cannot be checked, and force under {least:.0f} N on the ground counts as flight",
        )
        return least
    return 0.0


def horizontal_unknown(notes: Notebook) -> None:
    notes.add(
        "note",
        "horizontal-unknown",
        "vertical force only: travel forwards and the posture at landing are unknown; landing lower or with bent legs "
        "makes the flight's height read high, the impulse's does not see it",
    )


def one_foot(name: str, share: float, rule: PlatformRule, notes: Notebook) -> None:
    if share < rule.one_foot_under:
        notes.add(
            "warning",
            "one-platform",
            f"platform '{name}' carries {100 * share:.0f} % of the weight while standing: a foot is off it",
            hint="one foot on each platform, or analyse one platform with --force",
        )


def body_weight(weight_N: float, g: float, notes: Notebook) -> None:
    """A weight that no athlete has: the unit is wrong."""
    if not LIGHTEST_kg <= weight_N / g <= HEAVIEST_kg:
        notes.add(
            "error",
            "body-weight",
            f"body weight reads {weight_N:,.0f} N ({weight_N / g:,.0f} kg), which no athlete has",
            hint=f"check the unit of force (--unit N, kN, lbf); {LIGHTEST_kg:g} to {HEAVIEST_kg:g} kg are believed",
        )


def standing_disagrees(more_N: float | None, moving_m_s: float | None, notes: Notebook) -> None:
    """Standing after the landing reads another weight, or the landing does not end in it: left out, and said to be."""
    if more_N is not None:
        notes.add(
            "note",
            "standing-after",
            f"standing after the landing reads {abs(more_N):.1f} N {'more' if more_N > 0 else 'less'} than before the "
            "jump, beyond sway and drift: it is not used",
        )
    if moving_m_s is not None:
        notes.add(
            "note",
            "landing-impulse",
            f"by the landing's impulse the body would still move at {abs(moving_m_s):.2f} m/s in the standing after: "
            "the landing is not used for the height by impulse",
        )
