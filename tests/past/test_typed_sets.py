"""What a coach types of an item or a joint: read as meant, refused where it could mean two things, and read back."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.domain.block import Item
from planner.domain.terms import JOINTS
from planner.domain.training_log import LoggedItem, LoggedPain
from planner.files.typed_sets import item_text, load_text, pain_text, read_item, read_pain
from planner.units import POUND_kg, Unreadable, parse_quantity

SQUAT = Item(
    id="w1s1i6", part="main-lift", movement="back-squat", name="Back squat", side="both", sets=4, reps=6,
    load_kg=107.5, implement="barbell", reps_in_reserve=4,
)  # fmt: skip
HOPS = Item(
    id="w1s1i2", part="jump", movement="hops", name="Hops", side="both", sets=3, reps=5, tier="low", contacts=15
)

READ: dict[str, dict[str, Any]] = {
    "110 kg x 6, 6, 5; 2 left": {"load": 110.0, "reps": (6, 6, 5), "reps_in_reserve": (2,)},
    "110 kg × 6,6,5 ; 3, 2, 1 left": {"load": 110.0, "reps": (6, 6, 5), "reps_in_reserve": (3, 2, 1)},
    "110 kg x 6": {"load": 110.0, "reps": (6, 6, 6, 6)},  # every set of the card
    "110 kg x 6; 1 set": {"load": 110.0, "reps": (6,)},
    "110, 110, 105 kg x 6, 6, 5": {"loads": (110.0, 110.0, 105.0), "reps": (6, 6, 5)},
    "245 lb x 6, 6": {"load": parse_quantity("245 lb", "mass"), "reps": (6, 6)},
    "5, 5": {"reps": (5, 5)},
    "2 sets; why landings got loud": {"sets": 2, "why": "landings got loud"},
    "none": {"sets": 0},
    "skipped; because the hall closed": {"sets": 0, "why": "the hall closed"},
    "3.10 m, 3.12 m": {"touches": (3.10, 3.12)},
    "3.10, 3.12 m": {"touches": (3.10, 3.12)},
    "122 in": {"touches": (parse_quantity("122 in", "length"),)},
    "front-squat: 90 kg x 6, 6": {"movement": "front-squat", "load": 90.0, "reps": (6, 6)},
    "100 kg": {"load": 100.0},
    "110 kgs x 6; 2 reps in reserve": {"load": 110.0, "reps": (6, 6, 6, 6), "reps_in_reserve": (2,)},
}  # fmt: skip
REFUSED = {
    "": "nothing to write down",
    "110 x 6": "110 has no unit",
    "102,5 kg x 6": "comma between digits",
    "3,10 m": "comma between digits",
    "hello": "not sets, reps, a load or touches",
    "110 kg x 6; 110 kg x 5": "a second time",
    "1100 kg x 6": "1100 kg is more than anybody does",
    "110 kg x 600": "600 reps",
    "310 m": "a touch is a height",
}


@pytest.mark.parametrize("text", READ)
def test_an_item_is_read(text: str) -> None:
    assert read_item(text, SQUAT) == LoggedItem.model_construct(item="w1s1i6", **READ[text])


@pytest.mark.parametrize("text", REFUSED)
def test_an_item_is_refused_with_what_to_type(text: str) -> None:
    with pytest.raises(Unreadable) as refusal:
        read_item(text, SQUAT)
    assert REFUSED[text] in str(refusal.value)


def test_a_bare_load_takes_the_unit_that_was_asked_in() -> None:
    assert read_item("110 x 6, 6, 5; 2 left", SQUAT, "kg").load == 110.0
    assert read_item("245 x 6", SQUAT, "lb").load == pytest.approx(245 * POUND_kg)


def test_sets_times_reps_where_nothing_is_lifted() -> None:
    assert read_item("2 x 4", HOPS).reps == (4, 4)
    with pytest.raises(Unreadable, match="110 sets"):
        read_item("110 x 6", HOPS)


_loads = st.integers(1, 2400).map(lambda quarter: quarter / 4)
_items = st.fixed_dictionaries(
    {
        "load": st.one_of(st.none(), _loads, st.integers(1, 1000).map(lambda lb: lb * POUND_kg)),
        "reps": st.lists(st.integers(0, 30), min_size=2, max_size=8).map(tuple),
        "reps_in_reserve": st.lists(st.integers(0, 10), max_size=8).map(tuple),
        "why": st.one_of(st.none(), st.sampled_from(["landings got loud", "the hall closed at 8"])),
        "touches": st.lists(st.integers(1400, 4500).map(lambda mm: mm / 1000), max_size=4).map(tuple),
    }
)


@given(_items, st.sampled_from(["kg", "lb"]), st.sampled_from(["cm", "in"]))
def test_what_is_written_is_read_back(values: dict[str, Any], mass: str, length: str) -> None:
    logged = LoggedItem.model_construct(item="w1s1i6", **values)
    again = read_item(item_text(logged, mass, length), SQUAT)
    assert again.model_dump(exclude={"load"}) == logged.model_dump(exclude={"load"})
    assert again.load == pytest.approx(logged.load) if logged.load is not None else again.load is None


def test_a_load_is_written_as_it_was_typed() -> None:
    assert load_text(107.5, "kg") == "107.5 kg" and load_text(107.5, "lb") == "107.5 kg"
    assert load_text(245 * POUND_kg, "lb") == "245 lb"


PAINS = {
    "left patellar-knee 1 3 2": ("patellar-knee", "left", 1, 3, 2),
    "right achilles 0 2": ("achilles-ankle", "right", 0, 2, None),
    "low-back - 4": ("low-back", None, None, 4, None),
    "left knee 1, 3": ("patellar-knee", "left", 1, 3, None),
}


@pytest.mark.parametrize("text", PAINS)
def test_pain_is_read(text: str) -> None:
    joint, side, before, worst, after = PAINS[text]
    read = read_pain(text)
    assert (read.joint, read.side, read.before, read.worst, read.next_morning) == (joint, side, before, worst, after)


def test_pain_of_the_morning_and_signs() -> None:
    read = read_pain("left knee 2 swelling", morning=True)
    assert (read.before, read.next_morning, read.signs) == (None, 2, ("swelling",))


@pytest.mark.parametrize("text", ["left", "left elbow 3", "left knee", "left knee 11", "left knee 1 2 3 4", "knee x"])
def test_pain_is_refused(text: str) -> None:
    with pytest.raises(Unreadable):
        read_pain(text)


@given(
    st.sampled_from(JOINTS),
    st.sampled_from([None, "left", "right"]),
    st.lists(st.integers(0, 10), min_size=1, max_size=3),
)
def test_pain_is_read_back(joint: Any, side: Any, figures: list[int]) -> None:
    before, worst, after = [*figures, None, None][:3]
    pain = LoggedPain(joint=joint, side=side, before=before, worst=worst, next_morning=after)
    assert read_pain(pain_text(pain)) == pain
