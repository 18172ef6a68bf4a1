"""Tree to plain data (mapping, list, text, number, date, yes/no, nothing) by the YAML 1.2 core rules, without traps.

Numbers that look like one thing and mean another in some programs (012, 1_0, 0x1F) are refused rather than guessed.
"""

from __future__ import annotations

import datetime
import math
import re

from planner.files.tree import ListNode, Node, Path, Scalar

Value = str | int | float | bool | datetime.date | None
Data = Value | list["Data"] | dict[str, "Data"]

LARGEST_INTEGER_digits = 15  # below 2**53, so exact in every program that may read a block

_NOTHING = {"", "~", "null", "Null", "NULL"}
_TRUE = {"true", "True", "TRUE"}
_FALSE = {"false", "False", "FALSE"}
_INTEGER = re.compile(r"[-+]?(0|[1-9][0-9]*)")
_DECIMAL = re.compile(r"[-+]?(\.[0-9]+|(0|[1-9][0-9]*)(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
_NOT_FINITE = re.compile(r"[-+]?\.(inf|Inf|INF)|\.(nan|NaN|NAN)")
_LEADING_ZERO = re.compile(r"([-+]?)0+([0-9]+(\.[0-9]*)?([eE][-+]?[0-9]+)?)")
_UNDERSCORES = re.compile(r"[-+]?[0-9][0-9_]*(\.[0-9_]*)?")
_OTHER_BASE = re.compile(r"[-+]?0([xX][0-9a-fA-F_]+|[oO][0-7_]+|[bB][01_]+)")
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


class ValueProblem(Exception):
    """A value that must not be guessed at. Carries code, sentence and what to write instead."""

    def __init__(self, code: str, message: str, hint: str) -> None:
        super().__init__(message)
        self.code, self.message, self.hint = code, message, hint


def resolve(text: str, plain: bool = True) -> Value:
    """What a scalar means. Quoted text is text. Raises ValueProblem for odd, huge and non-finite numbers."""
    if not plain:
        return text
    if text in _NOTHING:
        return None
    if text in _TRUE:
        return True
    if text in _FALSE:
        return False
    first = text[0]
    if first.isascii() and (first.isdigit() or first in "+-."):
        return _number_or_date(text)
    return text


def _number_or_date(text: str) -> Value:
    if _INTEGER.fullmatch(text):
        if len(text.lstrip("+-")) > LARGEST_INTEGER_digits:
            hint = f"write at most {LARGEST_INTEGER_digits} digits, or quotes if it is a word"
            raise ValueProblem("huge-number", f"{_short(text)} is too large a number", hint)
        return int(text)
    if _DECIMAL.fullmatch(text):
        number = float(text)
        if not math.isfinite(number):
            hint = "write a number a coach would measure"
            raise ValueProblem("huge-number", f"{_short(text)} is too large a number", hint)
        return number
    if _NOT_FINITE.fullmatch(text):
        raise ValueProblem("not-finite", f"{text} is not a finite number", "write a number")
    if _OTHER_BASE.fullmatch(text):
        raise _odd(text, "is a number in another base", "it in tens")
    zeros = _LEADING_ZERO.fullmatch(text)
    if zeros:
        raise _odd(text, "starts with a zero", _short(f"{zeros.group(1)}{zeros.group(2)}"))
    if _UNDERSCORES.fullmatch(text):  # without any it was a number above
        raise _odd(text, "has an underscore in a number", _short(text.replace("_", "")))
    # A day that does not exist stays text: where a date is expected, the shape check says what is wrong with it.
    return iso_date(text) or text


def _odd(text: str, what: str, instead: str) -> ValueProblem:
    hint = f"write {instead}, or '{_short(text)}' in quotes if it is a word"
    return ValueProblem("odd-number", f"{_short(text)} {what}", hint)


def iso_date(text: str) -> datetime.date | None:
    """The date written as year-month-day, or None if it is not one or the day does not exist."""
    if not _DATE.fullmatch(text):
        return None
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        return None


def is_text(text: str, plain: bool) -> bool:
    """Whether a scalar is text: not a number, a date, true, false or nothing."""
    try:
        return isinstance(resolve(text, plain), str)
    except ValueProblem:
        return False


def to_data(node: Node) -> tuple[Data, list[tuple[Path, ValueProblem]]]:
    """The tree as plain data, and the scalars that are refused with their paths (None in their place)."""
    problems: list[tuple[Path, ValueProblem]] = []

    def build(at: Node, path: Path) -> Data:
        if isinstance(at, Scalar):
            try:
                return resolve(at.text, at.plain)
            except ValueProblem as problem:
                problems.append((path, problem))
                return None
        if isinstance(at, ListNode):
            return [build(item, (*path, index)) for index, item in enumerate(at.items)]
        return {key.text: build(value, (*path, key.text)) for key, value in at.entries}

    # Depth is bounded by the syntax phase, so this recursion is too.
    return build(node, ()), problems


def _short(text: str) -> str:
    return text if len(text) <= 24 else f"{text[:20]}..."
