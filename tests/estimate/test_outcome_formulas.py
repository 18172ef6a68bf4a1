"""What is believed of a seen change, the line through jump days and the table of what to do next: worked cases."""

from __future__ import annotations

import itertools
import math
from types import SimpleNamespace
from typing import Any

import pytest

from planner.estimate.belief import believe, chance_words, verdict_on
from planner.estimate.day_line import change_over, slope_weights
from planner.estimate.detectable_change import worthwhile_m
from planner.estimate.retest_change import reading_step_m
from planner.estimate.uncertainty import Estimate
from planner.estimate.what_next import row_of
from planner.files.load import load_benchmarks, load_follow_up
from planner.files.locate import locate_benchmarks, locate_follow_up

LOADED = load_follow_up(locate_follow_up().path).require().outcome
assert LOADED is not None
RULE = LOADED
USUAL = Estimate(RULE.jump.gain["intermediate"], RULE.jump.spread)
WORTH_m = worthwhile_m(load_benchmarks(locate_benchmarks().path).require().retest)
TENTH_OF_A_cm = 0.0005  # as printed, to 0.1 cm


@pytest.mark.parametrize(
    ("seen_cm", "believed_cm", "low_cm", "high_cm", "chance", "words"),
    [(3.0, 3.0, 0.2, 5.7, 0.81, "likely"), (0.0, 1.3, -1.5, 4.0, 0.44, "cannot tell")],
)
def test_the_worked_lines_of_a_seen_change(seen_cm, believed_cm, low_cm, high_cm, chance, words) -> None:
    """A usual gain of 2.9 +- 2.5 cm and an error of 2.2 cm. The ends of the second interval are worked by hand."""
    found = verdict_on(Estimate(seen_cm / 100, 0.022), USUAL, WORTH_m, RULE)
    assert found.believed.value == pytest.approx(believed_cm / 100, abs=TENTH_OF_A_cm)
    assert found.interval == pytest.approx((low_cm / 100, high_cm / 100), abs=2 * TENTH_OF_A_cm)
    assert found.chance == pytest.approx(chance, abs=0.005)
    assert found.words == words


def test_it_worked_needs_both_conditions() -> None:
    def worked(seen_cm: float, se_cm: float) -> bool:
        return verdict_on(Estimate(seen_cm / 100, se_cm / 100), USUAL, 0.015, RULE).worked

    assert worked(3.0, 2.2)  # 3.0 - 1.28 x 2.2 = 0.2 is above 0, chance 0.81
    assert not worked(2.8, 2.2)  # likely all the same, but 2.8 - 1.28 x 2.2 < 0
    assert not worked(1.4, 0.3)  # above 0 for sure, and too small to matter
    assert worked(2.0, 0.3)


def test_a_change_read_to_the_centimetre_is_half_a_step_less_sure() -> None:
    """5 cm with an error of 3.6 is 0.39 cm above 0 at 80 %; read to whole centimetres it may be 4.5."""
    exact = verdict_on(Estimate(0.05, 0.036), USUAL, WORTH_m, RULE)
    read = verdict_on(Estimate(0.05, 0.036), USUAL, WORTH_m, RULE, step=0.01)
    assert exact.worked and not read.worked
    assert exact.bare[0] == pytest.approx(0.05 - 1.2816 * 0.036, abs=1e-5)
    assert read.bare == pytest.approx((exact.bare[0] - 0.005, exact.bare[1] + 0.005))
    assert read.believed == exact.believed and read.chance == exact.chance


def test_how_finely_a_change_is_read() -> None:
    """Whole centimetres: of single touches as they are, of two or more halves, of days a share; of times nothing."""
    benchmarks = load_benchmarks(locate_benchmarks().path).require()

    def tested(*trials: int, kind: str = "touch") -> Any:
        return SimpleNamespace(heights=[SimpleNamespace(kind=kind, trials=number) for number in trials])

    assert reading_step_m(tested(1), tested(1), benchmarks) == pytest.approx(0.01)
    assert reading_step_m(tested(3), tested(5), benchmarks) == pytest.approx(0.005)
    assert reading_step_m(tested(3), tested(3, 3), benchmarks) == pytest.approx(0.005)
    assert reading_step_m(tested(3, 3), tested(3, 1), benchmarks) == pytest.approx(0.005)
    assert reading_step_m(tested(3, kind="flight-time"), tested(3, kind="flight-time"), benchmarks) == 0.0


@pytest.mark.parametrize(
    ("chance", "words"),
    [(0.95, "almost surely"), (0.94, "likely"), (0.75, "likely"), (0.74, "cannot tell"), (0.25, "cannot tell")],
)
def test_words_of_a_chance(chance: float, words: str) -> None:
    assert chance_words(chance, RULE) == words
    assert chance_words(0.24, RULE) == "unlikely"


def test_a_sure_change_is_believed_as_seen_and_an_unsure_one_hardly() -> None:
    assert believe(Estimate(0.06, 1e-6), USUAL).value == pytest.approx(0.06, abs=1e-6)
    unsure = believe(Estimate(0.06, 10.0), USUAL)
    assert (unsure.value, unsure.se) == pytest.approx((USUAL.value, USUAL.se), rel=1e-3)


@pytest.mark.parametrize("weeks", [2, 4, 8])
def test_a_line_through_equal_weeks_has_the_stated_error(weeks: int) -> None:
    days = [Estimate(3.0 + 0.004 * week, 0.02) for week in range(weeks)]
    change = change_over(range(weeks), days, weeks - 1)
    assert change.value == pytest.approx(0.004 * (weeks - 1))
    assert change.se == pytest.approx(0.02 * math.sqrt(12 * (weeks - 1) / (weeks * (weeks + 1))))


def test_an_offset_drops_out_and_a_sure_day_counts_more() -> None:
    times = [0.0, 1.0, 2.0]
    errors = [1.0, 1.0, 0.1]
    assert sum(slope_weights(times, errors)) == pytest.approx(0.0, abs=1e-12)
    near = change_over(times, [Estimate(v, e) for v, e in zip((0.0, 9.0, 2.0), errors, strict=True)], 2.0)
    far = change_over(times, [Estimate(v, e) for v, e in zip((0.0, 2.0, 9.0), errors, strict=True)], 2.0)
    assert far.value > near.value
    with pytest.raises(ValueError, match="two times"):
        slope_weights([3.0, 3.0], [1.0, 1.0])


def test_every_row_of_the_table() -> None:
    rows = {
        (strength, jump, done): row_of(strength_up=strength, jump_up=jump, share_done=done, least_done=0.8, sore=False)
        for strength, jump, done in itertools.product((True, False), (True, False), (0.8, 0.79, None))
    }
    assert {rows[True, True, done] for done in (0.8, 0.79, None)} == {"both-up"}
    assert {rows[True, False, done] for done in (0.8, 0.79, None)} == {"strength-up"}
    assert {rows[False, True, done] for done in (0.8, 0.79, None)} == {"jump-up"}
    assert [rows[False, False, done] for done in (0.8, 0.79, None)] == [
        "neither-done",
        "neither-not-done",
        "neither-unknown",
    ]
    assert row_of(strength_up=True, jump_up=True, share_done=1.0, least_done=0.8, sore=True) == "sore-joint"
