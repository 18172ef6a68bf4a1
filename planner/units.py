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
YARD_m = 0.9144  # 3 feet; 1959 agreement
POUND_FORCE_N = POUND_kg * STANDARD_GRAVITY_m_s2

Dimension = Literal["mass", "length", "time", "force", "speed", "rate"]

UNITS: dict[Dimension, dict[str, float]] = {
    "mass": {"kg": 1.0, "g": 0.001, "lb": POUND_kg},
    "length": {"m": 1.0, "cm": 0.01, "mm": 0.001, "in": INCH_m, "ft": FOOT_m, "yd": YARD_m},
    "time": {"s": 1.0, "ms": 0.001, "min": 60.0},
    "force": {"N": 1.0, "kN": 1000.0, "lbf": POUND_FORCE_N},
    "speed": {"m/s": 1.0},
    "rate": {"/s": 1.0, "Hz": 1.0},
}
BASE_UNIT: dict[Dimension, str] = {dimension: next(iter(units)) for dimension, units in UNITS.items()}

# Forms that work, shown when a quantity cannot be read.
_EXAMPLE: dict[Dimension, str] = {
    "mass": "71.4 kg",
    "length": "3.02 m, 302 cm, 9 ft 11 in or 119 in",
    "time": "0.21 s",
    "force": "1400 N",
    "speed": "8.1 m/s",
    "rate": "240 /s",
}
# Words and signs that people write for a unit.
_MEANT: dict[str, str] = {
    "lbs": "lb", "pound": "lb", "pounds": "lb", "kgs": "kg", "kilo": "kg", "kilos": "kg", "inch": "in", '"': "in",
    "''": "in", "'": "ft", "yard": "yd", "yards": "yd", "yds": "yd", "inches": "in", "foot": "ft", "feet": "ft",
    "metre": "m", "metres": "m", "meter": "m", "meters": "m", "sec": "s", "secs": "s", "second": "s", "seconds": "s",
    "mins": "min", "minutes": "min", "msec": "ms",
}  # fmt: skip
# Signs that look alike, and no-break spaces, which come with text copied from web pages and cannot be seen.
ALIKE = str.maketrans(
    {
        **dict.fromkeys("\u2032\u2019\u2018", "'"),
        **dict.fromkeys("\u2033\u201d\u201c", '"'),
        **dict.fromkeys("\u00a0\u202f", " "),
        **{"\u00bd": " 1/2", "\u00bc": " 1/4", "\u00be": " 3/4"},
    }
)
# 97.5, 97 1/2, 97-1/2 or 1/2; then letters, or the signs of feet and inches.
_PART = re.compile(r"\s*([+-]?)(?:(\d+(?:\.\d+)?)(?![\d./]))?(?:[\s-]*(\d+)/(\d+))?\s*([A-Za-z/]+|''|['\"])", re.ASCII)
_INCHES_AFTER_FEET = re.compile(r"(ft|foot|feet|')\s*\d+(\.\d+|[\s-]+\d+/\d+)?$", re.ASCII | re.IGNORECASE)
_NUMBER = re.compile(r"[+-]?\d+(?:\.\d+)?", re.ASCII)
# One, two or more than three digits behind a comma are decimals; three may be thousands, unless a zero is before it.
_DECIMAL_COMMA = re.compile(r"(?<![\d.,])([+-]?)(?:(0),(\d+)|(\d+),(\d{1,2}|\d{4,}))(?![\d,])", re.ASCII)
_DOUBTFUL_COMMA = re.compile(r"(?<![\d.,])(\d+),(\d{3})(?![\d.,])", re.ASCII)
_IMPERIAL = re.compile(r"lb|pound|in|ft|foot|feet|yd|yard|['\"]")
_LONGEST_TEXT = 40
# Figures in a sentence: 30 cm, 20-30 cm, 10 or 15 m. Inches in brackets behind them are the same for the other reader.
_FIGURE = re.compile(r"\d+(?:\.\d+)?", re.ASCII)
_IN_TEXT = re.compile(
    r"(?<![\w.,])((?:\d+(?:\.\d+)?(?: ?[-–/] ?| to | or | and ))*\d+(?:\.\d+)?) ?(cm|m|kg)\b(?!/)( \([\d.]+ in\))?",
    re.ASCII,
)


class Unreadable(ValueError):
    """Text that is not what was asked for. ``hint``: what to write instead; "" where the message says it all."""

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(f"{message}; {hint}" if hint else message)
        self.message, self.hint = message, hint


class QuantityError(Unreadable):
    """The text is not a quantity of the expected kind."""


