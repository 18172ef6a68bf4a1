"""How figures were read that the planner would write in another way, each on its line."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel

from planner.domain.findings import Finding
from planner.files.document import Loaded
from planner.files.tree import ListNode, MappingNode, Node, Path, Scalar
from planner.units import UNITS, Dimension, QuantityError, figures_in_line, is_imperial, parse_quantity

_YARDS = re.compile(r"y(ar)?ds?", re.IGNORECASE)
_PLAIN = re.compile(r"[+-]?\d+(\.\d+)? ?([A-Za-z/]+)", re.ASCII)
_SHOWN: dict[Dimension, str] = {"mass": "kg", "length": "m", "time": "s", "force": "N", "speed": "m/s", "rate": "/s"}
_SHOWN_OF_IMPERIAL: dict[Dimension, str] = {"mass": "lb", "length": "in"}


def readings(loaded: Loaded[Any]) -> list[Finding]:
    """A note for each quantity that is written with fractions, signs, several parts or another word for a unit."""
    if loaded.value is None or not loaded.documents:
        return []
    document = loaded.documents[0]
    return [
        document.finding(path, "read-as", f"'{text}' is read as {told}", level="note")
        for path, text in _texts(document.root, loaded.value, ())
        if (told := _figures_in_words(text))
    ]


def _texts(node: Node, value: object, path: Path) -> Iterator[tuple[Path, str]]:
    """Every text of the file that became a figure, or a list of figures, with its path."""
    if isinstance(node, MappingNode):
        for key, below in node.entries:
            yield from _texts(below, _at(value, key.text), (*path, key.text))
    elif isinstance(node, ListNode) and isinstance(value, tuple):
        for index, (below, one) in enumerate(zip(node.items, value, strict=False)):
            yield from _texts(below, one, (*path, index))
    elif isinstance(node, Scalar) and isinstance(value, (float, tuple)):
        yield path, node.text


def _at(value: object, name: str) -> object:
    if isinstance(value, dict):
        return value.get(name)
    fields = type(value).model_fields if isinstance(value, BaseModel) else {}
    key = next((key for key, field in fields.items() if name in (key, field.alias)), None)
    return getattr(value, key) if key is not None else None


def _figures_in_words(text: str) -> str:
    """``1.88 m``; empty where the text is plain, or not a quantity."""
    plain = _PLAIN.fullmatch(text)
    if plain and any(plain[2] in units for units in UNITS.values()):
        return ""
    read = [_figure_in_words(part) for part in figures_in_line(text)]
    return ", ".join(read) if all(read) else ""


def _figure_in_words(text: str) -> str:
    for dimension, unit in _SHOWN.items():
        try:
            value = parse_quantity(text, dimension)
        except QuantityError:
            continue
        if is_imperial(text) and dimension in _SHOWN_OF_IMPERIAL:
            unit = "yd" if _YARDS.search(text) else _SHOWN_OF_IMPERIAL[dimension]
            return f"{round(value / UNITS[dimension][unit], 3):g} {unit}"
        return f"{value:.4g} {unit}"
    return ""
