"""Figures typed in a row, ``110, 110, 105 kg`` or ``9'8", 9'7"``: which have a unit, and whose unit the others get."""

from __future__ import annotations

import re

from planner.units import ALIKE, Dimension, QuantityError, Unreadable, unit_named

_BARE = re.compile(r"[+-]?(?:\d+(?:[.,]\d+)?|[.,]\d+)?(?:[\s-]*\d+/\d+)?", re.ASCII)
_BEHIND = re.compile(r"(?:[A-Za-z/]+|''|['\"])$", re.ASCII)
_COMMA = re.compile(r"\d+,\d+")
_FEET = re.compile(r"\d\s*(?:ft|foot|feet|')", re.ASCII | re.IGNORECASE)


def is_bare(text: str) -> bool:
    """Whether this is a number without a unit, ``3.14`` or ``97½``; ``9'8`` has its feet, and inches with them."""
    plain = text.translate(ALIKE).strip()
    return bool(plain) and _BARE.fullmatch(plain) is not None


def unit_behind(text: str, dimension: Dimension) -> str | None:
    """The unit at the end by its own name, ``in`` for ``inches`` and for its sign; None if the dimension has none."""
    found = _BEHIND.search(text.translate(ALIKE).strip())
    try:
        return None if found is None else unit_named(found[0], dimension)
    except QuantityError:
        return None


def is_length(text: str) -> bool:
    """Whether the last figure is written as a length, whatever its size."""
    return unit_behind(text, "length") is not None or _FEET.search(text.translate(ALIKE)) is not None


def refuse_decimal_comma(text: str) -> None:
    """Raises Unreadable for ``3,12`` in a row of figures, which may be one figure or two."""
    if found := _COMMA.search(text):
        message = f"'{text.strip()}' has a comma between digits"
        raise Unreadable(message, f"write {found[0].replace(',', '.')} for a decimal, ', ' between figures")


def with_units(text: str, dimension: Dimension, usual: str | None) -> list[str]:
    """Each figure with its unit: its own, else that of the last figure, else the usual one; None: left without."""
    parts = [part.strip() for part in text.split(",")]
    unit = unit_behind(parts[-1], dimension) or usual
    return [f"{part} {unit}" if unit is not None and is_bare(part) else part for part in parts]
