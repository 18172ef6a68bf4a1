"""What a cell of a sheet says, held to what its column may hold. What may mean two things is told, not guessed."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from planner.domain.base import FIRST_DATE, LAST_DATE
from planner.files.cells import Cell
from planner.files.field_types import FieldType
from planner.files.suggest import did_you_mean
from planner.files.typed_figures import is_bare
from planner.files.values import Data, ValueProblem, iso_date
from planner.units import BASE_UNIT, UNITS, Dimension, QuantityError, parse_quantity

DateOrder = Literal["day-first", "month-first"]
_NUMBER = re.compile(r"([+-]?)(\d+(?:[.,]\d+)*|[.,]\d+)\s*([A-Za-z/]*)", re.ASCII)
_THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2}(,\d{3})+", re.ASCII)
_PARTED_DATE = re.compile(r"(\d{1,4})([./-])(\d{1,2})\2(\d{1,4})", re.ASCII)
_TIME_OF_DAY = re.compile(r"[ T]\d{1,2}:\d{2}(:\d{2}(\.\d+)?)?$", re.ASCII)
_MOST_SHOWN = 40


@dataclass(frozen=True)
class ColumnStyle:
    """How a whole column writes its figures. ``mixed``: with points and commas; ``dates``: None where both may be."""

    mixed: bool = False
    dates: DateOrder | None = None
    both_orders: bool = False


def style_of(cells: Iterable[Cell], dates: DateOrder | None) -> ColumnStyle:
    """``dates``: as the coach said it, for a column that does not settle it."""
    texts = [cell.value.strip() for cell in cells if isinstance(cell.value, str)]
    figures = [found.group(2) for text in texts if (found := _NUMBER.fullmatch(text)) is not None]
    commas = [one for one in figures if "," in one]
    points = [one for one in figures if "." in one]
    firsts, seconds = set(), set()
    for text in texts:
        found = _PARTED_DATE.fullmatch(_TIME_OF_DAY.sub("", text))
        if found is not None and len(found.group(1)) <= 2:
            firsts.add(int(found.group(1)) > 12)
            seconds.add(int(found.group(3)) > 12)
    day_first, month_first = True in firsts, True in seconds
    settled: DateOrder | None = "day-first" if day_first else "month-first" if month_first else dates
    return ColumnStyle(bool(commas and points), settled, day_first and month_first)


def value_of(
    cell: Cell, kind: FieldType, style: ColumnStyle, unit: str | None, words: dict[str, str] | None = None
) -> Data:
    """The cell as an athlete's file writes it: a quantity as text with its unit. Raises ValueProblem."""
    if kind.sort == "date":
        return _date(cell, style)
    if kind.sort == "quantity" and kind.dimension is not None:
        return _quantity(cell, kind, kind.dimension, style, unit)
    if kind.sort in ("whole", "decimal"):
        return _figure(cell, kind, style)
    text = cell.text
    if kind.sort == "word":
        folded = text.casefold()
        word = next((one for one in kind.words if one == folded), None) or (words or {}).get(folded)
        if word is None:
            known = [*kind.words, *(words or {})]
            message = f"'{_short(text)}' is not one of the words allowed here"
            raise ValueProblem("not-a-choice", message, did_you_mean(folded, known))
        return word
    if kind.longest is not None and len(text) > kind.longest:
        raise ValueProblem("too-long", f"this text has {len(text)} characters", f"write at most {kind.longest}")
    if any(not sign.isprintable() for sign in text):
        raise ValueProblem(
            "hidden-character", "this text has a line end or a hidden character", "type it again on one line"
        )
    return text


def _quantity(cell: Cell, kind: FieldType, dimension: Dimension, style: ColumnStyle, unit: str | None) -> str:
    text = _figure_text(cell, style)
    if is_bare(text):
        if unit is None:
            example = f"{text} {BASE_UNIT[dimension]}"
            hint = f"write it in the heading in brackets, or in the cell: {example} ({', '.join(UNITS[dimension])})"
            raise ValueProblem("no-unit", f"'{_short(text)}' has no unit", hint)
        text = f"{text} {unit}"
    try:
        value = parse_quantity(text, dimension)
    except QuantityError as error:
        raise ValueProblem("quantity", error.message, error.hint) from None
    if not kind.holds(value):
        message = f"'{_short(text)}' is {_outside(kind, dimension, text)}"
        raise ValueProblem("out-of-range", message, _other_unit(text, kind, dimension))
    return text


def _outside(kind: FieldType, dimension: Dimension | None = None, text: str = "") -> str:
    """In the unit of the figure itself, where it has one unit."""
    unit, factor = (BASE_UNIT[dimension], 1.0) if dimension else ("", 1.0)
    found = _NUMBER.fullmatch(text)
    if dimension and found and found.group(3) in UNITS[dimension]:
        unit, factor = found.group(3), UNITS[dimension][found.group(3)]
    low, high = (f"{(one or 0) / factor:.4g} {unit}".rstrip() for one in (kind.low, kind.high))
    if kind.high is None:
        return f"not {'above' if kind.open_low else 'at least'} {low}"
    return f"outside {low} to {high}"


