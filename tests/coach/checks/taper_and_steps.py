"""Steps from week to week: no movement grows into the taper, and no one-leg lift by ten kilograms at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

from planner.domain.block import Week
from planner.domain.movement import Movement
from tests.coach.block_read import Line, Read
from tests.coach.checking import Break, at, check

EASY_percent = 80
ONE_LEG_STEP_kg = 10.0  # in one week


def _contacts(read: Read, week: Week) -> Counter[str]:
    found: Counter[str] = Counter()
    for line in read.of(week):
        found[line.movement.id] += line.item.contacts
    return found


def _is_warm_up(movement: Movement) -> bool:
    """Run-up jumps well below the maximum: as many before each day that needs them."""
    return (
        movement.part == "approach-jump" and movement.jump is not None and movement.jump.effort_percent < EASY_percent
    )


def _tapers(read: Read) -> bool:
    return len(read.block.weeks) > 1 and read.block.weeks[-1].role == "taper"


@check("should", "a movement with more contacts in the taper than the week before", to=_tapers)
def no_jump_grows_in_the_taper(read: Read) -> Iterator[Break]:
    for before, after in pairwise(read.block.weeks):
        if after.role != "taper":
            continue
        was = _contacts(read, before)
        for movement, count in _contacts(read, after).items():
            if was[movement] and count > was[movement] and not _is_warm_up(read.library[movement]):
                yield Break(
                    f"{was[movement]} contacts the week before, {count} in the taper", after.number, None, movement
                )


def _is_one_leg(line: Line) -> bool:
    return line.item.part == "one-leg" and line.is_lift and line.item.load_kg is not None


def _next_in_the_gym(read: Read, line: Line, was_kg: float) -> bool:
    """Whether the gym has nothing between: the next pair of dumbbells may be ten kilograms on."""
    pair = 2 if line.item.implement == "pair-of-dumbbells" else 1
    if line.item.implement not in ("dumbbell", "pair-of-dumbbells"):
        return False
    between = [kg for kg in read.athlete.equipment.dumbbells if was_kg < pair * kg < (line.item.load_kg or 0)]
    return not between


@check("should", "a one-leg lift up by 10 kg in a week", to=lambda read: any(read.where(_is_one_leg)))
def one_leg_load_steps_are_small(read: Read) -> Iterator[Break]:
    for phase in read.load_phases:
        for before, after in pairwise(phase):
            was = {line.movement.id: line.item.load_kg or 0.0 for line in read.of(before) if _is_one_leg(line)}
            for line in filter(_is_one_leg, read.of(after)):
                old_kg = was.get(line.movement.id)
                if (
                    old_kg
                    and (line.item.load_kg or 0) - old_kg >= ONE_LEG_STEP_kg
                    and not _next_in_the_gym(read, line, old_kg)
                ):
                    yield at(line, f"{old_kg:g} kg becomes {line.item.load_kg:g} kg in a week")
