"""Blocks made by the solver: every set, rep and load is on a card and no others are, and plates add up."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

import pytest

from planner.domain.block import Block
from planner.units import POUND_kg, YARD_m
from tests.made_once import made_once
from tests.solve.demos import inputs, solve_for, solved

from .gyms import POUND_GYM
from .invented_block import layout
from .reading import cards, work_on

LAYOUT = layout()
NUMBER = re.compile(r"\d+(?:\.\d+)?")
LAST_DIGIT = 0.06  # of a printed pound; a printed kilogram is exact to 0.005


@cache
def planned(demo: str, pound_gym: bool) -> Block:
    """The demo's block; in the gym with pounds, for an athlete who reads pounds and inches."""
    if not pound_gym:
        return solved(demo).block
    given = inputs(demo)
    own = given.athlete.equipment
    gym = {"plates": POUND_GYM.plates, "bar": POUND_GYM.bar} if own.bar is not None else {}
    printed = given.athlete.print_as.model_copy(update={"mass": "lb", "length": "in"})
    equipment = own.model_copy(update={**gym, "dumbbells": POUND_GYM.dumbbells})
    athlete = given.athlete.model_copy(update={"equipment": equipment, "print_as": printed})
    return made_once(f"{demo}-in-pounds", lambda: solve_for(replace(given, athlete=athlete)).block)


CASES = [
    ("in-season", False),
    ("youth", True),
    *(pytest.param("adult", unit, marks=pytest.mark.long) for unit in (False, True)),
]


@pytest.mark.parametrize(("demo", "pound_gym"), CASES)
@pytest.mark.parametrize("paper", ["a5", "letter"])
def test_every_set_rep_and_load_is_on_its_card_and_no_other(demo: str, pound_gym: bool, paper: str) -> None:
    made = planned(demo, pound_gym)
    for week in made.weeks:
        for number, session in enumerate(week.sessions, start=1):
            read = cards(made, LAYOUT, paper, week=week.number, session=number)
            work, loads = work_on([line for page in read.pages for line in page])
            done = [one for one in session.items if one.sets]
            assert [_figures(line) for line in work] == [_asked(one, pound_gym) for one in done], session.id
            assert [sum(map(float, NUMBER.findall(load))) for load in loads] == pytest.approx(
                [one.load_kg / (POUND_kg if pound_gym else 1) for one in done if one.load_kg], abs=LAST_DIGIT
            )
            _plates_add_up([line for page in read.pages for line in page], made)


def _figures(work: str) -> list[float]:
    return [float(number) for number in NUMBER.findall(work)]


def _asked(one, yards: bool) -> list[float]:  # type: ignore[no-untyped-def]
    """Sets, then reps, run (yards to the half) and seconds if the item has them; one sprint or hold is not printed."""
    reps = one.reps if not (one.reps == 1 and (one.distance_m or one.hold_s)) else None
    run = round(2 * one.distance_m / YARD_m) / 2 if yards and one.distance_m else one.distance_m
    return [one.sets, *(figure for figure in (reps, run, one.hold_s) if figure)]


def _plates_add_up(lines: list[str], made: Block) -> None:
    bar = (made.for_athlete.gym.bar_kg or 0.0) / (POUND_kg if made.for_athlete.mass_unit == "lb" else 1)
    for at, line in enumerate(lines):
        if line.startswith("per side"):
            plates = sum(map(float, NUMBER.findall(line)))
            assert bar + 2 * plates == pytest.approx(float(NUMBER.findall(lines[at - 1])[0]), abs=LAST_DIGIT), line


def test_plates_are_said_on_the_cards_of_a_gym_with_a_bar() -> None:
    made = planned("in-season", False)
    text = "\n".join(line for page in cards(made, LAYOUT, "a5").pages for line in page)
    built = [i for s in made.sessions for i in s.items if i.implement == "barbell" and i.load_kg]
    assert built and text.count("per side ") >= len(built)


def test_a_session_takes_one_card_or_two() -> None:
    for demo, pound_gym in (("in-season", False), ("youth", True)):
        made = planned(demo, pound_gym)
        for week in made.weeks:
            for number in range(1, len(week.sessions) + 1):
                assert len(cards(made, LAYOUT, "half-letter", week=week.number, session=number).pages) <= 2