def parse_quantity(text: object, dimension: Dimension) -> float:
    """Read ``text`` as a quantity and return it in the dimension's base unit (kg, m, s, N, m/s, 1/s).

    Compound lengths and masses add up: ``5 ft 11 in``, ``5'11"``. Fractions and a decimal comma are read where they
    leave no doubt: ``97 1/2 in``, ``3,02 m``. Raises QuantityError for a missing or unknown unit, a unit of another
    dimension, or anything that is not a finite number.
    """
    if isinstance(text, (int, float)) and not isinstance(text, bool):
        raise _no_unit(str(text), dimension)
    if not isinstance(text, str):
        raise QuantityError(f"is not a {dimension}", _write(dimension))
    stripped = text.strip()
    if not stripped:
        raise QuantityError("is empty", _write(dimension))
    parts = _split(_plain(stripped), dimension)
    total = _add_up(parts, stripped, dimension)
    if not math.isfinite(total):
        raise QuantityError(f"'{_short(stripped)}' is not a finite number", "check it")
    return total


def is_imperial(written: object) -> bool:
    """Whether a mass or a length is written in pounds, inches, feet or yards."""
    return isinstance(written, str) and _IMPERIAL.search(written.translate(ALIKE).lower()) is not None


def _plain(text: str) -> str:
    """The text with a decimal point, plain signs, and inches named where only a number follows the feet."""
    text = text.translate(ALIKE).strip()
    text = _DECIMAL_COMMA.sub(lambda m: f"{m[1]}{m[2] or m[4]}.{m[3] or m[5]}", text)
    return f"{text} in" if _INCHES_AFTER_FEET.search(text) else text


def _split(text: str, dimension: Dimension) -> list[tuple[str, Decimal, str]]:
    """Sign, number and unit of each part that makes up the whole text."""
    parts: list[tuple[str, Decimal, str]] = []
    position = 0
    while position < len(text):
        part = _PART.match(text, position)
        if part is None or not _is_number(part[2], part[3], part[4]):
            raise _unreadable(text, dimension)
        fraction = Decimal(part[3]) / Decimal(part[4]) if part[3] else Decimal(0)
        parts.append((part[1], Decimal(part[2] or 0) + fraction, unit_named(part[5], dimension)))
        position = part.end()
    return parts


def _is_number(whole: str | None, above: str | None, below: str | None) -> bool:
    """A number, a fraction under one, or a whole number and such a fraction; 21/2 may be 2 1/2, so it is none."""
    if above is None or below is None:
        return whole is not None
    return int(above) < int(below) and "." not in (whole or "")


def unit_named(written: str, dimension: Dimension) -> str:
    """The unit's own name, whatever its capitals, its plural or its sign. Raises QuantityError if there is none."""
    units = UNITS[dimension]
    alike = next((name for name in units if name.lower() == written.lower()), None)
    found = written if written in units else _MEANT.get(written.lower(), alike)
    if found not in units:
        raise _unknown_unit(written, dimension)
    return found


def _add_up(parts: list[tuple[str, Decimal, str]], text: str, dimension: Dimension) -> float:
    units = UNITS[dimension]
    factors = [units[unit] for _, _, unit in parts]
    if any(sign for sign, _, _ in parts[1:]):
        raise QuantityError(f"'{_short(text)}' has a sign inside", "only the first part may carry one")
    if any(later >= earlier for earlier, later in pairwise(factors)):
        raise QuantityError(f"'{_short(text)}' has its units in the wrong order", "write the larger first: 5 ft 11 in")
    for (_, _, larger), (_, number, smaller) in pairwise(parts):
        if number * Decimal(repr(units[smaller])) >= Decimal(repr(units[larger])):
            raise QuantityError(f"'{_short(text)}' has {number:f} {smaller} behind the {larger}", "check it")
    # In decimals, so that 7 cm is 0.07 m and not the 0.07000000000000001 of floating-point multiplication.
    total = sum(number * Decimal(repr(units[unit])) for _, number, unit in parts)
    return -float(total) if parts[0][0] == "-" else float(total)


def _unreadable(text: str, dimension: Dimension) -> QuantityError:
    if _NUMBER.fullmatch(text):
        return _no_unit(text, dimension)
    if doubtful := _DOUBTFUL_COMMA.search(text):
        whole, point = (f"{doubtful[1]}{between}{doubtful[2]}" for between in ("", "."))
        forms = " or ".join(text.replace(doubtful[0], one) for one in (whole, point))
        return QuantityError(f"'{_short(text)}' may be {whole} or {point}", f"write {_short(forms)}")
    return QuantityError(f"'{_short(text)}' is not a {dimension}", _write(dimension))


