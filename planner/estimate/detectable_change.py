"""What a retest can show: the change that is beyond noise, the change worth having, and tests that disagree."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from planner.domain.gap_record import RetestLine, RetestWayLine
from planner.domain.test_kinds import RetestRule
from planner.estimate.heights import FORM_WORDS, METHOD_NAMES, Height
from planner.estimate.notebook import Notebook
from planner.estimate.trials import days_and_trials_se, mean_of_days
from planner.estimate.words import Words


def minimal_detectable_change(standard_error: float, *, multiple: float) -> float:
    """multiple x sqrt 2 x SEM, in the error's unit: two test days, each with this error (Weir 2005, JSCR 19:231)."""
    return multiple * math.sqrt(2.0) * standard_error


def smallest_worthwhile_change(between_athletes_sd: float, *, share: float) -> float:
    """share x the standard deviation between athletes, in its unit (Hopkins 2000)."""
    return share * between_athletes_sd


def worthwhile_m(rule: RetestRule) -> float:
    """The gain of a jump that is worth having: smaller ones are too small to matter."""
    return smallest_worthwhile_change(rule.between_athletes, share=rule.worthwhile_share)


def retest_of(days: Sequence[Height], rule: RetestRule) -> RetestLine:
    """For a retest by the same method, on as many days with as many jumps as this time, and on those advised."""
    single_se_m, day_se_m = days[0].single_se_m, days[0].day_se_m
    ways = []
    for way in rule.ways:
        error_m = days_and_trials_se(single_se=single_se_m, day_se=day_se_m, days=way.days, trials=way.jumps)
        detectable_m = minimal_detectable_change(error_m, multiple=rule.multiple)
        ways.append(RetestWayLine(days=way.days, jumps=way.jumps, detectable_m=detectable_m))
    error_m = mean_of_days([day.rise_m for day in days]).se
    return RetestLine(
        minimal_detectable_change_m=minimal_detectable_change(error_m, multiple=rule.multiple),
        smallest_worthwhile_change_m=worthwhile_m(rule),
        ways=tuple(ways),
    )


def same_test(one: Height, other: Height) -> bool:
    """Whether two heights are of one jump by one method, so that their difference is a change."""
    return all(getattr(one, name) == getattr(other, name) for name in ("kind", "take_off", "form", "arms", "method"))


def test_days(counts: Height, heights: Sequence[Height], rule: RetestRule) -> tuple[Height, ...]:
    """The test that counts, and the same jump by the same method on other days near it, latest first.

    A day that differs by far more than the errors of both is a change, not another look at the same jump.
    """
    found = {counts.date: counts}
    for one in sorted(heights, key=lambda height: height.date, reverse=True):
        near = 0 <= (counts.date - one.date).days <= rule.together_days
        error_m = math.hypot(one.rise_m.se, counts.rise_m.se)
        agrees = abs(one.rise_m.value - counts.rise_m.value) <= rule.together_errors * error_m
        if same_test(one, counts) and near and agrees:
            found.setdefault(one.date, one)
    return tuple(found.values())


def compare(
    counts: Height, heights: Sequence[Height], heel_rise_se_m: float, rule: RetestRule, notes: Notebook, words: Words
) -> None:
    """Report tests of the same jump that disagree beyond the errors of both.

    With the same method on another day, the difference is a change. Another method is another definition of height, so
    the difference is a conflict to settle, never to average away. Each jump's tests are compared with its latest one,
    or with ``counts``, the test that the gap rests on.
    """
    for first, other in _pairs(counts, heights):
        apart_m = first.rise_m.value - other.rise_m.value
        heel_m = heel_rise_se_m if first.from_touch != other.from_touch else 0.0
        error_m = math.hypot(*_errors_m(first, other), heel_m)
        if abs(apart_m) <= rule.multiple * error_m:
            continue
        if other.method == first.method and other.date != first.date:
            _note_change(first, other, words.length(abs(apart_m)), words.length(error_m), notes)
        else:
            _note_conflict(first, other, error_m, words, notes, counts=first is counts)


def _errors_m(first: Height, other: Height) -> tuple[float, float]:
    """A day's form is in both tests of one day, so there only the trials err apart."""
    if first.date == other.date:
        return first.trials_se_m, other.trials_se_m
    return first.rise_m.se, other.rise_m.se


def _pairs(counts: Height, heights: Sequence[Height]) -> Iterator[tuple[Height, Height]]:
    """Pairs of tests of the same jump (legs, start, hands on hips or not). Drop jumps are left out: boxes differ."""
    jumps: dict[tuple[str, str, bool], list[Height]] = {}
    for one in heights:
        if one.form != "drop" and not one.reads_high:
            jumps.setdefault((one.take_off, one.form, one.arms == "hips"), []).append(one)
    for tests in jumps.values():
        first = counts if counts in tests else max(tests, key=lambda one: (one.date, one.number))
        yield from ((first, other) for other in tests if other is not first)


def _note_change(first: Height, other: Height, apart: str, error: str, notes: Notebook) -> None:
    later, earlier = (first, other) if first.date > other.date else (other, first)
    word = "higher" if later.rise_m.value > earlier.rise_m.value else "lower"
    message = (
        f"the {later.kind.replace('-', ' ')} of {later.date.isoformat()} is {apart} ± {error} {word} than on "
        f"{earlier.date.isoformat()}: more than noise"
    )
    notes.add("note", "real-change", message, at=("tests", other.number))


def _note_conflict(
    first: Height, other: Height, error_m: float, words: Words, notes: Notebook, *, counts: bool
) -> None:
    if other.method == first.method:
        how = f"two tests by {METHOD_NAMES[first.method]}"
    else:
        how = f"{METHOD_NAMES[first.method]} and {METHOD_NAMES[other.method]}"
    one_m, other_m = first.rise_m.value, other.rise_m.value
    one, two, apart, error = (words.length(length_m) for length_m in (one_m, other_m, abs(one_m - other_m), error_m))
    verdict = "the first counts, they are not averaged" if counts else "neither is used for the gap"
    jump = f"one jump ({first.take_off}, {FORM_WORDS[first.form]})"
    notes.add(
        "warning",
        "tests-in-conflict",
        f"{how} tell different heights of {jump}, {one} and {two}: {apart} apart, with errors of ± {error}; {verdict}",
        hint="different definitions differ by some centimetres; more is a reading to check or a test to repeat",
        at=("tests", other.number),
    )
