"""What a block may promise, as a range, and what a retest can show."""

import pytest

from planner.estimate.detectable_change import minimal_detectable_change
from planner.estimate.estimate_gap import estimate_gap
from planner.estimate.outlook import outlook_of, outlook_words, share_after
from planner.estimate.words import Words
from tests.estimate.people import jumper

hundredth = 0.01


def test_worked_jumper_takes_four_to_eight_blocks(benchmarks):
    """15 cm at a rise of 55 cm: groups gained 2.6 to 4.8 cm; 80 % of it after three years, so 4 to 8 blocks at best."""
    result = estimate_gap(jumper(), benchmarks)
    assert 100 * result.gap.outlook.low_m == pytest.approx(0.8 * 2.6, abs=0.05)
    assert 100 * result.gap.outlook.high_m == pytest.approx(0.8 * 4.8, abs=0.05)
    assert (result.gap.outlook.blocks_low, result.gap.outlook.blocks_high) == (4, 8)
    story = " ".join(result.gap.story)
    assert "about 4 to 8 blocks at best" in story
    assert "This block does not close it." in story


@pytest.mark.parametrize(
    ("wanted_m", "words"),
    [
        (0.0, "asks for none"),
        (-0.1, "asks for none"),
        (0.02, "none is promised"),
        (0.05, "does not close it"),
        (0.9, "more than 8 blocks"),
    ],
)
def test_no_promise_beyond_the_published_range(benchmarks, wanted_m, words):
    outlook = outlook_of(rise_now_m=0.55, gain_wanted_m=wanted_m, rule=benchmarks.outlook)
    assert words in outlook_words(outlook, wanted_m, benchmarks.outlook, Words())
    assert outlook.high_m <= 0.55 * 0.087 + 1e-9


def test_gains_are_those_published(benchmarks):
    """Markovic 2007 (BJSM 41:349): CMJ +8.7 %, with arms +7.5 %, SJ and drop jump +4.7 %."""
    assert [gain.percent for gain in benchmarks.outlook.gains] == [4.7, 7.5, 8.7]
    assert all("Markovic 2007" in gain.source for gain in benchmarks.outlook.gains)


def test_detectable_change_of_single_touches_and_of_means(benchmarks):
    """Typical error 2 cm: 5.5 cm for single jumps of one day; that a day differs from a day, by 1.5 cm, makes 7.0."""
    assert minimal_detectable_change(0.02, multiple=benchmarks.retest.multiple) == pytest.approx(0.0554, abs=0.0001)
    three = jumper([{"kind": "touch", "take_off": "one-leg left", "run_up": True, "trials": ["3.05 m"] * 3}])
    result = estimate_gap(three, benchmarks)
    single_m = (0.015**2 + 0.02**2 + 0.01**2 / 12) ** 0.5
    assert minimal_detectable_change(single_m, multiple=benchmarks.retest.multiple) == pytest.approx(0.070, abs=0.0005)
    day_m, trial_m = 0.015, (0.02**2 + 0.01**2 / 12) ** 0.5
    by_hand_m = 1.96 * (2 * (day_m**2 + trial_m**2 / 3)) ** 0.5
    assert result.gap.retest.minimal_detectable_change_m == pytest.approx(by_hand_m)
    ways = {(way.days, way.jumps): round(100 * way.detectable_m, 1) for way in result.gap.retest.ways}
    assert ways == {(1, 2): 5.7, (1, 5): 4.9, (2, 3): 3.7, (3, 3): 3.0}
    assert result.gap.retest.smallest_worthwhile_change_m == pytest.approx(0.015)


@pytest.mark.parametrize(("years", "share"), [(None, 1.0), (0.5, 1.0), (1, 1.0), (3, 0.8), (6, 0.6), (20, 0.4)])
def test_years_of_training_leave_a_smaller_share_of_the_published_gains(benchmarks, years, share):
    assert share_after(benchmarks.outlook, years) == share
    outlook = outlook_of(rise_now_m=0.5, gain_wanted_m=0.1, rule=benchmarks.outlook, share=share)
    assert outlook.high_m == pytest.approx(0.5 * 0.087 * share)
    said = outlook_words(outlook, 0.1, benchmarks.outlook, Words(), training_years=years)
    assert ("years of training" in said or "1 year of" in said) is (years is not None)


def test_benchmarks_of_an_earlier_release_expect_the_published_gains(benchmarks):
    older = benchmarks.outlook.model_copy(update={"by_training_years": ()})
    outlook = outlook_of(rise_now_m=0.5, gain_wanted_m=0.1, rule=older)
    assert share_after(older, 10) == 1.0
    assert "years" not in outlook_words(outlook, 0.1, older, Words(), training_years=10)
