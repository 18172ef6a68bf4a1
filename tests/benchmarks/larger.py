"""Larger material for the benchmarks: more movements, more weeks, more days than what is shipped, from a seed."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Mapping, Sequence
from typing import TypeVar

from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.template import DayPlan, Template

SEED = 20
DAYS_BEYOND = (  # of the eight-week template: what a fifth and a sixth training day hold
    (5, ("test-primer",)),
    (6, ("short-strength", "test-primer")),
)
Word = TypeVar("Word", bound=str)


def larger_library(library: Library, times: int) -> Library:
    """The library with distinct variants of every movement, so that it holds ``times`` as many."""
    draw = random.Random(SEED)
    movements, families = dict(library.movements), dict(library.families)
    for movement in library:
        known = {_tells_apart(movement)}
        for number in range(2, times + 1):
            variant = _variant(movement, number, draw)
            while _tells_apart(variant) in known:
                variant = _variant(movement, number, draw)
            known.add(_tells_apart(variant))
            movements[variant.id] = variant
            own = library.families[movement.id]
            families[variant.id] = draw.choice([own, f"{own}-variants"])
    return Library({name: movements[name] for name in sorted(movements)}, families, library.equipment)


def _variant(movement: Movement, number: int, draw: random.Random) -> Movement:
    """The same movement done a little otherwise: a lesser tag, a joint's stress, the time of a set and the rest."""
    dose = movement.dose
    times = {"set_time": float(round(dose.set_time * draw.uniform(0.8, 1.25)))}
    times["rest"] = float(5 * round(dose.rest * draw.uniform(0.8, 1.25) / 5))
    return movement.model_copy(
        update={
            "id": f"{movement.id}-{number}",
            "name": f"{movement.name}, variant {number}",
            "qualities": _shifted(movement.qualities, draw, at_most=2),
            "stress": _shifted(movement.stress, draw, at_most=3),
            "dose": dose.model_copy(update=times),
            "easier": None,
            "harder": None,
        }
    )


def _shifted(tags: Mapping[Word, int], draw: random.Random, at_most: int) -> dict[Word, int]:
    """One tag a step up or down, between 1 and ``at_most``; higher ones, the movement's main work, stay."""
    found = dict(tags)
    free = sorted(word for word, tag in tags.items() if 1 <= tag <= at_most)
    if free:
        word = draw.choice(free)
        found[word] = min(max(found[word] + draw.choice([-1, 0, 1]), 1), at_most)
    return found


def _tells_apart(movement: Movement) -> tuple[object, ...]:
    return str(movement.qualities), str(movement.stress), movement.dose.set_time, movement.dose.rest


def of_weeks(template: Template, numbers: Sequence[int]) -> Template:
    """The template with these of its weeks, in this order; a week that comes again is of a phase of its own."""
    seen: Counter[int] = Counter()
    weeks = []
    for number in numbers:
        plan = template.weeks[number - 1]
        weeks.append(plan.model_copy(update={"phase": plan.phase + "-again" * seen[number]}))
        seen[number] += 1
    levels = {
        name: level.model_copy(update={"weeks": tuple(level.weeks[n - 1] for n in numbers)})
        for name, level in template.levels.items()
    }
    schemes = {
        name: scheme.model_copy(update={"weeks": tuple(scheme.weeks[n - 1] for n in numbers)})
        for name, scheme in template.schemes.items()
    }
    reference = max(place for place, number in enumerate(numbers, start=1) if number == template.reference_week)
    changed = {"weeks": tuple(weeks), "levels": levels, "schemes": schemes, "reference_week": reference}
    return template.model_copy(update=changed)


def with_more_days(template: Template) -> Template:
    """The template with plans for five and six training days, after its plan for four."""
    four = next(plan for plan in template.day_plans if plan.days == 4 and "intermediate" in plan.levels)
    more = [
        DayPlan(
            days=count, levels=four.levels, factor=four.factor, shapes=four.shapes + added, test_week=four.test_week
        )
        for count, added in DAYS_BEYOND
    ]
    return template.model_copy(update={"day_plans": (*template.day_plans, *more)})
