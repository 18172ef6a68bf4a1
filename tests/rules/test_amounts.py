"""A breach's amount is what its own sentence tells: how far what is there is from what is allowed."""

from __future__ import annotations

import re

import pytest

from planner.rules.rule import Breach
from tests.rules.cases import Case, all_cases

N = r"(\d+(?:\.\d+)?)"
# Ends of sentences: what is there, then the least and the most that may be; "-" where there is no such limit.
LEAST, MOST, BETWEEN = "least", "most", "between"
SENTENCES = (
    (rf": {N} [^;]*; weekly range {N} to {N}$", BETWEEN),
    (rf"\): {N} [^;]*; should be {N} to {N}$", BETWEEN),
    (rf"has {N} sets; its planned progression has {N} to {N} in", BETWEEN),
    (rf"has {N} movements [^;]*; '.*' takes {N} to {N}$", BETWEEN),
    (rf": {N} [^;]*; the floor is {N}$", LEAST),
    (rf"is {N} days? before the sprints in [^;]*; it needs {N}$", LEAST),
    (rf" hard and {N} days? (?:apart; hard days need|before the test; it needs) {N}$", LEAST),
    (rf"(?:have jumps|full jumps on a sore tendon|load the calf), {N} days? apart; they need {N}$", LEAST),
    (rf"has {N} Achilles points [^;]*; at most {N}$", MOST),
    (rf"leaves {N} reps? in reserve; at least {N}$", LEAST),
    (rf": {N} of [^;]* main movements; at least {N}$", LEAST),
    (rf": {N} [^;]*; at least {N}(?: belong there)?$", LEAST),
    (rf"\): {N} of at least {N} ", LEAST),
    (rf"has {N} sets of one-leg lifts [^;]*; at most {N}$", MOST),
    (rf": {N} contacts of [^;]*, {N} the week before$", MOST),
    (rf": {N} [^;]*; (?:at most|the ceiling is|novices and youth have at most) {N}$", MOST),
    (rf"has {N} contacts[^;]*; (?:at most|the ceiling is|a primer takes at most) {N}$", MOST),
    (rf"takes {N} min; the day has {N} min", MOST),
    (rf"has {N} [^;]*; the recent load allows {N}$", MOST),
    (rf"has {N} jump days; novices and youth have {N}$", MOST),
)
PRINTED_TO = 0.1  # points, percentages and repetitions are rounded to a tenth: half of that on either side
MINUTES = 1.0  # and minutes up to a whole one


def told(sentence: str) -> float:
    """How far apart its numbers are; one where it counts a thing that should be there or should not."""
    if steady := re.search(rf"from {N} sets in week \d to {N} in .* rise by at most {N}", sentence):
        before, after, most = map(float, steady.groups())
        return _outside(after, before, before + most)
    if shapes := re.search(rf"is on {N} days of the week; the template gives it {N}", sentence):
        there, wanted = map(float, shapes.groups())
        return _outside(there, wanted, wanted)
    if deficit := re.search(rf": {N} of {N} sets for [^;]* without a load; at most one in {N}$", sentence):
        unloaded, sets, one_in = map(float, deficit.groups())
        return unloaded - sets / one_in
    if grows := re.search(rf": {N} target jumps in .*, {N} in .* first; at least {N} more belong there$", sentence):
        now, was, more = map(float, grows.groups())
        return more - (now - was)
    if match := re.search(rf"has {N} contacts of .* the day after a match$", sentence):
        return float(match[1])
    if weeks := re.search(r"^week \d and (\d) more: no one-leg work", sentence):
        return 1.0 + float(weeks[1])
    if reps := re.search(rf"the table is {N} repetitions away", sentence):
        return float(reps[1])
    if sport := re.search(rf"has {N} contacts plus {N} of sport; the ceiling is {N}", sentence):
        own, more, most = map(float, sport.groups())
        return own + more - most
    for pattern, kind in SENTENCES:
        if found := re.search(pattern, sentence):
            there, *limits = map(float, found.groups())
            return _outside(there, limits[0] if kind != MOST else 0.0, limits[-1] if kind != LEAST else float("inf"))
    return 1.0


def _outside(there: float, least: float, most: float) -> float:
    return max(least - there, there - most)


def _tolerance(breach: Breach) -> float:
    return MINUTES if breach.unit == "minutes" else PRINTED_TO if "." in breach.sentence else 1e-9


@pytest.mark.parametrize("case", [one for one in all_cases() if one.fails], ids=lambda c: f"{c.rule}: {c.name}")
def test_a_breach_weighs_what_its_sentence_tells(case: Case) -> None:
    for breach in case.breaches():
        assert breach.amount > 0
        assert breach.amount == pytest.approx(told(breach.sentence), abs=_tolerance(breach)), breach.sentence
