"""What is wrong with a record: refused or warned of, each with its figure."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from planner.domain.base import HEAVIEST_kg, LIGHTEST_kg
from planner.domain.platform_rule import PlatformRule
from planner.estimate.notebook import Notebook
from planner.estimate.uncertainty import Estimate
from planner.force_platform.flights import Air
from planner.force_platform.jump_case import Case
from planner.force_platform.platform_jump import SideLoad
from planner.force_platform.signal import Samples, runs
from planner.force_platform.weighing import Weighing
from planner.units import STANDARD_GRAVITY_m_s2 as g
from planner.units import counted


def check_rate(rate_Hz: float, rule: PlatformRule, notes: Notebook) -> None:
    if rate_Hz < rule.lowest_rate_Hz:
        message = f"{rate_Hz:g} samples a second are too few: one sample is {1000 / rate_Hz:.0f} ms"
        hint = f"record at {rule.usual_rate_Hz:g} or more; {rule.lowest_rate_Hz:g} is the least"
        notes.add("error", "rate-low", message, hint=hint)
    elif rate_Hz < rule.usual_rate_Hz:
        message = f"{rate_Hz:g} samples a second: one sample is {1000 / rate_Hz:.1f} ms of flight time"
        notes.add("warning", "rate-low", message, hint="1000 a second is the reference")


def missing_samples(missing: np.ndarray, rate_Hz: float, start: int, end: int, notes: Notebook) -> None:
    """Missing inside the jump: refused. Elsewhere: a warning."""
    inside = int(np.count_nonzero(missing[start:end]))
    outside = int(np.count_nonzero(missing)) - inside
    if inside:
        first = start + int(np.flatnonzero(missing[start:end])[0])
        message = f"{_are_missing(inside)} within the jump, the first at {first / rate_Hz:.3f} s"
        notes.add("error", "missing-samples", message, hint="export the record anew, or jump again")
    if outside:
        notes.add("warning", "missing-samples", f"{_are_missing(outside)} outside the jump", hint="not used")


def _are_missing(samples: int) -> str:
    return f"{counted(samples, 'sample')} {'is' if samples == 1 else 'are'} missing"


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
        message = f"force is cut off at {highest:,.0f} N for {counted(b - a, 'sample')} {where} ({a / rate_Hz:.3f} s)"
        hint = "set the platform's range higher and jump again"
        notes.add("error" if in_push else "warning", "clipped", message, hint=hint)


def weighing_quality(weighing: Weighing, rate_Hz: float, rule: PlatformRule, notes: Notebook) -> None:
    share = _variation(weighing, rule)
    if weighing.seconds < rule.weighing - 1e-6:
        message = (
            f"only {weighing.seconds:.2f} s of quiet standing before the jump, {rule.weighing:g} s are usual: it reads "
            f"{weighing.mean_N:.0f} ± {weighing.se_N:.1f} N, and the height by impulse depends on it"
        )
        notes.add("warning", "weighing-short", message, hint="stand still for a full second or two before the jump")
    if share > rule.refuse_noise_over:
        message = (
            f"the standing before the jump cannot be weighed: it varies by {100 * share:.1f} % of body weight "
            f"({share * weighing.mean_N:.0f} N)"
        )
        hint = "stand still for a full second before the jump, and jump again"
        notes.add("error", "weighing-noisy", message, hint=hint)
    elif share > rule.noisy_over:
        notes.add(
            "warning",
            "weighing-noisy",
            f"the standing before the jump varies by {100 * share:.1f} % of body weight ({weighing.slow_sd_N:.0f} N)",
            hint="stand still, arms quiet, for a full second",
        )
    if weighing.stepped_N is not None:
        more = "more" if weighing.stepped_N > 0 else "less"
        message = (
            f"before {weighing.start / rate_Hz:.2f} s the standing reads {abs(weighing.stepped_N):.0f} N {more} than "
            f"after ({100 * abs(weighing.stepped_N) / weighing.mean_N:.1f} % of body weight): a step, or leaning on "
            "something; the later stand is weighed"
        )
        notes.add("warning", "stepping", message, hint="both feet on, hands off, still")
    else:
        stepping(weighing, rule, notes)


def no_stand(window: Weighing, rule: PlatformRule, notes: Notebook) -> None:
    """Why the quietest window before a jump weighs nothing, where that can be told."""
    share = _variation(window, rule)
    if share > rule.refuse_noise_over:
        message = f"the standing before the jump cannot be weighed: it varies by {100 * share:.1f} % of body weight"
        hint = "stand still for a full second before the jump, and jump again"
        notes.add("warning", "weighing-noisy", message, hint=hint)
    stepping(window, rule, notes)


def _variation(weighing: Weighing, rule: PlatformRule) -> float:
    """As a share of body weight; of a short standing, that of the usual length if it is more."""
    share = weighing.slow_sd_N / weighing.mean_N if weighing.mean_N > 0 else 1.0
    short = weighing.seconds < rule.short_weighing_share * rule.weighing
    return max(share, weighing.restless_share) if short else share


def stepping(weighing: Weighing, rule: PlatformRule, notes: Notebook) -> None:
    """Halves of a weighing that differ."""
    if weighing.step_share > rule.step_over:
        message = (
            f"the weighing's first and second half differ by {100 * weighing.step_share:.1f} % of body weight: a step, "
            "leaning on something, or a slow movement"
        )
        notes.add("warning", "stepping", message, hint="both feet on, hands off, still")


def small_readings_zeroed(force_N: Samples, airs: Sequence[Air], rule: PlatformRule, notes: Notebook) -> bool:
    """Whether small readings were set to zero before the file was written."""
    core = np.concatenate([force_N[air.start : air.end] for air in airs]) if airs else np.zeros(0)
    if not len(core) or np.count_nonzero(core == 0.0) < rule.zeroed_share * len(core):
        return False
    kept = np.abs(force_N[force_N != 0.0])
    least = float(np.min(kept)) if len(kept) else 0.0
    if least <= rule.zeroed_over:
        return False
    message = (
        f"readings under about {least:.0f} N were set to 0 before this file was written: its zero line and noise in "
        f"flight cannot be checked, and force under {least:.0f} N on the ground counts as flight"
    )
    notes.add("note", "zeroed", message)
    return True


def zeroed_under_load(force_N: Samples, airs: Sequence[Air], rule: PlatformRule, notes: Notebook) -> None:
    """The zero was set with the body on the platform: standing reads about nothing, the air a body less."""
    zero = min((air.offset_N for air in airs), default=0.0)
    usual = float(np.median(force_N))
    weight = usual - zero
    if weight > 0 and -zero > rule.loaded_zero_over * weight:
        message = (
            f"in the air the platform reads {zero:,.0f} N, and {usual:,.0f} N most of the time: its zero was set with "
            "the body on it, and body weight cannot be read"
        )
        hint = "export the record without that zero, or set it with nothing on the platform and jump again"
        notes.add("error", "zeroed-under-load", message, hint=hint)


def own_weight(own_N: float, se_N: float, weight: Estimate, rule: PlatformRule, notes: Notebook) -> None:
    """The stand before this jump weighs another body than the record as a whole."""
    more = own_N - weight.value
    if abs(more) > rule.stand.differ_over * float(np.hypot(se_N, weight.se)) and abs(more) > (
        rule.stand.differ_over * rule.stand.level_share * weight.value
    ):
        message = (
            f"the standing before this jump reads {abs(more):.1f} N {'more' if more > 0 else 'less'} than all of the "
            f"record's, {weight.value:.1f} ± {weight.se:.1f} N, which is used"
        )
        notes.add("warning", "own-weighing", message, hint="stand still before each jump, both feet on, hands off")


def no_impulse(take_off_m_s: float, notes: Notebook) -> None:
    message = (
        f"the impulse before the flight gives a take-off speed of {take_off_m_s:.2f} m/s: the body was not at rest at "
        "the start, or stepped off"
    )
    hint = "stand still, then jump and land on the platform; for a drop jump --jump drop"
    notes.add("error", "no-impulse", message, hint=hint)


def horizontal_unknown(notes: Notebook) -> None:
    message = (
        "vertical force only: travel forwards and the posture at landing are unknown; landing lower or with bent legs "
        "makes the flight's height read high, the impulse's does not see it"
    )
    notes.add("note", "horizontal-unknown", message)


def between_platforms(sides: Sequence[SideLoad], rule: PlatformRule, notes: Notebook) -> bool:
    """Whether the body pushes off one platform and lands on the other: they are not one under each foot."""
    over = rule.one_platform_over
    first = next((side.name for side in sides if side.share_of_push > over), None)
    second = next((side.name for side in sides if (side.share_of_landing or 0.0) > over), None)
    if first is None or second is None or first == second:
        return False
    message = (
        f"this jump goes from platform '{first}' to '{second}': no shares of left and right are told of it, and the "
        "body travelled, so that it lands otherwise than it took off and the flight may read high"
    )
    notes.add("warning", "between-platforms", message, hint="for left and right, stand with one foot on each")
    return True


def one_foot(name: str, share: float, rule: PlatformRule, notes: Notebook) -> None:
    if share < rule.one_foot_under:
        message = f"platform '{name}' carries {100 * share:.0f} % of the weight while standing: a foot is off it"
        hint = "one foot on each platform, or analyse one platform with --force"
        notes.add("warning", "one-platform", message, hint=hint)


def body_weight(weight_N: float, notes: Notebook) -> None:
    """A weight that no athlete has: the unit is wrong."""
    if not LIGHTEST_kg <= weight_N / g <= HEAVIEST_kg:
        message = f"body weight reads {weight_N:,.0f} N ({weight_N / g:,.0f} kg), which no athlete has"
        hint = f"check the unit of force (--unit N, kN, lbf); {LIGHTEST_kg:g} to {HEAVIEST_kg:g} kg are believed"
        notes.add("error", "body-weight", message, hint=hint)


def standing_disagrees(more_N: float | None, moving_m_s: float | None, notes: Notebook) -> None:
    """Standing after the landing reads another weight, or the landing does not end in it: left out, with a note."""
    if more_N is not None:
        message = (
            f"standing after the landing reads {abs(more_N):.1f} N {'more' if more_N > 0 else 'less'} than before the "
            "jump, beyond sway and drift: it is not used"
        )
        notes.add("note", "standing-after", message)
    if moving_m_s is not None:
        message = (
            f"by the landing's impulse the body would still move at {abs(moving_m_s):.2f} m/s in the standing after: "
            "the landing is not used for the height by impulse"
        )
        notes.add("note", "landing-impulse", message)
