"""A built load in words: ``each side 25 + 15 + 2.5``, ``20 + 20 kg``."""

from __future__ import annotations

from collections.abc import Sequence

from planner.domain.block import AthleteLine, Item
from planner.domain.card_layout import CardLayout
from planner.prescription.iron import Built, build, nearest, stamped_in
from planner.units import UNITS

_DIGITS = 2  # the finest common plate is 1.25 kg


def stamped_mass(masses_kg: Sequence[float], athlete: AthleteLine) -> str:
    """``20 + 20 kg`` in the unit that the iron is stamped in."""
    unit = stamped_in(athlete)
    return f"{' + '.join(_number(one / UNITS['mass'][unit]) for one in masses_kg)} {unit}"


def plates(built: Built, athlete: AthleteLine) -> str:
    """The plates on one side; the unit is given only where the card's loads use another. Empty for the bar alone."""
    if not built.plates_kg:
        return ""
    said = stamped_mass(built.plates_kg, athlete)
    return said if stamped_in(athlete) != athlete.mass_unit else said.rpartition(" ")[0]


def how_built(item: Item, athlete: AthleteLine, layout: CardLayout) -> str:
    """The line under a load that says what to put on the bar; empty if the load alone says it.

    If the gym cannot build the load (a coach may have edited it), the line names the nearest one that it can.
    """
    words = layout.words
    if not item.load_kg:
        return ""
    built = build(item, athlete.gym, item.load_kg)
    if built is None:
        there = nearest(item, athlete.gym, item.load_kg)
        if there is None:
            return ""
        return f"{words.nearest} {stamped_mass(there.dumbbells_kg or (there.load_kg,), athlete)}"
    other_unit = stamped_in(athlete) != athlete.mass_unit
    if built.dumbbells_kg:
        return f"= {stamped_mass(built.dumbbells_kg, athlete)}" if other_unit else ""
    said = f"{words.each_end} {plates(built, athlete)}" if built.plates_kg else words.bar_alone
    return f"{stamped_mass((built.load_kg,), athlete)}: {said}" if other_unit else said


def bar(item: Item, athlete: AthleteLine, layout: CardLayout) -> str:
    """``bar 20 kg``, where plates go on a bar."""
    built = build(item, athlete.gym, item.load_kg) if item.load_kg else None
    if built is None or built.bar_kg is None or not built.plates_kg:
        return ""
    return f"{layout.words.bar} {stamped_mass((built.bar_kg,), athlete)}"


def _number(value: float) -> str:
    return f"{value:.{_DIGITS}f}".rstrip("0").rstrip(".")
