"""A model's complaint, in a coach's words: what is wrong and what to write instead."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from planner.files.suggest import did_you_mean
from planner.files.tree import ListNode, MappingNode, Node, Path, Scalar
from planner.units import UNITS, Unreadable, parse_quantity

Detail = dict[str, Any]


@dataclass(frozen=True)
class Complaint:
    """``below``: a further step to the place to point at; ``on_key``: point at the field's name, not its value."""

    code: str
    message: str
    hint: str = ""
    below: Path = ()
    on_key: bool = False


def describe(detail: Detail, node: Node | None, label: str) -> Complaint:
    """Word one complaint. ``node``: what the file has there, None for nothing; ``label`` begins the message."""
    found = _complaint(detail, node)
    return replace(found, message=f"{label}{found.message}")


def _complaint(detail: Detail, node: Node | None) -> Complaint:
    kind = str(detail["type"])
    written = _written(node, detail.get("input"))
    if _is_blank(node) and kind != "union_tag_not_found" and not kind.endswith("too_short"):
        return Complaint("no-value", "there is no value", "write one, or delete the line")
    words = _WORDS.get(kind)
    if words is not None:
        return words(detail, written)
    if kind in _BOUNDS:
        return _out_of_range(detail, written)
    return Complaint("not-valid", f"{written} is not valid here", "compare it with a shipped file")


def _written(node: Node | None, value: object) -> str:
    if isinstance(node, Scalar):
        text = node.text if len(node.text) <= 60 else f"{node.text[:57]}..."
        return f"'{text}'"
    if isinstance(node, ListNode):
        return "a list"
    if isinstance(node, MappingNode):
        return "a table"
    return f"'{value}'" if isinstance(value, (str, int, float)) else "this"


def _is_blank(node: Node | None) -> bool:
    return isinstance(node, Scalar) and node.plain and node.text in ("", "~", "null", "Null", "NULL")


def _quantity(detail: Detail, written: str) -> Complaint:
    what, hint = detail["ctx"]["reason"], detail["ctx"]["hint"]
    subject = "" if what.startswith(("'", "is empty")) or what[:1].isdigit() else f"{written} "
    return Complaint("quantity", f"{subject}{what}", hint)


def _incomplete(detail: Detail, written: str) -> Complaint:
    """An incomplete part, in the words of its model, at the field that is at fault."""
    what, hint = detail["ctx"]["reason"], detail["ctx"]["hint"]
    field = detail["ctx"]["at"]
    there = isinstance(detail.get("input"), dict) and field[0] in detail["input"]
    return Complaint("not-complete", what, hint, below=tuple(field) if there else (), on_key=there)


def _choice(detail: Detail, written: str) -> Complaint:
    allowed = re.findall(r"'([^']*)'", str(detail["ctx"]["expected"]))
    if not allowed:
        numbers = ", ".join(re.findall(r"\d+", str(detail["ctx"]["expected"])))
        message = f"{written} is not one of the numbers allowed here"
        return Complaint("not-a-choice", message, f"use one of: {numbers}")
    on_key = "[key]" in detail["loc"]
    word = str(detail["loc"][-2]) if on_key else written.strip("'")
    shown = f"'{word}'" if on_key else written
    hint = did_you_mean(word, allowed)
    if hint.startswith("did you mean") and len(allowed) <= 8:
        hint += f" (allowed: {', '.join(allowed)})"
    return Complaint("not-a-choice", f"{shown} is not one of the words allowed here", hint, on_key=on_key)


def _test_kind(detail: Detail, written: str) -> Complaint:
    kind = detail["input"]["kind"]
    allowed = re.findall(r"'([^']*)'", str(detail["ctx"]["expected_tags"]))
    what, near = (f"'{kind}'", kind) if isinstance(kind, str) else ("this", "")
    message, hint = f"{what} is not a kind of test", did_you_mean(near, allowed, most_listed=len(allowed))
    return Complaint("unknown-test-kind", message, hint, below=("kind",))


def _no_test_kind(detail: Detail, written: str) -> Complaint:
    return Complaint("missing-field", "'kind' is missing", "say which test it is, such as kind: touch")


def _date(detail: Detail, written: str) -> Complaint:
    text = written.strip("'")
    if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
        return Complaint("not-a-date", f"the day {text} does not exist", "check month and day")
    return Complaint("not-a-date", f"{written} is not a date", "write year-month-day, such as 2025-03-31")


def _true_or_false(detail: Detail, written: str) -> Complaint:
    meant = {"yes": "true", "on": "true", "y": "true", "no": "false", "off": "false", "n": "false"}
    word = meant.get(written.strip("'").lower())
    hint = f"write {word}" if word else "write true or false"
    return Complaint("not-true-or-false", f"{written} is not true or false", hint)


def _text(detail: Detail, written: str) -> Complaint:
    if isinstance(detail.get("input"), (list, dict)):
        return Complaint("not-text", f"expected text, found {written}", "write one line of text")
    return Complaint("not-text", f"{written} is not text", f'put it in quotes: "{written.strip(chr(39))}"')


def _whole_number(detail: Detail, written: str) -> Complaint:
    value = detail.get("input")
    if isinstance(value, float) and value.is_integer():
        return Complaint("not-a-whole-number", f"{written} has a decimal point", f"write {int(value)}")
    if isinstance(value, str) and re.fullmatch(r"[+-]?\d+", value):
        return Complaint("not-a-whole-number", f"{written} is in quotes", f"write {value} without quotes")
    return Complaint("not-a-whole-number", f"{written} is not a whole number", "write a number such as 3")


