"""Quantities with their units: parse what a coach writes (``71.4 kg``, ``5 ft 11 in``), format what a card prints.

Exact factors: pound 0.45359237 kg and inch 25.4 mm (international agreement of 1959, NIST SP 811 appendix B);
standard gravity 9.80665 m/s2 (3rd CGPM, 1901); pound-force = pound x standard gravity.
"""

from __future__ import annotations

import math
import re
from decimal import Decimal
from itertools import pairwise
from typing import Literal

STANDARD_GRAVITY_m_s2 = 9.80665  # 3rd CGPM 1901, resolution 2
POUND_kg = 0.45359237  # 1959 agreement; NIST SP 811 appendix B
INCH_m = 0.0254  # 1959 agreement; NIST SP 811 appendix B
FOOT_m = 0.3048  # 12 inches, written out because 12 * 0.0254 is not the nearest float
POUND_FORCE_N = POUND_kg * STANDARD_GRAVITY_m_s2

Dimension = Literal["mass", "length", "time", "force", "speed", "rate"]

UNITS: dict[Dimension, dict[str, float]] = {
    "mass": {"kg": 1.0, "g": 0.001, "lb": POUND_kg},
    "length": {"m": 1.0, "cm": 0.01, "mm": 0.001, "in": INCH_m, "ft": FOOT_m},
    "time": {"s": 1.0, "ms": 0.001, "min": 60.0},
    "force": {"N": 1.0, "kN": 1000.0, "lbf": POUND_FORCE_N},
    "speed": {"m/s": 1.0},
    "rate": {"/s": 1.0, "Hz": 1.0},
}
BASE_UNIT: dict[Dimension, str] = {dimension: next(iter(units)) for dimension, units in UNITS.items()}

# What to write instead, shown when a quantity cannot be read.
_EXAMPLE: dict[Dimension, str] = {
    "mass": "71.4 kg",
    "length": "3.02 m",
    "time": "0.21 s",
    "force": "1400 N",
    "speed": "8.1 m/s",
    "rate": "240 /s",
}
# Words that people write for a unit, and the unit to suggest instead.
_MEANT: dict[str, str] = {
    "lbs": "lb",
    "pound": "lb",
    "pounds": "lb",
    "kgs": "kg",
    "kilo": "kg",
    "kilos": "kg",
    "inch": "in",
    "inches": "in",
    "foot": "ft",
    "feet": "ft",
    "metre": "m",
    "metres": "m",
    "meter": "m",
    "meters": "m",
    "sec": "s",
    "secs": "s",
    "second": "s",
    "seconds": "s",
    "mins": "min",
    "minutes": "min",
    "msec": "ms",
}
# No-break spaces count as spaces: they come with text copied from web pages and cannot be seen.
_PART = re.compile(r"[\s\u00a0\u202f]*([+-]?\d+(?:\.\d+)?)[\s\u00a0\u202f]*([A-Za-z/]+)", re.ASCII)
_NUMBER = re.compile(r"[+-]?\d+(?:\.\d+)?", re.ASCII)
_DECIMAL_COMMA = re.compile(r"([+-]?\d+),(\d+)(?=\D|$)", re.ASCII)
_LONGEST_TEXT = 40


class QuantityError(ValueError):
    """The text is not a quantity of the expected kind. The message says what to write instead."""


def parse_quantity(text: object, dimension: Dimension) -> float:
    """Read ``text`` as a quantity and return it in the dimension's base unit (kg, m, s, N, m/s, 1/s).

    Compound lengths and masses add up: ``5 ft 11 in``. Raises QuantityError for a missing or unknown unit, a unit of
    another dimension, or anything that is not a finite number.
    """
    if isinstance(text, (int, float)) and not isinstance(text, bool):
        raise QuantityError(_no_unit(str(text), dimension))
    if not isinstance(text, str):
        raise QuantityError(f"is not a {dimension}; write a number with its unit, such as {_EXAMPLE[dimension]}")
    stripped = text.strip()
    if not stripped:
        raise QuantityError(f"is empty; write a number with its unit, such as {_EXAMPLE[dimension]}")
    parts = _split(stripped, dimension)
    total = _add_up(parts, stripped, dimension)
    if not math.isfinite(total):
        raise QuantityError(f"'{_short(stripped)}' is not a finite number; check it")
    return total


