"""Gyms in kg and lb for tests, and every load that a block of the shipped athletes can have in them."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from planner.domain.athlete import Equipment
from planner.domain.block import AthleteLine, Gym, Item
from planner.jobs.sources import Wanted, read_sources
from planner.problem.from_files import Inputs, estimate_and_problem
from planner.problem.loads import prescribe
from planner.problem.model import Problem
from planner.units import POUND_kg

ROOT = Path(__file__).parents[2]
DEMOS = ("adult-one-leg-jumper", "youth-two-leg-jumper", "in-season-player")


def pounds(*masses: float) -> tuple[float, ...]:
    return tuple(mass * POUND_kg for mass in masses)


POUND_GYM = Equipment(
    items=(),
).model_copy(
    update={
        "bar": 45 * POUND_kg,
        "plates": pounds(45, 45, 35, 25, 10, 10, 5, 2.5),
        "dumbbells": pounds(*range(5, 105, 5), 12.5, 17.5),
    }
)


@dataclass(frozen=True)
class Made:
    """A load that a block of the demo may have, as an item of a card."""

    item: Item
    load_kg: float


def inputs_of(demo: str) -> Inputs:
    return read_sources(Wanted(str(ROOT / f"templates/athletes/{demo}.yaml"))).inputs


@cache
def problem_of(demo: str, pound_gym: bool) -> Problem:
    inputs = inputs_of(demo)
    athlete = inputs.athlete
    if pound_gym:
        own = athlete.equipment
        lb = POUND_GYM.model_copy(update={"items": own.items, "runway": own.runway})
        lb = lb if own.bar is not None else lb.model_copy(update={"bar": None, "plates": ()})
        printed = athlete.print_as.model_copy(update={"mass": "lb", "length": "in"})
        athlete = athlete.model_copy(update={"equipment": lb, "print_as": printed})
    return estimate_and_problem(replace(inputs, athlete=athlete), datetime.date(2025, 9, 8))[1]


@cache
def loads_of(demo: str, pound_gym: bool) -> tuple[Made, ...]:
    """Every load of every movement, week and day that the solver may choose, each once."""
    problem, found = problem_of(demo, pound_gym), {}
    for entries in problem.entries.values():
        for entry in entries:
            load = prescribe(problem, entry.movement, entry.dosage, entry.week)
            if load.load_kg:
                item = Item(
                    id="w1s1i1",
                    part=entry.movement.part,
                    movement=entry.movement.id,
                    name=entry.movement.name,
                    side="both",
                    sets=3,
                    reps=5,
                    load_kg=load.load_kg,
                    percent=load.percent,
                    implement=entry.movement.dose.implement,
                    note=load.note,
                )
                found[item.movement, load.load_kg] = Made(item, load.load_kg)
    return tuple(found.values())


def line_of(demo: str, pound_gym: bool) -> AthleteLine:
    athlete = problem_of(demo, pound_gym).athlete
    gym = Gym(
        bar_kg=athlete.equipment.bar, plates_kg=athlete.equipment.plates, dumbbells_kg=athlete.equipment.dumbbells
    )
    return AthleteLine(
        name=athlete.name,
        level=athlete.level,
        take_off=athlete.take_off,
        target="",
        mass_unit=athlete.print_as.mass,
        length_unit=athlete.print_as.length,
        paper="a4",
        gym=gym,
    )
