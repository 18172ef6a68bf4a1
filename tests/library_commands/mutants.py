"""Ways to break a file at one known place, planted by the types of its fields: what, and where it must show."""

from __future__ import annotations

import datetime
import random
import types
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel, BeforeValidator

from planner.files.document import Document
from planner.files.edit_spans import is_flow, line_start, line_stop, next_line, value_end
from planner.files.kinds import model_of
from planner.files.schema_template import with_own_limits
from planner.files.tree import ListNode, MappingNode, Node, Scalar
from planner.rules.own_limits import own_limits

REFERENCES = {
    "easier",
    "harder",
    "of",
    "movement",
    "movements",
    "bans",
    "shapes",
    "test_week",
    "equipment",
    "items",
    "scheme",
}
NOWHERE = "no-such-thing-anywhere"


@dataclass(frozen=True)
class Mutant:
    """``line``: where a finding must stand; 0 where only a traceback would be wrong."""

    sort: str
    text: str
    line: int
    what: str


@dataclass(frozen=True)
class Spot:
    """A value in the file with the type that reads it and the field that it belongs to."""

    field: str
    key: Scalar | None
    key_words: tuple[str, ...]  # the only words this key may be; empty: any
    node: Node
    parent: Node
    required: bool
    annotation: Any
    metadata: tuple[Any, ...]


def mutants(document: Document, kind: str, dice: random.Random, each: int) -> list[Mutant]:
    """Up to ``each`` mutants of every sort."""
    planted_at = spots(document.root, with_own_limits(model_of(kind), own_limits()))
    found: list[Mutant] = []
    if kind == "card-layout/1":  # names nothing outside itself
        planted_at = [replace(spot, field="") if spot.field in REFERENCES else spot for spot in planted_at]
    for make in (_misspelt_field, _misspelt_word, _mistyped, _out_of_range, _dangling, _twice, _missing):
        planted = [mutant for spot in planted_at if (mutant := make(spot, document.text, dice)) is not None]
        found += dice.sample(planted, min(each, len(planted)))
    for disturb in (_line_deleted, _lines_swapped, _reindented, _cut_short):
        found += [disturb(document.text, dice) for _ in range(each)]
    return found


def spots(root: Node, model: type[BaseModel]) -> list[Spot]:
    """Every value of a file with the field of the model that reads it."""
    return list(_spots(root, model, (), "", None, (), root))


def _spots(
    node: Node,
    annotation: Any,
    metadata: tuple[Any, ...],
    field: str,
    key: Scalar | None,
    words: tuple[str, ...],
    parent: Node,
    required: bool = False,
) -> Iterator[Spot]:
    annotation, metadata = _bare(annotation, metadata)
    if get_origin(annotation) in (Union, types.UnionType):
        annotation = _member(annotation, node)
    yield Spot(field, key, words, node, parent, required, annotation, metadata)
    if isinstance(node, ListNode) and get_origin(annotation) is tuple:
        for item in node.items:
            yield from _spots(item, get_args(annotation)[0], (), field, None, (), node)
    if not isinstance(node, MappingNode):
        return
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        fields = {one.alias or name: one for name, one in annotation.model_fields.items()}
        for name, value in node.entries:
            one = fields.get(name.text)
            if one is None:  # a template names its limits file; nothing of that line is a field
                continue
            yield from _spots(
                value, one.annotation, tuple(one.metadata), name.text, name, tuple(fields), node, one.is_required()
            )
    elif get_origin(annotation) is dict:
        allowed, inner = get_args(annotation)
        closed = get_args(_bare(allowed, ())[0]) if get_origin(_bare(allowed, ())[0]) is Literal else ()
        for name, value in node.entries:
            yield from _spots(value, inner, (), field, name if closed else None, closed, node)


def _bare(annotation: Any, metadata: tuple[Any, ...]) -> tuple[Any, tuple[Any, ...]]:
    while True:
        if get_origin(annotation) is Annotated:
            annotation, *more = get_args(annotation)
            metadata = (*metadata, *(part for one in more for part in (getattr(one, "metadata", None) or [one])))
            continue
        if get_origin(annotation) in (Union, types.UnionType):
            members = [member for member in get_args(annotation) if member is not type(None)]
            if len(members) == 1:
                annotation = members[0]
                continue
        return annotation, metadata


def _member(annotation: Any, node: Node) -> Any:
    """The model of a union that the entry's ``kind`` names."""
    stated = node.by_key.get("kind") if isinstance(node, MappingNode) else None
    for member in get_args(annotation):
        kind = getattr(member, "model_fields", {}).get("kind")
        if stated and kind and isinstance(stated[1], Scalar) and stated[1].text in get_args(kind.annotation):
            return member
    return None


def _put(sort: str, text: str, at: int, end: int, new: str, shown: int | None = None) -> Mutant:
    changed = text[:at] + new + text[end:]
    return Mutant(
        sort, changed, _line(changed, at if shown is None else shown), f"{text[at:end][:40]!r} -> {new[:40]!r}"
    )


def _line(text: str, at: int) -> int:
    return text[:at].count("\n") + 1


def _garbled(word: str, dice: random.Random, known: tuple[str, ...]) -> str | None:
    """The word with a letter lost, doubled or two swapped; never another word that is known."""
    at = dice.randrange(len(word))
    ways = [
        word[:at] + word[at + 1 :],
        word[:at] + word[at] + word[at:],
        word[:at] + word[at + 1 : at + 2] + word[at : at + 1] + word[at + 2 :],
    ]
    fitting = [
        way for way in ways if way and way != word and way not in known and way[0].isalpha() and way[-1].isalnum()
    ]
    return dice.choice(fitting) if fitting else None


