"""A load of two dumbbells is that of both together, however it is typed; what may mean two things is refused."""

from __future__ import annotations

import pytest

from planner.domain.block import AthleteLine, Item
from planner.domain.training_log import LoggedItem
from planner.files.typed_loads import read_loads
from planner.files.typed_sets import item_text, read_item, touch_text
from planner.units import POUND_kg, Unreadable

STEP_UP = Item(
    id="w1s1i3", part="one-leg", movement="step-up", name="Step-up", side="each", sets=2, reps=8,
    implement="pair-of-dumbbells", reps_in_reserve=4,
)  # fmt: skip
SQUAT = STEP_UP.model_copy(update={"movement": "back-squat", "implement": "barbell"})
ROW = STEP_UP.model_copy(update={"movement": "row", "implement": "dumbbell"})


@pytest.mark.parametrize(
    "typed",
    ["20 lb each hand", "20 lb in each hand", "20 lb each", "20 lb a hand", "2 x 20 lb", "2×20 lb", "20 + 20 lb"],
)
def test_a_pair_is_both_together(typed: str) -> None:
    logged = read_item(f"{typed} x 8; 3 left", STEP_UP)
    assert logged.load == pytest.approx(40 * POUND_kg) and logged.reps == (8, 8) and logged.reps_in_reserve == (3,)
    assert read_item(item_text(logged, "lb"), STEP_UP) == logged
    assert read_item(typed, STEP_UP).load == pytest.approx(40 * POUND_kg)


def test_a_load_without_more_is_both_together_as_it_was() -> None:
    assert read_item("40 lb x 8", STEP_UP).load == pytest.approx(40 * POUND_kg)


def test_what_is_said_of_the_last_load_is_said_of_all() -> None:
    for typed in ("20, 25 lb each hand", "2 x 20, 2 x 25 lb", "20 + 20, 25 + 25 lb"):
        assert read_item(f"{typed} x 8, 8", STEP_UP).loads == pytest.approx((40 * POUND_kg, 50 * POUND_kg))
    assert read_item("20 + 20 x 8", STEP_UP, "lb").load == pytest.approx(40 * POUND_kg)


@pytest.mark.parametrize(
    ("item", "typed", "says"),
    [
        (STEP_UP, "20 + 20, 25 lb x 8, 8", "loads of one hand and of both"),
        (SQUAT, "20 lb each hand x 8", "not lifted with two dumbbells"),
        (ROW, "20 + 20 lb x 8", "not lifted with two dumbbells"),
        (SQUAT, "2 x 185 lb x 6", "'x' is not a unit of mass"),  # two sets, or twice the load
        (STEP_UP, "front-squat: 2 x 185 lb x 6", "'x' is not a unit of mass"),
    ],
)
def test_what_may_mean_two_things_is_refused(item: Item, typed: str, says: str) -> None:
    with pytest.raises(Unreadable, match=says):
        read_item(typed, item)


def test_another_movement_is_told_with_its_own_load() -> None:
    assert read_item("front-squat: 20 + 20 lb x 6", SQUAT).load == pytest.approx(40 * POUND_kg)
    assert read_item("front-squat: 185 lb x 6", STEP_UP).load == pytest.approx(185 * POUND_kg)


@pytest.mark.parametrize(
    ("typed", "write"),
    [
        ("185 lb 6 6 6 4 left", "write 185 lb x 6, 6, 6; 4 left"),
        ("102.5 kg 6, 5, 5", "write 102.5 kg x 6, 5, 5"),
    ],
)
def test_load_and_reps_run_together_are_told_apart(typed: str, write: str) -> None:
    with pytest.raises(Unreadable, match=write):
        read_item(typed, SQUAT)
    assert read_item(write.removeprefix("write "), SQUAT).load is not None


def test_the_echo_says_what_was_in_each_hand() -> None:
    from planner.report.log_text import in_each_hand

    athlete = AthleteLine.model_construct(mass_unit="lb", length_unit="in")
    logged = LoggedItem.model_construct(item="w1s1i3", load=20 * POUND_kg, reps=(8,))
    assert in_each_hand(logged, STEP_UP, athlete) == " (10 lb in each hand)"
    assert in_each_hand(logged, SQUAT, athlete) == in_each_hand(logged, ROW, athlete) == ""


def test_loads_of_which_one_is_in_each_hand_are_refused_for_what_is_lifted_with_one() -> None:
    with pytest.raises(Unreadable, match="is not lifted with two dumbbells"):
        read_loads("20 + 20, 40 kg", None, in_both_hands=False)
    with pytest.raises(Unreadable, match="of one hand and of both"):
        read_loads("20 + 20, 40 kg", None, in_both_hands=True)


@pytest.mark.parametrize(
    ("touch_m", "unit", "said"),
    [
        (117 * 0.0254, "in", "117 in"),
        (117 * 0.0254, "cm", "2.972 m"),  # 2.9718
        (2.97, "in", "2.97 m"),  # no quarter of an inch, nor a hundredth
        (2.97, "cm", "2.97 m"),
        (2.975, "cm", "2.975 m"),
    ],
)
def test_a_touch_is_told_as_it_was_measured(touch_m: float, unit: str, said: str) -> None:
    assert touch_text(touch_m, unit) == said