def _write(dimension: Dimension) -> str:
    return f"write a number with its unit, such as {_EXAMPLE[dimension]}"


def _no_unit(number: str, dimension: Dimension) -> QuantityError:
    example = f"{_short(number)} {BASE_UNIT[dimension]} ({', '.join(UNITS[dimension])})"
    return QuantityError(f"{_short(number)} has no unit", f"write for example {example}")


def _unknown_unit(unit: str, dimension: Dimension) -> QuantityError:
    known = ", ".join(UNITS[dimension])
    other = [name for name, units in UNITS.items() if _MEANT.get(unit.lower(), unit) in units]
    if other:
        return QuantityError(f"'{unit}' is a unit of {other[0]}, not of {dimension}", f"use one of {known}")
    return QuantityError(f"'{_short(unit)}' is not a unit of {dimension}", f"use one of {known}")


def format_mass(mass_kg: float, unit: Literal["kg", "lb"] = "kg", digits: int = 1) -> str:
    """``71.4 kg``: at most ``digits`` decimals, without trailing zeros."""
    return f"{_trim(mass_kg / UNITS['mass'][unit], digits)} {unit}"


def format_length(length_m: float, unit: Literal["m", "cm", "in"] = "m", digits: int = 2) -> str:
    """``3.02 m``: at most ``digits`` decimals, without trailing zeros."""
    return f"{_trim(length_m / UNITS['length'][unit], digits)} {unit}"


def format_run(length_m: float, unit: Literal["cm", "in"], step: float = 0.5) -> str:
    """``30 m``; for readers of inches in yards, to the half yard: ``33 yd``. ``step``: of the yards."""
    if unit == "cm":
        return format_length(length_m, "m", 1)
    return f"{_trim(round(length_m / YARD_m / step) * step, 1)} yd"


def format_height(height_m: float, unit: Literal["cm", "in"]) -> str:
    """A height to the centimetre or half inch: boxes and hurdles are never set finer."""
    return f"{_trim(round(2 * height_m / INCH_m) / 2, 1)} in" if unit == "in" else format_length(height_m, "cm", 0)


def as_read_by(text: str, length: Literal["cm", "in"], mass: Literal["kg", "lb"], *, measured: bool = False) -> str:
    """A sentence with its metric figures in the reader's units: ``Drop jump, 30 cm`` becomes ``Drop jump, 12 in``.

    Of ``5 cm (2 in)``, written for both, each reader gets their own.
    ``measured``: to a tenth, ``11.8 in``, where the figure is a reading and not a height to set.
    """

    def told(found: re.Match[str]) -> str:
        if (mass if found[2] == "kg" else length) in ("kg", "cm"):
            return found[0].removesuffix(found[3] or "")
        figures = _FIGURE.sub(lambda figure: _imperial(float(figure[0]), found[2], measured).split()[0], found[1])
        return f"{figures} {_imperial(0, found[2], measured).split()[1]}"

    return _IN_TEXT.sub(told, text)


def _imperial(value: float, unit: str, measured: bool) -> str:
    if unit == "kg":
        return format_mass(value, "lb", int(measured))
    if unit == "cm" and measured:
        return format_length(value / 100, "in", 1)
    return format_height(value / 100, "in") if unit == "cm" else format_run(value, "in")


def example_of(dimension: Dimension) -> str:
    """A quantity as it may be written, such as ``71.4 kg``."""
    return _EXAMPLE[dimension]


def figures_in_line(text: str) -> list[str]:
    """``45, 35, 25 lb`` as three figures: the last one's unit is that of all that have none."""
    parts = re.split(r"[,;]\s+", text.strip())
    unit = re.search(r"[A-Za-z]+$", parts[-1])
    return [f"{part} {unit[0]}" if unit and part[-1:].isdigit() else part for part in parts]


def unit_words(dimension: Dimension) -> list[str]:
    """Every word and sign that is read as a unit of the dimension."""
    return [*UNITS[dimension], *(word for word, unit in _MEANT.items() if unit in UNITS[dimension])]


def counted(number: float, noun: str) -> str:
    """'1 day', '2 days'; for nouns that take an s."""
    shown = number if isinstance(number, int) else f"{number:g}"
    return f"{shown} {noun}{'' if number == 1 else 's'}"


def _trim(value: float, digits: int) -> str:
    text = f"{value:.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def _short(text: str) -> str:
    text = " ".join(text.split())  # a value may go over several lines of the file; a message is one
    return text if len(text) <= _LONGEST_TEXT else f"{text[: _LONGEST_TEXT - 3]}..."