def _split(text: str, dimension: Dimension) -> list[tuple[str, str]]:
    """Pairs of number and unit that make up the whole text."""
    parts: list[tuple[str, str]] = []
    position = 0
    while position < len(text):
        part = _PART.match(text, position)
        if part is None:
            raise QuantityError(_unreadable(text, dimension))
        parts.append((part.group(1), part.group(2)))
        position = part.end()
    return parts


def _add_up(parts: list[tuple[str, str]], text: str, dimension: Dimension) -> float:
    units = UNITS[dimension]
    for _, unit in parts:
        if unit not in units:
            raise QuantityError(_unknown_unit(unit, dimension))
    factors = [units[unit] for _, unit in parts]
    if any(number[0] in "+-" for number, _ in parts[1:]):
        raise QuantityError(f"'{_short(text)}' has a sign inside; only the first part may carry one")
    if any(later >= earlier for earlier, later in pairwise(factors)):
        raise QuantityError(f"'{_short(text)}' has its units in the wrong order; write the larger first: 5 ft 11 in")
    # In decimals, so that 7 cm is 0.07 m and not the 0.07000000000000001 of floating-point multiplication.
    total = sum(abs(Decimal(number)) * Decimal(repr(units[unit])) for number, unit in parts)
    return -float(total) if parts[0][0].startswith("-") else float(total)


def _unreadable(text: str, dimension: Dimension) -> str:
    if _NUMBER.fullmatch(text):
        return _no_unit(text, dimension)
    comma = _DECIMAL_COMMA.search(text)
    if comma:
        with_point = _DECIMAL_COMMA.sub(r"\1.\2", text)
        unit = f" {BASE_UNIT[dimension]}" if _NUMBER.fullmatch(with_point) else ""
        return f"'{_short(text)}' has a decimal comma; write {_short(with_point)}{unit}"
    return f"'{_short(text)}' is not a {dimension}; write a number with its unit, such as {_EXAMPLE[dimension]}"


def _no_unit(number: str, dimension: Dimension) -> str:
    known = ", ".join(UNITS[dimension])
    return f"{_short(number)} has no unit; write for example {_short(number)} {BASE_UNIT[dimension]} ({known})"


def _unknown_unit(unit: str, dimension: Dimension) -> str:
    known = ", ".join(UNITS[dimension])
    meant = _MEANT.get(unit.lower()) or next(
        (right for right in UNITS[dimension] if right.lower() == unit.lower()), None
    )
    other = [name for name, units in UNITS.items() if unit in units]
    if meant in UNITS[dimension]:
        return f"'{_short(unit)}' is not a unit of {dimension}; did you mean {meant}?"
    if other:
        return f"'{unit}' is a unit of {other[0]}, not of {dimension}; use one of {known}"
    return f"'{_short(unit)}' is not a unit of {dimension}; use one of {known}"


def format_mass(mass_kg: float, unit: Literal["kg", "lb"] = "kg", digits: int = 1) -> str:
    """``71.4 kg``: at most ``digits`` decimals, without trailing zeros."""
    return f"{_trim(mass_kg / UNITS['mass'][unit], digits)} {unit}"


def format_length(length_m: float, unit: Literal["m", "cm", "in"] = "m", digits: int = 2) -> str:
    """``3.02 m``: at most ``digits`` decimals, without trailing zeros."""
    return f"{_trim(length_m / UNITS['length'][unit], digits)} {unit}"


def counted(number: float, noun: str) -> str:
    """'1 day', '2 days'; for nouns that take an s."""
    shown = number if isinstance(number, int) else f"{number:g}"
    return f"{shown} {noun}{'' if number == 1 else 's'}"


def _trim(value: float, digits: int) -> str:
    text = f"{value:.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def _short(text: str) -> str:
    return text if len(text) <= _LONGEST_TEXT else f"{text[: _LONGEST_TEXT - 3]}..."
