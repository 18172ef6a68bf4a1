"""What a card says to put on the bar adds up to the load it prints, out of plates that the gym has."""

from __future__ import annotations

import re
from collections import Counter
from itertools import combinations

import pytest

from planner.domain.block import Gym
from planner.prescription.iron import TOLERANCE_kg, build, loads, stamped_in
from planner.prescription.item_words import prescribe
from planner.prescription.ramp import ramp_line
from planner.units import POUND_kg

from .gyms import DEMOS, line_of, loads_of, pounds
from .invented_block import block, item, layout, with_session
from .reading import cards

LAYOUT = layout()
NUMBER = re.compile(r"\d+(?:\.\d+)?")
GYM_kg = Gym(bar_kg=20.0, plates_kg=(25.0, 20.0, 15.0, 10.0, 5.0, 2.5, 1.25), dumbbells_kg=(10.0, 12.5, 20.0))
GYM_lb = Gym(bar_kg=45 * POUND_kg, plates_kg=pounds(45, 45, 25, 10, 5, 2.5), dumbbells_kg=pounds(25, 30, 35))


def numbers(text: str) -> list[float]:
    return [float(found) for found in NUMBER.findall(text)]


@pytest.mark.parametrize("pound_gym", [False, True])
@pytest.mark.parametrize("demo", DEMOS)
def test_every_load_of_every_demo_is_built_of_what_the_gym_has(demo: str, pound_gym: bool) -> None:
    athlete, made = line_of(demo, pound_gym), loads_of(demo, pound_gym)
    assert made
    unit = POUND_kg if pound_gym else 1.0
    assert stamped_in(athlete) == ("lb" if pound_gym else "kg")
    for one in made:
        said = prescribe(one.item, athlete, LAYOUT)
        printed = sum(numbers(said.load))
        assert printed * unit == pytest.approx(one.load_kg, abs=0.06 * unit), one
        if one.item.implement == "barbell":
            bar = athlete.gym.bar_kg / unit
            plates = numbers(said.built)
            assert plates or said.built == LAYOUT.words.bar_alone
            assert bar + 2 * sum(plates) == pytest.approx(printed), (said.load, said.built)
            own = Counter(round(plate / unit, 3) for plate in athlete.gym.plates_kg)
            assert not Counter(round(plate, 3) for plate in plates) - own, "only pairs that the gym has"
            assert not plates or f"bar {bar:g} {athlete.mass_unit}" in said.details
        elif one.item.implement in ("dumbbell", "pair-of-dumbbells"):
            own_dumbbells = {round(mass / unit, 3) for mass in athlete.gym.dumbbells_kg}
            assert set(numbers(said.load)) <= own_dumbbells, said.load
            assert len(numbers(said.load)) == (2 if one.item.implement == "pair-of-dumbbells" else 1)


@pytest.mark.parametrize("gym", [(45, 45, 35, 25, 10, 5, 2.5), (45, 35, 25, 10, 5, 2.5), (45, 25, 10, 10, 5)])
def test_pounds_are_built_of_the_fewest_plates_too(gym: tuple[float, ...]) -> None:
    """Every sum by every choice of pairs, in pounds, where nothing is rounded."""
    fewest: dict[float, int] = {}
    for count in range(len(gym) + 1):
        for chosen in combinations(gym, count):
            fewest.setdefault(sum(chosen), count)
    bar = item("main-lift", "Back squat", 3, implement="barbell")
    there = loads(bar, Gym(bar_kg=45 * POUND_kg, plates_kg=pounds(*gym)))
    built = [(round((one.load_kg / POUND_kg - 45) / 2, 3), one.pieces) for one in there]
    assert sorted(built) == sorted(fewest.items()), "each load once, of the fewest plates"


@pytest.mark.parametrize("pound_gym", [False, True])
@pytest.mark.parametrize("demo", DEMOS)
def test_ramp_sets_are_loads_of_the_gym_and_rise_to_the_working_load(demo: str, pound_gym: bool) -> None:
    athlete, unit = line_of(demo, pound_gym), POUND_kg if pound_gym else 1.0
    lifts = [one for one in loads_of(demo, pound_gym) if one.item.part == "main-lift"]
    for one in lifts:
        makes = {round(built.load_kg / unit, 1) for built in loads(one.item, athlete.gym)}
        steps = [numbers(step) for step in ramp_line(one.item, athlete, LAYOUT).split(" · ") if step]
        said = [step[1] for step in steps]
        if one.item.implement in ("barbell", "dumbbell"):
            assert {round(load, 1) for load in said} <= makes
        assert said == sorted(set(said)) and all(load * unit < one.load_kg for load in said)
        if one.item.implement == "barbell":
            for step in steps:
                assert athlete.gym.bar_kg / unit + 2 * sum(step[2:]) == pytest.approx(step[1], abs=0.06)


