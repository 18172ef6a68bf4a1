"""What a sure deficit moves, and what a surplus in every lift quality frees: worked by hand."""

from __future__ import annotations

import pytest

from planner.domain.emphasis_rule import EmphasisRule, SureRule
from planner.domain.terms import LIFT_QUALITIES, Quality
from planner.estimate.emphasis import NOTHING_FREED, emphasised_sets, freed_by_surplus, tilt, tilts

RULE = EmphasisRule(
    gain=4,
    lift_range=(0.5, 1.6),
    speed_range=(0.8, 1.25),
    dead_zone=0.02,
    strong_and_sure=-0.08,
    surplus_least_sum=0.75,
    sure=SureRule(errors=2, least_tilt=1.4, unsure_most=1.1, source="made up"),
    source="made up",
)


def _tilt(deficit: float, se: float | None, quality: Quality = "calf-ankle", rule: EmphasisRule = RULE) -> float:
    return tilt(quality, deficit=deficit, confidence=0.5, rule=rule, deficit_se=se)


def test_a_deficit_inside_its_error_moves_little_and_a_sure_one_much() -> None:
    """Of 20 % at a confidence of 0.5 the gain alone makes 1.4."""
    assert _tilt(0.2, None) == pytest.approx(1.4)
    assert _tilt(0.2, 0.25) == pytest.approx(1.1)  # inside one error
    assert _tilt(0.1, 0.05) == pytest.approx(1.4)  # two errors: 1.2 by the gain
    assert _tilt(0.4, 0.05) == pytest.approx(1.6)  # 1.8 by the gain
    assert _tilt(0.4, 0.0) == pytest.approx(1.6)


def test_from_one_error_to_two_the_tilt_rises_evenly() -> None:
    """Half way the share is at least 1.2 and at most 1.35."""
    assert _tilt(0.06, 0.04) == pytest.approx(1.2)  # 1.12 by the gain
    assert _tilt(0.3, 0.2) == pytest.approx(1.35)  # 1.6 by the gain
    steps = [_tilt(0.1, 0.1 / errors) for errors in (1.0, 1.25, 1.5, 1.75, 2.0)]
    assert steps == sorted(steps) and steps[0] == pytest.approx(1.1) and steps[-1] == pytest.approx(1.4)


def test_dead_zone_surplus_and_speed_are_left_alone() -> None:
    assert _tilt(0.03, 0.001) == 1.0
    assert _tilt(-0.1, 0.01) == pytest.approx(0.8)
    assert _tilt(0.2, 0.5, "speed-exposure") == 1.25
    assert _tilt(0.2, 0.25, rule=RULE.model_copy(update={"sure": None})) == pytest.approx(1.4)


def _freed(least_sum: float | None = 0.75, speed: float = 0.0, **changes: float) -> tuple[float, float, float]:
    """All lifts 8 % over, at a confidence of 0.5: each tilt is 0.84."""
    deficits = {**dict.fromkeys(LIFT_QUALITIES, -0.08), "speed-exposure": speed, **changes}
    confidences = dict.fromkeys((*LIFT_QUALITIES, "speed-exposure"), 0.5)
    rule = RULE.model_copy(update={"surplus_least_sum": least_sum})
    found = freed_by_surplus(deficits=deficits, confidences=confidences, rule=rule)  # type: ignore[arg-type]
    return found.lifts, found.fast, found.medium


def test_a_surplus_in_every_lift_frees_the_time_for_speed_and_jumps() -> None:
    assert _freed() == pytest.approx((0.84, 1.16, 1.16))
    assert _freed(**{"calf-ankle": -0.28}) == pytest.approx((0.755, 1.245, 1.245))  # 0.5 of one, the range's end
    assert _freed(**dict.fromkeys(LIFT_QUALITIES, -0.2)) == pytest.approx((0.75, 1.25, 1.25))  # each tilt is 0.6
    assert _freed(least_sum=0.9) == pytest.approx((0.9, 1.1, 1.1))


def test_fast_work_grows_to_the_end_of_its_range() -> None:
    """A speed deficit has it at 1.2 already: 1.25 is a share of 1.0417 more; at 1.25 nothing is left."""
    assert _freed(speed=0.1) == pytest.approx((0.84, 1.25 / 1.2, 1.16))
    assert _freed(speed=0.3) == pytest.approx((0.84, 1.0, 1.16))


def test_nothing_is_freed_by_three_of_four_or_without_the_figure() -> None:
    nothing = (NOTHING_FREED.lifts, NOTHING_FREED.fast, NOTHING_FREED.medium)
    assert _freed(**{"unilateral-hip": 0.0}) == nothing  # untested, or just enough
    assert _freed(**{"unilateral-hip": -0.03}) == nothing  # inside the dead zone
    assert _freed(least_sum=None) == nothing


def test_the_sum_of_sets_falls_with_the_share() -> None:
    base = dict.fromkeys(LIFT_QUALITIES, 8.0)
    found = tilts(deficits={"calf-ankle": -0.2}, confidences={"calf-ankle": 0.5}, rule=RULE)
    sets = emphasised_sets(base, found, 0.75)
    assert sum(sets.values()) == pytest.approx(24)
    assert sets["calf-ankle"] == pytest.approx(24 * 0.6 / 3.6)


def test_a_deficit_inside_its_error_takes_nothing_from_a_sure_one() -> None:
    base, found = dict.fromkeys(LIFT_QUALITIES, 8.0), dict.fromkeys(LIFT_QUALITIES, 1.0)
    found |= {"maximal-strength": 1.4, "calf-ankle": 1.1}
    sets = emphasised_sets(base, found, surely_short=("maximal-strength",))
    assert sum(sets.values()) == pytest.approx(32)
    assert sets["maximal-strength"] == pytest.approx(32 * 1.4 / 4.4)  # as if the calf were not short
    assert sets["calf-ankle"] == pytest.approx(1.1 * sets["knee-dominant"])
    both = emphasised_sets(base, found, surely_short=("maximal-strength", "calf-ankle"))
    assert both == pytest.approx(emphasised_sets(base, found))


def test_a_surplus_still_gives_its_share_to_a_sure_deficit() -> None:
    base, found = dict.fromkeys(LIFT_QUALITIES, 8.0), dict.fromkeys(LIFT_QUALITIES, 1.0)
    found |= {"maximal-strength": 1.4, "calf-ankle": 0.6}
    assert emphasised_sets(base, found, surely_short=("maximal-strength",)) == pytest.approx(
        emphasised_sets(base, found)
    )
