"""A YAML file as nodes that know their place: every value and every key has its exact line, column and span."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

Path = tuple[str | int, ...]


class Mark(NamedTuple):
    """A place: ``line`` and ``column`` count from 1; ``start`` and ``end`` are character offsets into the text.

    ``source``: 0 for the file itself, n for the nth of the files that it takes values from.
    """

    line: int
    column: int
    start: int
    end: int
    source: int = 0


@dataclass(slots=True)  # frozen, it would take three times as long to make
class Scalar:
    """A single value as written. ``plain``: without quotes, so that ``12`` is a number and ``true`` a yes or no."""

    mark: Mark
    text: str
    plain: bool


@dataclass
class ListNode:
    mark: Mark
    items: list[Node] = field(default_factory=list)


@dataclass
class MappingNode:
    mark: Mark
    entries: list[tuple[Scalar, Node]] = field(default_factory=list)

    @cached_property
    def by_key(self) -> dict[str, tuple[Scalar, Node]]:
        """Entries by key; for a key written twice, the first. Read it only once the file is parsed."""
        found: dict[str, tuple[Scalar, Node]] = {}
        for key, value in self.entries:
            found.setdefault(key.text, (key, value))
        return found


Node = Scalar | ListNode | MappingNode


def is_blank(node: Node) -> bool:
    """A field without a value."""
    return isinstance(node, Scalar) and node.mark.start == node.mark.end


def child(node: Node, step: str | int) -> tuple[Scalar | None, Node] | None:
    """The key (for a mapping) and value one step down, or None where the file has no such thing."""
    if isinstance(node, MappingNode) and isinstance(step, str):
        return node.by_key.get(step)
    if isinstance(node, ListNode) and isinstance(step, int) and 0 <= step < len(node.items):
        return None, node.items[step]
    return None


def find(root: Node, path: Path) -> Node | None:
    """The value at ``path``, or None where the file has no such thing."""
    node = root
    for step in path:
        below = child(node, step)
        if below is None:
            return None
        node = below[1]
    return node


def mark_at(root: Node, path: Path, on_key: bool) -> Mark:
    """The place of the value at ``path`` (of its key with ``on_key``); of the nearest ancestor if it is not there.

    A field without a value has no text to point at: its key is the place then.
    """
    node, mark = root, root.mark
    for depth, step in enumerate(path, start=1):
        below = child(node, step)
        if below is None:
            break
        key, node = below
        mark = key.mark if key is not None and (is_blank(node) or (on_key and depth == len(path))) else node.mark
    return mark
