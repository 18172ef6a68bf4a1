"""Where a value really begins and ends: the parser ends a block after the blank lines and comments behind it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from planner.files.tree import ListNode, MappingNode, Node, Scalar, is_blank

_COMMENT = re.compile(r"#[^\r\n]*")
_LINE_END = re.compile(r"\r\n|\r|\n")


def is_flow(node: Node, text: str) -> bool:
    """Whether a list or mapping is written in brackets."""
    return not isinstance(node, Scalar) and text[node.mark.start : node.mark.start + 1] in ("[", "{")


def value_end(node: Node, text: str) -> int:
    """The offset after the last character that belongs to the value; for a blank one its start."""
    if isinstance(node, Scalar):
        if not node.plain and text[node.mark.start : node.mark.start + 1] in ("|", ">"):
            return node.mark.start + len(text[node.mark.start : node.mark.end].rstrip())
        return node.mark.end
    if is_flow(node, text):
        return node.mark.end
    if isinstance(node, ListNode):
        return max((value_end(item, text) for item in node.items), default=node.mark.start)
    return max((entry_end(key, value, text) for key, value in node.entries), default=node.mark.start)


def entry_end(key: Scalar, value: Node, text: str) -> int:
    """The end of a field with its value; of a field without one, of its colon."""
    return colon(key, text) if is_blank(value) else value_end(value, text)


def colon(key: Scalar, text: str) -> int:
    """The offset after the colon of a field."""
    return text.index(":", key.mark.end) + 1


def line_start(text: str, at: int) -> int:
    return max(text.rfind("\n", 0, at), text.rfind("\r", 0, at)) + 1


def line_stop(text: str, at: int) -> int:
    """The offset of the line end at or after ``at``, or the length of the text."""
    found = _LINE_END.search(text, at)
    return found.start() if found else len(text)


def next_line(text: str, at: int) -> int:
    """The offset of the line after that of ``at``, or the length of the text."""
    found = _LINE_END.search(text, at)
    return found.end() if found else len(text)


def line_end_of(text: str) -> str:
    """The line ending that the file uses."""
    found = _LINE_END.search(text)
    return found.group() if found else "\n"


def comments(root: Node, text: str, start: int, end: int) -> list[str]:
    """The comments between two offsets, in order."""
    kept = list(text[start:end])
    for scalar in _all_scalars(root):
        for at in range(max(scalar.mark.start, start), min(scalar.mark.end, end)):
            kept[at - start] = " " if kept[at - start] not in "\r\n" else kept[at - start]
    return [found.group().rstrip() for found in _COMMENT.finditer("".join(kept))]


def _all_scalars(node: Node) -> Iterator[Scalar]:
    waiting: list[Node] = [node]
    while waiting:
        at = waiting.pop()
        if isinstance(at, Scalar):
            yield at
        elif isinstance(at, ListNode):
            waiting.extend(at.items)
        elif isinstance(at, MappingNode):
            for key, value in at.entries:
                waiting += [key, value]
