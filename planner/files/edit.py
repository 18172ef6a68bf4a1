"""Edits that keep a file's layout: only characters between the marks of the nodes in question change.

After each edit the text is read again, and has to hold exactly the asked-for data; otherwise nothing is returned.
"""

from __future__ import annotations

import codecs
from collections.abc import Sequence
from dataclasses import dataclass

from planner.files import edit_spans as spans
from planner.files.edit_steps import (
    CannotEdit,
    FileEdit,
    Insert,
    Put,
    Remove,
    assert_only,
    key_of,
    smallest_steps,
    tree_of,
)
from planner.files.edit_values import block_text, entry_lines, flow_text, scalar_text
from planner.files.tree import ListNode, MappingNode, Node, Path, Scalar, find, is_blank
from planner.files.values import Data


@dataclass(frozen=True)
class Splice:
    start: int
    end: int
    text: str

    def applied(self, text: str) -> str:
        return text[: self.start] + self.text + text[self.end :]


def edited_bytes(raw: bytes, edits: Sequence[FileEdit]) -> bytes:
    """As ``edited``, of a file's bytes; a byte-order mark stays."""
    mark = codecs.BOM_UTF8 if raw.startswith(codecs.BOM_UTF8) else b""
    return mark + edited(raw.decode("utf-8-sig"), edits).encode("utf-8")


def edited(text: str, edits: Sequence[FileEdit]) -> str:
    """The text with the edits made one after another. Raises CannotEdit; the text itself must be readable."""
    for edit in edits:
        for step in smallest_steps(edit, tree_of(text)):
            root = tree_of(text)
            changed = _splice(step, root, text).applied(text)
            assert_only(step, root, changed)
            text = changed
    return text


def _splice(edit: FileEdit, root: Node, text: str) -> Splice:
    if isinstance(edit, Insert):
        return _insertion(edit, root, text)
    if isinstance(edit, Remove):
        return _removal(edit.path, root, text)
    there = find(root, edit.path)
    return _addition(edit, root, text) if there is None else _replacement(edit, there, root, text)


def _replacement(edit: Put, node: Node, root: Node, text: str) -> Splice:
    flow = _inside_flow(root, edit.path, text)
    start, end = node.mark.start, spans.value_end(node, text)
    key = key_of(root, edit.path)
    since = spans.colon(key, text) if key is not None else start
    if is_blank(node):
        start = end = since
    if spans.comments(root, text, since, end) or _has_header_comment(node, text):
        raise CannotEdit("there is a comment inside the value to be replaced")
    if key is not None and not flow and not _stays_a_line(node, edit.value, text):
        start = spans.colon(key, text)
        indent, head = _entry_indent(node, text, key.mark.column - 1), key.mark.column + len(key.text)
        return Splice(start, max(start, end), block_text(edit.value, indent, head, spans.line_end_of(text)))
    written = _one_line(edit.value, node if isinstance(node, Scalar) else None, text, flow)
    return Splice(start, end, f" {written}" if key is not None and is_blank(node) else written)


def _one_line(value: Data, before: Scalar | None, text: str, flow: bool) -> str:
    return flow_text(value) if isinstance(value, (list, dict)) else scalar_text(value, before, text, flow)


def _has_header_comment(node: Node, text: str) -> bool:
    """Whether a folded or literal text carries a comment behind its | or >."""
    header = text[node.mark.start : spans.line_stop(text, node.mark.start)]
    return isinstance(node, Scalar) and not node.plain and header[:1] in ("|", ">") and "#" in header


def _stays_a_line(node: Node, value: Data, text: str) -> bool:
    """Whether the new value is put just where the old one was: words for words, brackets for brackets."""
    if isinstance(node, Scalar):
        before = text[node.mark.start : node.mark.end]
        folded = not node.plain and before[:1] in ("|", ">")
        return bool(before) and not isinstance(value, (list, dict)) and not folded and "\n" not in before
    return spans.is_flow(node, text)


def _entry_indent(node: Node, text: str, column: int) -> int:
    """The column of a block value's lines, as it was written before, else two further in than its field."""
    if isinstance(node, (ListNode, MappingNode)) and not spans.is_flow(node, text):
        return node.mark.column - 1
    return column + 2


def _addition(edit: Put, root: Node, text: str) -> Splice:
    *above, last = edit.path
    parent = find(root, tuple(above))
    flow = _inside_flow(root, edit.path, text)
    if isinstance(parent, MappingNode) and isinstance(last, str):
        if spans.is_flow(parent, text):
            return _into_flow(parent, f"{last}: {flow_text(edit.value)}", text)
        key, value = _predecessor(parent, last, edit.order)
        at, column = spans.line_stop(text, spans.entry_end(key, value, text)), key.mark.column - 1
        line_end = spans.line_end_of(text)
        written = block_text(edit.value, column + 2, column + len(last) + 1, line_end)
        return Splice(at, at, f"{line_end}{' ' * column}{last}:{written}")
    if isinstance(parent, ListNode) and last == len(parent.items) and parent.items:
        if spans.is_flow(parent, text):
            return _into_flow(parent, flow_text(edit.value), text)
        at = spans.line_stop(text, spans.value_end(parent.items[-1], text))
        written = _one_line(edit.value, None, text, flow)
        return Splice(at, at, f"{spans.line_end_of(text)}{' ' * (parent.mark.column - 1)}- {written}")
    raise CannotEdit("there is no place for this value", "add the field that it belongs to first")