def _in_the_unit_of(detail: Detail, value: str) -> tuple[str, str] | None:
    """``kg`` and the figure, where the field's name ends in its unit and the text is a quantity that fits it."""
    loc = detail.get("loc") or ()
    unit = str(loc[-1]).rpartition("_")[2] if loc else ""
    for dimension, units in UNITS.items():
        if unit in units:
            try:
                figure = float(f"{parse_quantity(value, dimension) / units[unit]:.4g}")
                return unit, f"{figure:g}"
            except Unreadable:
                return None
    return None


def _number(detail: Detail, written: str) -> Complaint:
    value = detail.get("input")
    if isinstance(value, str):
        known = _in_the_unit_of(detail, value)
        if known is not None:
            unit, figure = known
            hint = f"write the figure alone, in {unit}: {figure}"
            return Complaint("not-a-number", f"{written} is written with its unit", hint)
        plain = value.strip().replace(",", ".")
        if re.fullmatch(r"[+-]?\d+(\.\d+)?", plain):
            return Complaint("not-a-number", f"{written} is not a number", f"write {plain}")
    return Complaint("not-a-number", f"{written} is not a number", "write a number such as 0.5")


def _list(detail: Detail, written: str) -> Complaint:
    hint = "start each entry on its own line with '- ', or write [first, second]"
    if isinstance(detail.get("input"), str):
        hint = f"write [{written.strip(chr(39))}]"
    return Complaint("not-a-list", f"expected a list, found {written}", hint)


def _mapping(detail: Detail, written: str) -> Complaint:
    return Complaint("no-fields", f"expected fields, found {written}", "write 'field: value' lines, indented alike")


def _too_few(detail: Detail, written: str) -> Complaint:
    return Complaint("too-short", f"needs at least {_entries(detail['ctx']['min_length'])}", "add some")


def _too_many(detail: Detail, written: str) -> Complaint:
    return Complaint("too-long", f"takes at most {_entries(detail['ctx']['max_length'])}", "delete some")


def _entries(count: int) -> str:
    return f"{count} entry" if count == 1 else f"{count} entries"


def _short_text(detail: Detail, written: str) -> Complaint:
    least = detail["ctx"]["min_length"]
    if least == 1:
        return Complaint("too-short", "there is no text", "write some")
    return Complaint("too-short", f"the text is shorter than {least} characters", "write more")


def _long_text(detail: Detail, written: str) -> Complaint:
    most = detail["ctx"]["max_length"]
    return Complaint("too-long", f"the text is longer than {most} characters", "shorten it")


def _pattern(detail: Detail, written: str) -> Complaint:
    slug = re.sub(r"[^a-z0-9]+", "-", written.strip("'").lower()).strip("-")
    hint = "use small letters, digits and single hyphens" + (f": {slug}" if slug else "")
    if (detail.get("loc") or ("",))[-1] == "movement":
        hint += "; jumpblock library list has each movement's id in front"
    return Complaint("not-an-id", f"{written} is not an id", hint)


def _not_finite(detail: Detail, written: str) -> Complaint:
    return Complaint("not-finite", f"{written} is not a finite number", "write a number")


_BOUNDS = {
    "greater_than_equal": ("ge", "less than", "the least"),
    "greater_than": ("gt", "not more than", "the limit"),
    "less_than_equal": ("le", "more than", "the most"),
    "less_than": ("lt", "not less than", "the limit"),
}


def _out_of_range(detail: Detail, written: str) -> Complaint:
    """Bounds of quantities are in kg, m, s or N; the coach reads them in the unit that was written."""
    key, comparison, name = _BOUNDS[str(detail["type"])]
    if isinstance(detail.get("input"), datetime.date):
        message = f"{written} is {comparison} {detail['ctx'][key]}, {name} allowed here"
        return Complaint("out-of-range", message, "check the year")
    bound = float(detail["ctx"][key])
    unit = re.search(r"([A-Za-z/]+)\s*$", written.strip("'"))
    shown = f"{bound:g}"
    for units in UNITS.values():
        if unit and unit.group(1) in units:
            shown = f"{float(f'{bound / units[unit.group(1)]:.4g}'):g} {unit.group(1)}"
    message = f"{written} is {comparison} {shown}, {name} allowed here"
    return Complaint("out-of-range", message, "check the number and its unit" if unit else "check the number")


_WORDS: dict[str, Callable[[Detail, str], Complaint]] = {
    "quantity": _quantity,
    "incomplete": _incomplete,
    "literal_error": _choice,
    "union_tag_invalid": _test_kind,
    "union_tag_not_found": _no_test_kind,
    "date_type": _date,
    "bool_type": _true_or_false,
    "string_type": _text,
    "int_type": _whole_number,
    "int_from_float": _whole_number,
    "float_type": _number,
    "tuple_type": _list,
    "list_type": _list,
    "dict_type": _mapping,
    "model_type": _mapping,
    "model_attributes_type": _mapping,
    "too_short": _too_few,
    "string_too_short": _short_text,
    "too_long": _too_many,
    "string_too_long": _long_text,
    "string_pattern_mismatch": _pattern,
    "finite_number": _not_finite,
}