def test_the_fewest_plates_are_taken_the_heaviest_first() -> None:
    squat = item("main-lift", "Back squat", 3, 5, implement="barbell")
    assert build(squat, GYM_kg, 90.0).plates_kg == (25.0, 10.0)  # not 20 + 15
    assert build(squat, GYM_kg, 20.0).plates_kg == ()
    assert build(squat, GYM_kg, 83.0) is None
    doubled = GYM_kg.model_copy(update={"plates_kg": (20.0, 20.0, 10.0)})
    assert build(squat, doubled, 100.0).plates_kg == (20.0, 20.0)
    assert build(squat, GYM_kg, 100.0).plates_kg == (25.0, 15.0), "one pair of each: never 20 twice"


def test_pounds_keep_to_the_tolerance_of_grams() -> None:
    squat = item("main-lift", "Back squat", 3, 5, implement="barbell")
    for built in loads(squat, GYM_lb):
        assert build(squat, GYM_lb, round(built.load_kg, 3)) == built
        assert abs(round(built.load_kg, 3) - built.load_kg) < TOLERANCE_kg < 0.25, "finer than any plate"


def lines(*, gym: Gym | None, unit: str = "kg", **lift: object) -> list[str]:
    made = with_session([item("main-lift", "Back squat", 3, 5, **lift)], mass_unit=unit)
    athlete = made.for_athlete.model_copy(update={"gym": gym})
    return cards(made.model_copy(update={"for_athlete": athlete}), LAYOUT, week=1).pages[0]


def test_plates_are_printed_under_the_load() -> None:
    page = lines(gym=GYM_kg, load_kg=82.5, implement="barbell", percent=80.0)
    assert page[page.index("82.5 kg") + 1] == "per side 25 + 5 + 1.25"


def test_pound_plates_for_an_athlete_who_reads_kg_say_both_units() -> None:
    page = lines(gym=GYM_lb, load_kg=135 * POUND_kg, implement="barbell")
    assert "61.23 kg" in page and "135 lb: per side 45 lb" in page


def test_two_dumbbells_are_two_and_the_note_is_not_said_again() -> None:
    page = lines(gym=GYM_kg, load_kg=40.0, implement="pair-of-dumbbells", note="two of half each")
    assert "20 + 20 kg" in page and not any("half each" in line.lower() for line in page)


def test_a_load_that_the_iron_does_not_make_names_the_nearest() -> None:
    page = lines(gym=GYM_kg, load_kg=83.0, implement="barbell")
    assert any(line == "nearest in this gym 82.5 kg" for line in page)


def test_without_a_bar_nothing_is_said_of_plates() -> None:
    for gym in (None, Gym(), Gym(dumbbells_kg=(10.0,))):
        page = lines(gym=gym, load_kg=80.0, implement="barbell")
        assert "80 kg" in page and not any("per side" in line or "nearest" in line for line in page)


def test_a_block_without_a_gym_still_prints() -> None:
    assert "main-lift" in {one.part for one in block(weeks=1).weeks[0].sessions[0].items}
    assert block(weeks=1).for_athlete.gym is None
    assert len(cards(block(weeks=1), LAYOUT, week=1).pages) == 4


@pytest.mark.parametrize(
    ("implement", "words"),
    [("barbell", ["load", "kg"]), ("pair-of-dumbbells", ["each hand", "kg"]), ("free", ["load or band"])],
)
def test_a_load_to_find_has_a_line_for_what_it_is(implement: str, words: list[str]) -> None:
    page = lines(gym=GYM_kg, implement=implement, reps_in_reserve=3, note="find the load that leaves 3")
    assert all(word in page for word in words)
    assert ("kg" in page) == ("kg" in words)


def test_a_load_to_find_on_the_bar_has_a_ramp_by_feel() -> None:
    page = " ".join(lines(gym=GYM_kg, implement="barbell", reps_in_reserve=3, note="find the load that leaves 3"))
    assert "5, 3, 2: easy on the way up to the load you find" in page


def test_light_lifts_have_fewer_ramp_sets() -> None:
    light = item("main-lift", "Goblet squat", 3, 8, load_kg=20.0, implement="dumbbell")
    athlete = block(weeks=1).for_athlete.model_copy(update={"gym": GYM_kg})
    assert ramp_line(light, athlete, LAYOUT) == "5 at 10 kg"


@pytest.mark.parametrize(("load_kg", "said"), [(4.0, ""), (5.0, ""), (8.0, "5 at 5 kg"), (12.0, "5 at 5 kg")])
def test_a_ramp_set_of_nothing_is_left_out(load_kg: float, said: str) -> None:
    """Half of 4 or 5 kg rounds to 0 in steps of 5 kg."""
    athlete = block(weeks=1).for_athlete.model_copy(update={"gym": None})
    assert ramp_line(item("main-lift", "Light lift", 3, 8, load_kg=load_kg), athlete, LAYOUT) == said
