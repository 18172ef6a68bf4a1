"""What a retest can show: the change beyond noise, the change worth having, and tests that disagree."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from planner.domain.test_kinds import RetestRule
from planner.estimate.findings import Notebook
from planner.estimate.heights import METHOD_NAMES, Height
from planner.units import format_length


@dataclass(frozen=True)
class Retest:
    """Lengths in metres. ``trials`` counted on a day; ``detectable_single_m`` if only one jump counted on each day."""

    trials: int
    detectable_m: float
    detectable_single_m: float
    worthwhile_m: float


def minimal_detectable_change(standard_error: float, *, multiple: float = 1.96) -> float:
    """multiple x sqrt 2 x SEM: two test days, each with this error (Weir 2005, JSCR 19:231). Unit of the error."""
    return multiple * math.sqrt(2.0) * standard_error


def smallest_worthwhile_change(between_athletes_sd: float, *, share: float = 0.2) -> float:
    """share x the standard deviation between athletes (Hopkins 2000). Unit of the deviation."""
    return share * between_athletes_sd


def typical_error(first: Sequence[float], second: Sequence[float]) -> float:
    """Typical error from two days of the same athletes: standard deviation of their differences / sqrt 2."""
    differences = [b - a for a, b in zip(first, second, strict=True)]
    mean = sum(differences) / len(differences)
    return math.sqrt(sum((one - mean) ** 2 for one in differences) / (len(differences) - 1) / 2.0)


def retest_of(height: Height, rule: RetestRule) -> Retest:
    """For a retest by the same method, with as many counted jumps as this time."""
    return Retest(
        trials=min(2, height.trials),
        detectable_m=minimal_detectable_change(height.rise_m.se, multiple=rule.multiple),
        detectable_single_m=minimal_detectable_change(height.single_se_m, multiple=rule.multiple),
        worthwhile_m=smallest_worthwhile_change(rule.between_athletes, share=rule.worthwhile_share),
    )


def compare(chosen: Height, others: Sequence[Height], heel_rise_se_m: float, rule: RetestRule, notes: Notebook) -> None:
    """Say where other tests of the same jump disagree with the one that counts beyond the errors of both.

    The same method on another day is a change; another method is another definition of height, so a difference beyond
    the errors is a conflict to be settled, never averaged away.
    """
    for other in others:
        same_jump = (other.take_off, other.form) == (chosen.take_off, chosen.form)
        same_arms = other.arms == chosen.arms or other.arms != "hips"
        if other is chosen or not same_jump or not same_arms:
            continue
        apart_m = chosen.rise_m.value - other.rise_m.value
        heel_m = heel_rise_se_m if chosen.from_touch != other.from_touch else 0.0
        error_m = math.sqrt(chosen.rise_m.se**2 + other.rise_m.se**2 + heel_m**2)
        if abs(apart_m) <= rule.multiple * error_m:
            continue
        if other.method == chosen.method and other.date != chosen.date:
            _note_change(chosen, other, apart_m, error_m, notes)
        else:
            _note_conflict(chosen, other, apart_m, error_m, notes)


def _note_change(chosen: Height, other: Height, apart_m: float, error_m: float, notes: Notebook) -> None:
    word = "higher" if (apart_m > 0) == (chosen.date > other.date) else "lower"
    later, earlier = (chosen, other) if chosen.date > other.date else (other, chosen)
    notes.add(
        "note",
        "real-change",
        f"the {chosen.kind.replace('-', ' ')} of {later.date.isoformat()} is {format_length(abs(apart_m), 'cm', 1)} "
        f"± {format_length(error_m, 'cm', 1)} {word} than on {earlier.date.isoformat()}: more than noise",
        at=("tests", other.number),
    )


def _note_conflict(chosen: Height, other: Height, apart_m: float, error_m: float, notes: Notebook) -> None:
    if other.method == chosen.method:
        how = f"two tests by {METHOD_NAMES[chosen.method]}"
    else:
        how = f"{METHOD_NAMES[chosen.method]} and {METHOD_NAMES[other.method]}"
    first, second, apart, error = (
        format_length(length_m, "cm", 1)
        for length_m in (chosen.rise_m.value, other.rise_m.value, abs(apart_m), error_m)
    )
    notes.add(
        "warning",
        "tests-in-conflict",
        f"{how} tell different heights of one jump, {first} and {second}: {apart} apart, with errors of "
        f"± {error}; the first counts, they are not averaged",
        hint="different definitions differ by some centimetres; more is a reading to check or a test to repeat",
        at=("tests", other.number),
    )