def _other_unit(text: str, kind: FieldType, dimension: Dimension) -> str:
    """The unit with which the same figure would fit."""
    number = re.sub(r"[A-Za-z/\s]+$", "", text)
    if _NUMBER.fullmatch(number) is None:
        return "check the figure and its unit"
    fits = [unit for unit, factor in UNITS[dimension].items() if kind.holds(float(number) * factor)]
    return f"in {' or '.join(fits)} it would fit: check the unit" if fits else "check the figure and its unit"


def _figure(cell: Cell, kind: FieldType, style: ColumnStyle) -> int | float:
    text = _figure_text(cell, style)
    found = _NUMBER.fullmatch(text)
    if found is None or found.group(3):
        message = f"'{_short(text)}' is not a number"
        raise ValueProblem("not-a-number", message, "write a number, without words or a unit")
    number = float(found.group(1) + found.group(2))
    if kind.sort == "whole" and not number.is_integer():
        raise ValueProblem("not-a-count", f"'{_short(text)}' is not a whole number", "correct the cell")
    if not kind.holds(number):
        raise ValueProblem("out-of-range", f"'{_short(text)}' is {_outside(kind)}", "check the figure")
    return int(number) if kind.sort == "whole" else number


def _figure_text(cell: Cell, style: ColumnStyle) -> str:
    """The figure as text with a decimal point. A comma is decimal only where the whole column says so."""
    if isinstance(cell.value, datetime.date):
        hint = "a spreadsheet program took the figure for a date; type it again in a cell of the sort 'text'"
        raise ValueProblem("date-for-figure", f"expected a figure, found the date {cell.value}", hint)
    if isinstance(cell.value, float):
        return f"{cell.value:.10g}"
    text = cell.text
    if "," not in text:
        return text
    found = _NUMBER.fullmatch(text)
    figure = found.group(2) if found else text
    if "." in figure or style.mixed:
        hint = "write all figures of the column with a point"
        raise ValueProblem("comma-or-point", f"'{_short(text)}': the column has decimal points and commas", hint)
    if _THOUSANDS.fullmatch(figure):
        one, other = figure.replace(",", "."), figure.replace(",", "")
        raise ValueProblem("comma-or-point", f"'{_short(text)}' may be {one} or {other}", f"write {one} or {other}")
    return text.replace(",", ".") if found and figure.count(",") == 1 else text


def _date(cell: Cell, style: ColumnStyle) -> datetime.date:
    if isinstance(cell.value, datetime.date):
        day: datetime.date | None = cell.value
    else:
        text = _TIME_OF_DAY.sub("", cell.text)
        day = iso_date(text) or _date_of_parts(text, style)
    if day is None:
        message = f"'{_short(cell.text)}' is not a day"
        raise ValueProblem("not-a-date", message, "write year-month-day, such as 2026-03-17")
    if not FIRST_DATE <= day <= LAST_DATE:
        raise ValueProblem("not-a-date", f"{day} is not in this century or the last", "check the year")
    return day


def _date_of_parts(text: str, style: ColumnStyle) -> datetime.date | None:
    found = _PARTED_DATE.fullmatch(text)
    if found is None:
        return None
    one, two, three = found.group(1), found.group(3), found.group(4)
    if len(one) == 4:
        return _day(one, two, three)
    if len(three) != 4:
        hint = "write all four; in a spreadsheet program choose a format of days such as 2026-03-17"
        raise ValueProblem("not-a-date", f"'{text}' has a year of {len(three)} digits", hint)
    if style.both_orders:
        hint = "write all days of the column as year-month-day"
        raise ValueProblem("date-order", f"'{text}': the column has days before months and months before days", hint)
    if style.dates is None and one != two:
        hint = "say it: --dates day-first or --dates month-first; or write year-month-day"
        raise ValueProblem("date-order", f"'{text}' may be two days", hint)
    return _day(three, two, one) if style.dates != "month-first" else _day(three, one, two)


def _day(year: str, month: str, day: str) -> datetime.date | None:
    try:
        return datetime.date(int(year), int(month), int(day))
    except ValueError:
        return None


def _short(text: str) -> str:
    return text if len(text) <= _MOST_SHOWN else f"{text[: _MOST_SHOWN - 3]}..."


def is_unit_row(cells: Sequence[Cell], units: Iterable[str]) -> bool:
    """Whether a row below the headings holds units only, such as ``cm`` or ``(kg)``."""
    known, written = set(units), [cell.text.strip("()[] ") for cell in cells if cell.value is not None]
    return bool(written) and all(one in known for one in written)
