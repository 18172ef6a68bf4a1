"""Values as YAML text: plain where that reads back alike, in the quotes it had before, folded where long."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping, Sequence

from planner.files.dump import in_quotes, one_scalar
from planner.files.tree import Scalar
from planner.files.values import Data, Value

WIDEST = 120  # a line that still fits next to a column of findings in an editor


def _one(value: Value, flow: bool) -> str:
    """A single value; a number with a decimal point keeps it."""
    return repr(value) if isinstance(value, float) else one_scalar(value, flow)


def flow_text(value: Data) -> str:
    """A value on one line, fit to go inside brackets."""
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{_one(key, flow=True)}: {flow_text(inner)}" for key, inner in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(flow_text(inner) for inner in value) + "]"
    return _one(value, flow=True)


def scalar_text(value: Value, before: Scalar | None, source: str, flow: bool) -> str:
    """A scalar on one line. Text keeps the quotes of the text it replaces; ``source``: the file that this is in."""
    quote = source[before.mark.start] if before and not before.plain else ""
    if isinstance(value, str) and quote == "'" and value.isprintable():
        return "'" + value.replace("'", "''") + "'"
    return in_quotes(value) if isinstance(value, str) and quote == '"' else _one(value, flow)


def block_text(value: Data, indent: int, head: int, line_end: str) -> str:
    """A value to follow ``key:`` (itself ``head`` characters wide), its further lines indented by ``indent`` spaces.

    Starts with the space or the line end that parts it from the colon.
    """
    pad = f"{line_end}{' ' * indent}"
    if isinstance(value, list) and _wants_lines(value):
        return "".join(f"{pad}- {_entry_text(item, indent, line_end)}" for item in value)
    if isinstance(value, Mapping) and value and head + len(flow_text(value)) > 2 * WIDEST:
        return "".join(
            f"{pad}{key}:{block_text(v, indent + 2, indent + len(key) + 2, line_end)}" for key, v in value.items()
        )
    if isinstance(value, (list, Mapping)):
        return f" {flow_text(value)}"
    text = _one(value, flow=False)
    if isinstance(value, str) and head + 1 + len(text) > WIDEST and _folds(value):
        lines = textwrap.wrap(value, WIDEST - indent, break_long_words=False, break_on_hyphens=False)
        return f" >-{pad}{pad.join(lines)}"
    return f" {text}"


def entry_lines(entry: Mapping[str, Data], dash: int, inner: int, line_end: str) -> str:
    """A whole mapping as one entry of a list: dash in column ``dash`` (from 0), its fields in column ``inner``."""
    lines = []
    for key, value in entry.items():
        head = f"{key}:"
        lines.append(f"{head}{block_text(value, inner + 2, inner + len(head), line_end)}")
    between = f"{line_end}{' ' * inner}"
    return " " * dash + "-" + " " * (inner - dash - 1) + between.join(lines)


def _entry_text(value: Data, indent: int, line_end: str) -> str:
    if isinstance(value, Mapping) and indent + 2 + len(flow_text(value)) > WIDEST:
        return _broken(value, indent + 3, line_end)
    return flow_text(value) if isinstance(value, (list, Mapping)) else _one(value, flow=False)


def _broken(value: Mapping[str, Data], indent: int, line_end: str) -> str:
    """A mapping in braces over several lines, broken between its fields."""
    lines = [""]
    fields = [f"{_one(key, flow=True)}: {flow_text(inner)}" for key, inner in value.items()]
    for number, field in enumerate(fields):
        text = field + ("," if number + 1 < len(fields) else "}")
        if lines[-1] and indent + len(lines[-1]) + 1 + len(text) > WIDEST:
            lines.append("")
        lines[-1] += f" {text}" if lines[-1] else text
    return "{" + f"{line_end}{' ' * indent}".join(lines)


def _wants_lines(values: Sequence[Data]) -> bool:
    """Sentences and long mappings take lines of their own; a few words share one."""
    if any(isinstance(value, Mapping) for value in values) and len(flow_text(list(values))) > WIDEST:
        return True
    return any(isinstance(value, str) and " " in value.strip() for value in values)


def _folds(text: str) -> bool:
    """Whether folding gives the same text back: words parted by single spaces, and nothing else."""
    return "  " not in text and text == text.strip() and text.isprintable()