def _misspelt_field(spot: Spot, text: str, dice: random.Random) -> Mutant | None:
    if spot.key is None or not spot.key_words or spot.key.text == "file":
        return None
    new = _garbled(spot.key.text, dice, spot.key_words)
    return _put("misspelt field", text, spot.key.mark.start, spot.key.mark.end, new) if new else None


def _misspelt_word(spot: Spot, text: str, dice: random.Random) -> Mutant | None:
    if not isinstance(spot.node, Scalar) or get_origin(spot.annotation) is not Literal or spot.field == "file":
        return None
    if not all(isinstance(word, str) for word in get_args(spot.annotation)):
        return None
    new = _garbled(spot.node.text, dice, get_args(spot.annotation))
    return _put("misspelt word", text, spot.node.mark.start, value_end(spot.node, text), new) if new else None


def _mistyped(spot: Spot, text: str, dice: random.Random) -> Mutant | None:
    if spot.field in ("", "file") or _is_blank(spot.node):
        return None
    kind, quantity = spot.annotation, any(isinstance(part, BeforeValidator) for part in spot.metadata)
    flat = not isinstance(spot.node, Scalar) and is_flow(spot.node, text)
    wrong = {int: "lots", float: "lots", bool: "yes", datetime.date: "soon", str: "[a, b]"}
    if quantity and isinstance(spot.node, Scalar):
        new: str | None = "17"
    elif isinstance(spot.node, Scalar):
        new = wrong.get(kind) or ("17" if get_origin(kind) is Literal else None)
    else:
        new = "17" if flat else None
    if new is None:
        return None
    return _put("mistyped", text, spot.node.mark.start, value_end(spot.node, text), new)


def _out_of_range(spot: Spot, text: str, dice: random.Random) -> Mutant | None:
    most = [
        limit
        for part in spot.metadata
        for limit in (getattr(part, "le", None), getattr(part, "lt", None))
        if limit is not None
    ]
    least = [
        limit
        for part in spot.metadata
        for limit in (getattr(part, "ge", None), getattr(part, "gt", None))
        if limit is not None
    ]
    if not isinstance(spot.node, Scalar) or not most or spot.annotation not in (int, float):
        return None
    number, _, unit = spot.node.text.partition(" ")
    worst = (
        str(int(float(most[0])) + 1) + ("000000" if unit else "")
        if not least or dice.random() < 0.6
        else str(int(float(least[0])) - 1)
    )
    try:
        float(number)
    except ValueError:
        return None
    return _put("out of range", text, spot.node.mark.start, value_end(spot.node, text), f"{worst} {unit}".strip())


def _dangling(spot: Spot, text: str, dice: random.Random) -> Mutant | None:
    if not isinstance(spot.node, Scalar) or spot.annotation is not str or spot.field not in REFERENCES:
        return None
    return _put("dangling", text, spot.node.mark.start, value_end(spot.node, text), NOWHERE)


def _twice(spot: Spot, text: str, dice: random.Random) -> Mutant | None:
    if spot.key is None or _is_blank(spot.node):
        return None
    start, end = spot.key.mark.start, value_end(spot.node, text)
    if is_flow(spot.parent, text):
        return _put("twice", text, end, end, f", {text[start:end]}", end + 2)
    line = line_start(text, start)
    if text[line:start].strip():
        return None
    stop = next_line(text, end)
    return _put("twice", text, stop, stop, text[line:stop], stop + (start - line))


def _missing(spot: Spot, text: str, dice: random.Random) -> Mutant | None:
    """A required field of a model taken out: told on the first line of its entry."""
    if spot.key is None or not spot.required or spot.key.text == "file" or not isinstance(spot.parent, MappingNode):
        return None
    start, end = spot.key.mark.start, value_end(spot.node, text)
    if is_flow(spot.parent, text):
        keys = [key for key, _ in spot.parent.entries]
        index = keys.index(spot.key)
        if len(keys) == 1:
            return None
        if index + 1 < len(keys):
            return _put("missing", text, start, keys[index + 1].mark.start, "", spot.parent.mark.start)
        return _put(
            "missing", text, value_end(spot.parent.entries[index - 1][1], text), end, "", spot.parent.mark.start
        )
    line = line_start(text, start)
    if text[line:start].strip() or len(spot.parent.entries) == 1:
        return None
    first = spot.parent.entries[0][0].mark.start
    return _put("missing", text, line, next_line(text, end), "", first if first < line else line)


def _is_blank(node: Node) -> bool:
    return isinstance(node, Scalar) and node.mark.start == node.mark.end


def _line_deleted(text: str, dice: random.Random) -> Mutant:
    at = line_start(text, dice.randrange(len(text)))
    return Mutant("line deleted", text[:at] + text[next_line(text, at) :], 0, text[at : line_stop(text, at)])


def _lines_swapped(text: str, dice: random.Random) -> Mutant:
    lines = text.split("\n")
    one, two = dice.randrange(len(lines)), dice.randrange(len(lines))
    lines[one], lines[two] = lines[two], lines[one]
    return Mutant("lines swapped", "\n".join(lines), 0, f"{one + 1} and {two + 1}")


def _reindented(text: str, dice: random.Random) -> Mutant:
    lines = text.split("\n")
    at = dice.randrange(len(lines))
    by = dice.choice([-2, -1, 1, 2])
    lines[at] = " " * by + lines[at] if by > 0 else lines[at][:-by].lstrip() + lines[at][-by:]
    return Mutant("reindented", "\n".join(lines), 0, f"line {at + 1} by {by}")


def _cut_short(text: str, dice: random.Random) -> Mutant:
    at = dice.randrange(len(text))
    return Mutant("cut short", text[:at], 0, f"at {at}")
