"""Loads as typed: ``110, 110, 105 kg``; of two dumbbells ``20 lb each hand``, ``2 x 20 lb``, ``20 + 20 lb``."""

from __future__ import annotations

import re

from planner.files.typed_figures import with_units
from planner.units import Unreadable, parse_quantity

_EACH = re.compile(r"(.*?\S)\s*\b(?:(?:in\s+)?each(?:\s+(?:hand|arm))?|(?:a|per)\s+hand)", re.IGNORECASE)
_TWO = re.compile(r"2\s*[x×*]\s*(.+)", re.IGNORECASE)


def read_loads(text: str, unit: str | None, *, in_both_hands: bool | None) -> list[float]:
    """Each load in kg, of both hands together. ``unit``: of figures without one; None refuses them.

    ``in_both_hands``: whether a dumbbell in each hand is lifted, None where that is not known: ``2 x 100 kg`` might
    then be two sets. What is said of the last load, its unit and ``each hand``, is said of all. Raises Unreadable.
    """
    each = _EACH.fullmatch(text.strip())
    told = [_hands(part.strip(), in_both_hands) for part in (each[1] if each else text).split(",")]
    if each:
        told = [2 * part if len(part) == 1 else part for part in told]
    if in_both_hands is False and any(len(part) > 1 for part in told):
        message = f"'{text}' is a load in each hand, and this is not lifted with two dumbbells"
        raise Unreadable(message, "write all that was lifted as one load, such as 40 kg x 6")
    if len({len(part) for part in told}) > 1:
        raise Unreadable(f"'{text}' has loads of one hand and of both", "write each the same way: 20 + 20, 25 + 25 lb")
    figures = iter(with_units(", ".join(one for part in told for one in part), "mass", unit))
    return [sum(parse_quantity(next(figures), "mass") for _ in part) for part in told]


def _hands(part: str, in_both_hands: bool | None) -> list[str]:
    """The figures of one load: one, or that of each hand."""
    if each := _EACH.fullmatch(part):
        return [each[1], each[1]]
    if in_both_hands and (two := _TWO.fullmatch(part)):
        return [two[1], two[1]]
    return [one.strip() for one in part.split("+")]
