"""Quantities with their units: parse what a coach writes (``71.4 kg``, ``5 ft 11 in``), format what a card prints.

Exact factors: pound 0.45359237 kg and inch 25.4 mm (international agreement of 1959, NIST SP 811 appendix B);
standard gravity 9.80665 m/s2 (3rd CGPM, 1901); pound-force = pound x standard gravity.
"""

from __future__ import annotations

import math
import re
from typing import Literal

STANDARD_GRAVITY_m_s2 = 9.80665  # 3rd CGPM 1901, resolution 2
POUND_kg = 0.45359237  # 1959 agreement; NIST SP 811 appendix B
INCH_m = 0.0254  # 1959 agreement; NIST SP 811 appendix B
FOOT_m = 12 * INCH_m
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
BASE_UNIT: dict[Dimension, str] = {d: next(iter(units)) for d, units in UNITS.items()}

_PART = re.compile(r"\s*([+-]?\d+(?:\.\d+)?)\s*([A-Za-z/]+)")


class QuantityError(ValueError):
    """What a coach wrote is not a quantity of the wanted kind. The message says what to write instead."""


def parse_quantity(text: object, dimension: Dimension) -> float:
    """Read ``text`` as a quantity and return it in the dimension's base unit (kg, m, s, N, m/s, 1/s).

    Compound lengths and masses add up: ``5 ft 11 in``. Raises QuantityError for a missing or unknown unit, a unit of
    another dimension, or anything that is not a finite number.
    """
    units = UNITS[dimension]
    known = ", ".join(units)
    example = f"{ {'mass': '71.4', 'length': '3.02', 'time': '0.21', 'force': '1400', 'speed': '8.1', 'rate': '240'}[dimension] } {BASE_UNIT[dimension]}"
    if isinstance(text, bool) or text is None:
        raise QuantityError(f"is not a {dimension}; write a number with its unit, such as {example}")
    if isinstance(text, (int, float)):
        raise QuantityError(f"{text} has no unit; write for example {text} {BASE_UNIT[dimension]} ({known})")
    if not isinstance(text, str):
        raise QuantityError(f"is not a {dimension}; write a number with its unit, such as {example}")
    total, position, seen = 0.0, 0, 0
    stripped = text.strip()
    while position < len(stripped):
        part = _PART.match(stripped, position)
        if part is None:
            if re.fullmatch(r"[+-]?\d+(?:\.\d+)?", stripped):
                raise QuantityError(f"'{text}' has no unit; write for example {stripped} {BASE_UNIT[dimension]} ({known})")
            raise QuantityError(f"'{text}' is not a {dimension}; write a number with its unit, such as {example}")
        number, unit = float(part.group(1)), part.group(2)
        if unit not in units:
            raise QuantityError(f"'{unit}' is not a unit of {dimension}; use one of {known}")
        if seen and number < 0:
            raise QuantityError(f"'{text}': only the first part may carry a sign")
        total += number * units[unit]
        position, seen = part.end(), seen + 1
    if not seen:
        raise QuantityError(f"is empty; write a number with its unit, such as {example}")
    if not math.isfinite(total):
        raise QuantityError(f"'{text}' is not a finite number")
    return total


def format_mass(mass_kg: float, unit: Literal["kg", "lb"] = "kg", digits: int = 1) -> str:
    return f"{_trim(mass_kg / UNITS['mass'][unit], digits)} {unit}"


def format_length(length_m: float, unit: Literal["m", "cm", "in"] = "m", digits: int = 2) -> str:
    return f"{_trim(length_m / UNITS['length'][unit], digits)} {unit}"


def _trim(value: float, digits: int) -> str:
    text = f"{value:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
