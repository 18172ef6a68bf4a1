"""The jumps of a platform as a test in an athlete's file: the fields, with their units, as a coach would write them."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from planner.domain.base import LEAST_PUSH_OFF_m, MOST_PUSH_OFF_m
from planner.estimate.words import Words, as_measured_by
from planner.force_platform.platform_jump import PlatformJump
from planner.units import INCH_m

METRIC = Words()
TestEntry = dict[str, "str | datetime.date | list[dict[str, str | float]]"]


def platform_test(
    jumps: Sequence[PlatformJump],
    *,
    date: datetime.date,
    take_off: str,
    arms: str,
    drop_m: float | None,
    words: Words = METRIC,
) -> TestEntry:
    """One test of kind force-platform; every jump is a trial. All jumps are of one kind, and none without a height that
    is believed."""
    first = jumps[0]
    entry: TestEntry = {
        "kind": "force-platform",
        "date": date,
        "method": f"force platform, {first.rate_Hz:g} samples a second",
        "jump": first.kind,
        "take_off": take_off,
        "arms": arms,
    }
    if drop_m is not None:
        entry["drop"] = words.length(drop_m, 2)
    entry["trials"] = [_trial(jump, words) for jump in jumps]
    return entry


def body_mass_differs(
    jumps: Sequence[PlatformJump], body_mass_kg: float, over: float, words: Words
) -> tuple[str, str] | None:
    """What is wrong and what to do where the platform weighs another body than the athlete's file; None where not.

    ``over``: as a share of the body mass. A mass that was given for a drop jump is not weighed, so it is not compared.
    """
    weighed = [jump.body_mass_kg.value for jump in jumps if jump.weighing is not None]
    furthest = max(weighed, key=lambda mass: abs(mass - body_mass_kg), default=body_mass_kg)
    if abs(furthest - body_mass_kg) <= over * body_mass_kg:
        return None
    message = f"the platform weighs {words.load(furthest)}, the athlete's file says {words.load(body_mass_kg)}"
    return message, "check that these are this athlete's jumps; if so, bring body_mass up to date"


def _trial(jump: PlatformJump, words: Words) -> dict[str, str | float]:
    trial: dict[str, str | float] = {}
    if jump.rise_by_impulse_m is not None and jump.verdict.impulse:
        trial["rise_by_impulse"] = _length(jump.rise_by_impulse_m.value, 4, words)
        trial["rise_by_impulse_error"] = _length(jump.rise_by_impulse_m.se, 4, words)
    if jump.verdict.flight:
        trial["flight"] = f"{jump.flight_s.value:.4f} s"
        trial["flight_error"] = f"{jump.flight_s.se:.4f} s"
    if jump.drop is not None:
        trial["contact"] = f"{jump.drop.contact_s.value:.4f} s"
    if jump.time_to_take_off_s is not None:
        trial["time_to_take_off"] = f"{jump.time_to_take_off_s:.3f} s"
    trial["peak_force"] = f"{jump.peak_force_N:.0f} N"
    trial["mean_propulsion_force"] = f"{jump.mean_push_force_N:.0f} N"
    # By the flight's speed alone the lowest point is not told well enough.
    if jump.push_off_m is not None and jump.verdict.impulse and LEAST_PUSH_OFF_m <= jump.push_off_m <= MOST_PUSH_OFF_m:
        trial["push_off"] = _length(jump.push_off_m, 3, words)
    if jump.sides:
        left = next((side for side in jump.sides if side.name == "left"), jump.sides[0])
        trial["left_share"] = round(left.share_of_push, 4)
    if jump.verdict.why:
        trial["doubt"] = as_measured_by(jump.verdict.in_words, words)
    return trial


def _length(length_m: float, digits: int, words: Words) -> str:
    """In metres, or in inches to two digits fewer: a hundredth of an inch is a quarter of a millimetre."""
    return f"{length_m:.{digits}f} m" if words.length_unit == "cm" else f"{length_m / INCH_m:.{digits - 2}f} in"
