"""A block to YAML that a coach can read and edit, and to JSON. What is written reads back as the same block, exactly.

A writer of our own: the layout is then the same with every release of the YAML package, and the file is written fast.
"""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Iterator
from typing import Any

from planner.domain.block import Block
from planner.files.text import HIDDEN
from planner.files.values import is_text

LATER_FIELDS = ("revision", "before", "edits")  # of later releases: a new block is written as before
_WIDTH = 110
_BREAKS_PLAIN = re.compile(r": | #|:$|[\x00-\x1f]")
_BREAKS_FLOW = re.compile(r"[,\[\]{}:]")
_EXACT_INTEGERS = 1e15


def block_to_yaml(block: Block) -> str:
    """Keys in the model's order, null where unused, short flat mappings and lists on one line."""
    return plain_to_yaml(_without_unused(block.model_dump()))


def block_to_json(block: Block) -> str:
    """The same keys and values as JSON, indented, dates as year-month-day."""
    return _visible(json.dumps(block_as_data(block), ensure_ascii=False, indent=2, allow_nan=False)) + "\n"


def block_as_data(block: Block) -> dict[str, Any]:
    """The same keys and values as plain data."""
    return _without_unused(block.model_dump(mode="json"))


def _without_unused(block: dict[str, Any]) -> dict[str, Any]:
    """Without what only a revised block has, or one that follows another."""
    return {key: value for key, value in block.items() if key not in LATER_FIELDS or value}


def plain_to_yaml(mapping: dict[str, Any]) -> str:
    """A mapping of plain values (text, numbers, dates, yes or no, lists, mappings) in its own order."""
    return "".join(f"{line}\n" for line in _mapping_lines(mapping, 0))


def _mapping_lines(mapping: dict[str, Any], indent: int) -> Iterator[str]:
    pad = " " * indent
    for key, value in mapping.items():
        head = f"{pad}{_text(str(key), flow=True)}:"
        short = _on_one_line(value, _WIDTH - len(head))
        if short is not None:
            yield f"{head} {short}"
        else:
            yield head
            yield from _lines(value, indent + 2)


def _lines(value: Any, indent: int) -> Iterator[str]:
    if isinstance(value, dict):
        yield from _mapping_lines(value, indent)
        return
    pad = " " * indent
    for item in value:
        short = _on_one_line(item, _WIDTH - indent - 2)
        if short is not None:
            yield f"{pad}- {short}"
            continue
        inner = list(_lines(item, indent + 2))
        yield f"{pad}- {inner[0][indent + 2 :]}"
        yield from inner[1:]


def _on_one_line(value: Any, room: int) -> str | None:
    """A scalar; or a mapping or list of scalars if it fits; else None."""
    if isinstance(value, dict):
        if any(isinstance(inner, (dict, list, tuple)) and inner for inner in value.values()):
            return None
        fields = (f"{_text(str(key), flow=True)}: {one_scalar(inner, flow=True)}" for key, inner in value.items())
        inside = ", ".join(fields)
        return f"{{{inside}}}" if len(inside) <= room or not value else None
    if isinstance(value, (list, tuple)):
        if any(isinstance(inner, (dict, list, tuple)) for inner in value):
            return None
        inside = ", ".join(one_scalar(inner, flow=True) for inner in value)
        return f"[{inside}]" if len(inside) <= room or not value else None
    return one_scalar(value, flow=False)


def one_scalar(value: Any, flow: bool) -> str:
    """A single value on one line; ``flow``: fit to go inside brackets."""
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return _text(value, flow)
    if isinstance(value, int):
        return str(value)
    if isinstance(value, float):
        # repr is the shortest text that reads back as the same number; 20 reads back as 20.0 where 20.0 was.
        return str(int(value)) if value.is_integer() and abs(value) < _EXACT_INTEGERS else repr(value)
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, (dict, list, tuple)):
        return "{}" if isinstance(value, dict) else "[]"
    raise TypeError(f"a block has no values of type {type(value).__name__}")


def _text(text: str, flow: bool) -> str:
    """Plain where that reads back as the same text, else in double quotes."""
    if (
        text
        and (text[0].isalnum() or text[0] == "(")
        and not text[-1].isspace()
        and not _BREAKS_PLAIN.search(text)
        and not HIDDEN.search(text)
        and not (flow and _BREAKS_FLOW.search(text))
        and is_text(text, plain=True)
    ):
        return text
    return in_quotes(text)


def in_quotes(text: str) -> str:
    return _visible(json.dumps(text, ensure_ascii=False))


def _visible(text: str) -> str:
    """Hidden characters, which a file of ours must not hold, as escapes."""
    return HIDDEN.sub(lambda found: f"\\u{ord(found.group()):04x}", text)
