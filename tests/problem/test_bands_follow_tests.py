"""From a test through deficit, tilt and emphasis to the bands: a worse test never asks for less of its quality."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.domain.terms import LIFT_QUALITIES, QUALITIES, Quality
from planner.estimate.emphasis import strong_and_sure, tilts
from planner.problem.from_files import estimate_and_problem
from planner.problem.model import Range, WeekBands
from planner.problem.week_bands import start_limits, week_bands
from tests.independence.drawn import plain
from tests.problem.test_bands import MUCH_RECENT, budget
from tests.solve.demos import inputs, shipped_benchmarks

DEFICITS = st.fixed_dictionaries({quality: st.floats(-0.5, 0.6) for quality in QUALITIES})
CONFIDENCES = st.fixed_dictionaries({quality: st.floats(0.0, 1.0) for quality in QUALITIES})
WHOLE_CHAINS = 6  # drawn tests that go all the way from the file; a chain takes a tenth of a second


def _bands(deficits: Mapping[Quality, float], confidences: Mapping[Quality, float]) -> dict[int, WeekBands]:
    rule = shipped_benchmarks().emphasis
    sure = strong_and_sure(deficit=deficits["maximal-strength"], confidence=confidences["maximal-strength"], rule=rule)
    found = tilts(deficits=deficits, confidences=confidences, rule=rule)
    given_ = replace(budget(recent=MUCH_RECENT), tilts=found, strong_and_sure=sure)
    return week_bands(given_, start_limits(given_))


def _own(bands: WeekBands, quality: Quality) -> list[Range]:
    """What a quality is trained by: its working sets, or sprints and high-tier jumps."""
    if quality in LIFT_QUALITIES:
        return [bands.quarter_sets[quality]]
    return [bands.sprints, bands.tiers["high"]]


def _never_less(before: Mapping[int, WeekBands], after: Mapping[int, WeekBands], quality: Quality) -> None:
    for week, bands in before.items():
        for old, new in zip(_own(bands, quality), _own(after[week], quality), strict=True):
            assert new.low >= old.low and new.high >= old.high, (week, old, new)


@pytest.mark.parametrize("quality", QUALITIES)
@settings(deadline=None)  # a busy machine is no fault of the bands
@given(deficits=DEFICITS, confidences=CONFIDENCES, more=st.floats(0.0, 0.6))
def test_no_limit_falls_when_the_deficit_rises(
    quality: Quality, deficits: dict[Quality, float], confidences: dict[Quality, float], more: float
) -> None:
    """Exactly, in whole counting units, through clamp, dead zone, maintenance, growth, deload, taper and rounding."""
    raised = {**deficits, quality: deficits[quality] + more}
    _never_less(_bands(deficits, confidences), _bands(raised, confidences), quality)


@pytest.mark.parametrize("quality", QUALITIES)
def test_a_large_sure_deficit_raises_its_own_band_somewhere(quality: Quality) -> None:
    """Never less would also be true of bands that nothing moves."""
    sure, none = dict.fromkeys(QUALITIES, 1.0), dict.fromkeys(QUALITIES, 0.0)
    before, after = _bands(none, sure), _bands({**none, quality: 0.2}, sure)
    assert any(_own(after[week], quality)[0].low > _own(before[week], quality)[0].low for week in before)


def _lift(movement: str) -> Callable[[dict[str, Any], float], None]:
    def change(test: dict[str, Any], share: float) -> None:
        if test.get("movement") == movement:
            test["load"] = f"{share * float(test['load'].split()[0]):.1f} kg"

    return change


def _slower_drop_jump(test: dict[str, Any], share: float) -> None:
    if test["kind"] == "drop-jump":
        for trial in test["trials"]:
            trial["flight"] = f"{share * float(trial['flight'].split()[0]):.4f} s"


# What each quality is tested by in the adult demo, and how a share of the result is written there.
TESTED: dict[Quality, Callable[[dict[str, Any], float], None]] = {
    "maximal-strength": _lift("back-squat"),
    "unilateral-hip": _lift("rear-foot-split-squat"),
    "knee-dominant": _lift("heel-raised-one-leg-squat"),
    "calf-ankle": _lift("loaded-one-leg-calf-raise"),
    "speed-exposure": _slower_drop_jump,
}


@pytest.mark.parametrize("quality", QUALITIES)
@settings(max_examples=WHOLE_CHAINS, deadline=None)
@given(shares=st.tuples(st.floats(0.6, 1.2), st.floats(0.6, 1.2)))
def test_a_worse_test_never_asks_for_less_of_its_quality(quality: Quality, shares: tuple[float, float]) -> None:
    worse, better = sorted(shares)
    _never_less(_planned(quality, better), _planned(quality, worse), quality)


def _planned(quality: Quality, share: float) -> dict[int, WeekBands]:
    """The bands of the adult demo whose test of this quality came out at a share of what it did."""
    tests = plain("adult-one-leg-jumper")["tests"]
    for test in tests:  # type: ignore[attr-defined]
        TESTED[quality](test, share)
    return estimate_and_problem(inputs("adult", {"tests": tests}))[1].bands
