"""What an edit asks for: the smallest steps that do it, and the data that the file must hold afterwards."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from copy import deepcopy
from dataclasses import dataclass
from typing import Any

from planner.files.syntax import read_tree
from planner.files.tree import ListNode, MappingNode, Node, Path, Scalar, child, find
from planner.files.values import Data, to_data


class CannotEdit(Exception):
    """The edit would change more of the file than was asked for. Says what to do by hand."""

    def __init__(self, message: str, hint: str = "edit the file by hand") -> None:
        super().__init__(message)
        self.message, self.hint = message, hint


@dataclass(frozen=True)
class Put:
    """Give the field or entry at ``path`` this value; a field that is not there is added where ``order`` has it."""

    path: Path
    value: Data
    order: tuple[str, ...] = ()


@dataclass(frozen=True)
class Remove:
    """Take the field or entry at ``path`` out."""

    path: Path


@dataclass(frozen=True)
class Insert:
    """A new mapping as entry ``index`` of the list at ``path``."""

    path: Path
    index: int
    value: Mapping[str, Data]


FileEdit = Put | Remove | Insert


def tree_of(text: str) -> Node:
    root, _, findings = read_tree(text.encode("utf-8"), "")
    if root is None or findings:
        raise CannotEdit("the file cannot be read", "fix its findings first: jumpblock check")
    return root


def smallest_steps(edit: FileEdit, root: Node) -> Iterator[FileEdit]:
    """The smallest edits that do the same: only entries and fields that really differ are touched."""
    before = find(root, edit.path) if isinstance(edit, Put) else None
    if not isinstance(edit, Put) or before is None:
        yield edit
        return
    yield from _differences(edit.path, before, edit.value)


def _differences(path: Path, node: Node, value: Data) -> Iterator[FileEdit]:
    if isinstance(node, MappingNode) and isinstance(value, dict) and value and node.entries:
        for name, inner in value.items():
            there = child(node, name)
            yield from (
                _differences((*path, name), there[1], inner) if there else [Put((*path, name), inner, tuple(value))]
            )
        yield from (Remove((*path, key.text)) for key, _ in node.entries if key.text not in value)
    elif isinstance(node, ListNode) and isinstance(value, list) and value and node.items:
        for index, inner in enumerate(value):
            if index < len(node.items):
                yield from _differences((*path, index), node.items[index], inner)
            else:
                yield Put((*path, index), inner)
        yield from (Remove((*path, index)) for index in reversed(range(len(value), len(node.items))))
    elif not _same(to_data(node)[0], value):
        yield Put(path, value)


def key_of(root: Node, path: Path) -> Scalar | None:
    parent = find(root, path[:-1])
    below = child(parent, path[-1]) if parent is not None and path else None
    return below[0] if below else None


def assert_only(edit: FileEdit, root: Node, changed: str) -> None:
    """What the changed text holds must be the old data with the edit made in it, and nothing else."""
    again, _, findings = read_tree(changed.encode("utf-8"), "")
    if again is None or findings or not _same(to_data(again)[0], _expected(to_data(root)[0], edit)):
        raise CannotEdit("this value cannot be written there without changing something else")


def _expected(data: Data, edit: FileEdit) -> Data:
    data = deepcopy(data)
    holder: Any = data
    for step in edit.path[:-1]:
        holder = holder[step]
    last = edit.path[-1]
    if isinstance(edit, Insert):
        holder[last].insert(edit.index, dict(edit.value))
    elif isinstance(edit, Remove):
        del holder[last]
    elif isinstance(holder, list) and last == len(holder):
        holder.append(edit.value)
    else:
        holder[last] = edit.value
    return data


def _same(one: Data, two: Data) -> bool:
    """Equal in kind too: 1, 1.0 and true are three different things in a file."""
    if isinstance(one, dict) and isinstance(two, dict):
        return one.keys() == two.keys() and all(_same(one[key], two[key]) for key in one)
    if isinstance(one, list) and isinstance(two, list):
        return len(one) == len(two) and all(_same(a, b) for a, b in zip(one, two, strict=True))
    return type(one) is type(two) and one == two
