"""The lighter sets before the first main lift, each with a load that the gym can build, and build quickly."""

from __future__ import annotations

from planner.domain.block import AthleteLine, Item
from planner.domain.card_layout import CardLayout
from planner.prescription.iron import Built, loads
from planner.prescription.iron_words import plates, stamped_mass
from planner.prescription.item_words import is_to_find, mass


def ramp_line(item: Item, athlete: AthleteLine, layout: CardLayout) -> str:
    """``5 at 50 kg (15) · 3 at 75 kg (25 + 2.5)``, with the plates on one side in brackets.

    A step that reaches the working load, or is no heavier than the step before, is left out. Where the athlete finds
    the working load, only the repetitions on the way up are named. Empty for body weight.
    """
    words = layout.words
    if is_to_find(item, layout):
        reps = ", ".join(str(ramp.reps) for ramp in layout.ramp.sets)
        return f"{reps}: {words.ramp_by_feel}" if reps and item.implement != "free" else ""
    if not item.load_kg:
        return ""
    said, last_kg = [], 0.0
    for ramp in layout.ramp.sets:
        if item.load_kg < (ramp.only_from or 0.0):
            continue
        step = _quickly_built(item, item.load_kg * ramp.share, athlete, layout)
        if step is None and not loads(item, athlete.gym):
            step = Built(_rounded(item.load_kg * ramp.share, athlete, layout))
        if step is not None and last_kg < step.load_kg < item.load_kg * 0.99:
            said.append(f"{ramp.reps} {words.at} {_step_in_words(step, athlete, layout)}")
            last_kg = step.load_kg
    return " · ".join(said)


def _quickly_built(item: Item, wanted_kg: float, athlete: AthleteLine, layout: CardLayout) -> Built | None:
    """The load near ``wanted_kg`` with the fewest plates: a warm-up set is not worth four plates a side."""
    makes = loads(item, athlete.gym)
    room_kg = layout.ramp.near * (item.load_kg or 0.0)
    near = [one for one in makes if abs(one.load_kg - wanted_kg) <= room_kg]
    if near:
        return min(near, key=lambda one: (one.pieces, abs(one.load_kg - wanted_kg)))
    return min(makes, key=lambda one: (abs(one.load_kg - wanted_kg), one.load_kg), default=None)


def _rounded(load_kg: float, athlete: AthleteLine, layout: CardLayout) -> float:
    step = layout.ramp.round_to_kg if athlete.mass_unit == "kg" else layout.ramp.round_to_lb
    return round(load_kg / step) * step


def _step_in_words(step: Built, athlete: AthleteLine, layout: CardLayout) -> str:
    if step.bar_kg is not None:
        inside = plates(step, athlete) or layout.words.bar_alone
        return f"{mass(step.load_kg, athlete)} ({inside})"
    if step.dumbbells_kg:
        return stamped_mass(step.dumbbells_kg, athlete)
    return mass(step.load_kg, athlete)