def _predecessor(parent: MappingNode, name: str, order: tuple[str, ...]) -> tuple[Scalar, Node]:
    """The field after which a new one is added: the nearest before it in the usual order, else the last."""
    before = order[: order.index(name)] if name in order else ()
    return next(
        (parent.by_key[near] for near in reversed(before) if near in parent.by_key),
        parent.entries[0 if before or name in order else -1],
    )


def _into_flow(parent: ListNode | MappingNode, written: str, text: str) -> Splice:
    if not _entries(parent):
        at = parent.mark.start + 1
        return Splice(at, at, written)
    if isinstance(parent, ListNode):
        at = spans.value_end(parent.items[-1], text)
    else:
        at = spans.entry_end(*parent.entries[-1], text)
    return Splice(at, at, f", {written}")


def _entries(parent: ListNode | MappingNode) -> Sequence[object]:
    return parent.items if isinstance(parent, ListNode) else parent.entries


def _insertion(edit: Insert, root: Node, text: str) -> Splice:
    parent = find(root, edit.path)
    if not isinstance(parent, ListNode) or not parent.items or spans.is_flow(parent, text):
        raise CannotEdit("the list is written in brackets", "write it one entry a line first, each starting with '- '")
    if not 0 <= edit.index <= len(parent.items):
        raise CannotEdit("there is no such place in the list")
    line_end, dash = spans.line_end_of(text), parent.mark.column - 1
    gap = line_end * (2 if _blank_lines_between(parent, text) else 1)
    neighbour = parent.items[max(edit.index, 1) - 1]
    inner = max(neighbour.mark.column - 1, dash + 2)
    written = entry_lines(edit.value, dash, inner, line_end)
    if edit.index == 0:
        at = spans.line_start(text, text.rindex("-", 0, neighbour.mark.start))
        return Splice(at, at, written + gap)
    at = spans.line_stop(text, spans.value_end(neighbour, text))
    return Splice(at, at, gap + written)


def _blank_lines_between(parent: ListNode, text: str) -> bool:
    """Whether entries are set apart by a blank line; a single entry is taken to be."""
    if len(parent.items) == 1:
        return True
    one, two = parent.items[:2]
    between = text[spans.line_stop(text, spans.value_end(one, text)) : two.mark.start]
    return any(not line.strip() for line in between.splitlines()[1:-1])


def _removal(path: Path, root: Node, text: str) -> Splice:
    *above, last = path
    parent, node = find(root, tuple(above)), find(root, path)
    if parent is None or node is None:
        raise CannotEdit("there is no such field")
    key = key_of(root, path)
    siblings = () if isinstance(parent, Scalar) else _entries(parent)
    if len(siblings) == 1:
        return _replacement(Put(tuple(above), [] if isinstance(parent, ListNode) else {}), parent, root, text)
    if spans.is_flow(parent, text):
        return _out_of_flow(parent, last, root, text)
    end = spans.entry_end(key, node, text) if key is not None else spans.value_end(node, text)
    first = key.mark.start if key is not None else text.rindex("-", 0, node.mark.start)
    start = spans.line_start(text, first)
    if text[start:first].strip():
        raise CannotEdit("the field shares its line with another")
    kept = spans.comments(root, text, start, spans.line_stop(text, end))
    stop = spans.next_line(text, end)
    if isinstance(parent, ListNode) and not text[:start].rpartition("\n")[0].rpartition("\n")[2].strip():
        after = spans.next_line(text, stop)  # of the blank lines before and after an entry, one is left
        stop = after if not text[stop:after].strip() else stop
    if kept:  # a coach's comments stay, even those about a removed field
        pad, line_end = text[start:first], spans.line_end_of(text)
        return Splice(start, spans.line_stop(text, end), line_end.join(f"{pad}{comment}" for comment in kept))
    if stop == len(text) and start and spans.line_stop(text, end) == stop:  # the last line has no line end of its own
        before = start - (2 if text[start - 2 : start] == "\r\n" else 1)
        return Splice(before, stop, "")
    return Splice(start, stop, "")


def _out_of_flow(parent: Node, last: str | int, root: Node, text: str) -> Splice:
    if isinstance(parent, MappingNode):
        bounds = [(key.mark.start, spans.entry_end(key, value, text)) for key, value in parent.entries]
        index = next(i for i, (key, _) in enumerate(parent.entries) if key.text == last)
    else:
        assert isinstance(parent, ListNode) and isinstance(last, int)
        bounds = [(item.mark.start, spans.value_end(item, text)) for item in parent.items]
        index = last
    start, end = (bounds[index][0], bounds[1][0]) if index == 0 else (bounds[index - 1][1], bounds[index][1])
    if spans.comments(root, text, start, end):
        raise CannotEdit("there are comments next to the value to be removed")
    return Splice(start, end, "")


def _inside_flow(root: Node, path: Path, text: str) -> bool:
    """Whether the value at ``path`` is inside brackets of a list or mapping above it."""
    above = [find(root, path[:depth]) for depth in range(len(path))]
    return any(node is not None and spans.is_flow(node, text) for node in above)
