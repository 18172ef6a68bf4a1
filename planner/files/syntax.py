"""Text to a tree of nodes with exact places, in the plain part of YAML 1.2 that a coach's file needs.

Anchors, aliases, merge keys, tags, directives and several documents are refused: they make a file mean something else
than it shows. The parser's events are taken one by one and never by recursion, so that depth and size stay bounded
whatever the file holds. Each file gets a parser of its own: a directive read by a shared one would change later files.

Two parsers give those events. The one in C takes a fiftieth of the time and reads what is well formed; the other knows
what is wrong, and where. Where the two may differ, the second has its way.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import islice
from typing import Any

from planner.domain.findings import Finding
from planner.files.text import HIDDEN, MOST_FINDINGS, read_text, split_lines
from planner.files.tree import ListNode, MappingNode, Mark, Node, Scalar
from planner.files.values import is_text

DEEPEST = 32
MOST_VALUES = 100_000  # a block of a year has about half as many; more would keep a coach waiting for nothing
MOST_ENTRIES = 5_000  # in one list
# How a parser itself fails on malformed text, by a character that no text has, say.
_FAILS = (RecursionError, ValueError, LookupError, OverflowError, AttributeError, TypeError, AssertionError)


class _Refusal(Exception):
    def __init__(self, mark: Any, code: str, message: str, hint: str) -> None:
        super().__init__(message)
        self.place = (int(mark.line) + 1, int(mark.column) + 1) if mark else (1, 1)
        self.code, self.message, self.hint = code, message, hint


def read_tree(raw: bytes, path: str) -> tuple[Node | None, str, list[Finding]]:
    """Bytes to (tree or None, text, findings). Never raises, whatever the bytes."""
    text, findings = read_text(raw, path)
    if text is None:
        return None, "", findings
    lines = split_lines(text)

    def finding(line: int, column: int, code: str, message: str, hint: str = "", other: str = "") -> Finding:
        shown = lines[line - 1] if 0 < line <= len(lines) else ""
        return Finding(path, line, column, code, message, hint, source_line=shown, other=other)

    directive = _first_directive(lines)
    if directive:
        return None, text, [finding(directive, 1, "directive", "lines that start with % are not read", "delete it")]
    try:
        root = _quick_tree(text) or _careful_tree(text)
    except _Refusal as refusal:
        return None, text, [finding(*refusal.place, refusal.code, refusal.message, refusal.hint)]
    findings = [finding(*problem) for problem in islice(_node_problems(root, path), MOST_FINDINGS)]
    return root, text, findings


def _quick_tree(text: str) -> Node | None:
    """The tree by the parser in C; None where it is not installed, or where the other one has to look.

    The two differ in tabs, and in where a field without a value is; what this one accepts else, both read alike.
    """
    try:
        import yaml
    except ImportError:
        return None
    if "\t" in text or not yaml.__with_libyaml__:
        return None
    try:
        return _compose(_without_blanks(yaml.parse(text, Loader=yaml.CSafeLoader), yaml.ScalarEvent))
    except (_Refusal, yaml.YAMLError, *_FAILS):
        return None


def _without_blanks(events: Iterator[Any], scalar: Any) -> Iterator[Any]:
    for event in events:
        if type(event) is scalar and not event.value and event.implicit[0]:
            raise ValueError("a field without a value")
        yield event


def _careful_tree(text: str) -> Node:
    """The tree. Raises _Refusal with the place and the words for whatever is wrong with the text."""
    from ruamel.yaml import YAML
    from ruamel.yaml.error import MarkedYAMLError, YAMLError

    try:
        return _compose(YAML(typ="safe", pure=True).parse(text))
    except MarkedYAMLError as error:
        raise _explained(error) from None
    except (YAMLError, *_FAILS):  # there is no mark to show, but it must not end in a traceback
        hint = "compare it with a shipped file"
        raise _Refusal(None, "yaml-syntax", "the file cannot be read as YAML", hint) from None


def _first_directive(lines: list[str]) -> int:
    for number, line in enumerate(lines, start=1):
        if line.startswith("%"):
            return number
        if line.strip() and not line.lstrip().startswith("#"):
            return 0
    return 0


def _mark(event: Any, end: Any = None) -> Mark:
    start = event.start_mark
    return Mark(start.line + 1, start.column + 1, start.index, (end or event).end_mark.index)


def _compose(events: Iterator[Any]) -> Node:
    """Build the tree from parser events, refusing what a file of ours must not hold."""
    root: Node | None = None
    open_nodes: list[tuple[Any, ListNode | MappingNode]] = []
    waiting_keys: list[Scalar | None] = []
    documents = 0
    for values, event in enumerate(events):
        kind, mark = type(event).__name__, event.start_mark
        if values > MOST_VALUES:
            raise _Refusal(mark, "too-large", f"more than {MOST_VALUES} values up to here", "split the file")
        if kind == "DocumentStartEvent":
            documents += 1
            if documents > 1:
                hint = "delete the line ---, or make two files"
                raise _Refusal(mark, "many-documents", "a second document starts here", hint)
        elif kind in ("SequenceStartEvent", "MappingStartEvent", "ScalarEvent", "AliasEvent"):
            _refuse_marks(event, kind)
            node = _node(event, kind)
            if not open_nodes:
                root = node
            else:
                _attach(event, open_nodes[-1][1], waiting_keys, node)
            if not isinstance(node, Scalar):
                open_nodes.append((event, node))
                waiting_keys.append(None)
                if len(open_nodes) > DEEPEST:
                    hint = "check the indentation and the brackets"
                    raise _Refusal(mark, "too-deep", f"nested more than {DEEPEST} levels deep", hint)
        elif kind in ("SequenceEndEvent", "MappingEndEvent"):
            start, node = open_nodes.pop()
            waiting_keys.pop()
            node.mark = _mark(start, event)
    assert root is not None  # a text with nothing but comments was refused before
    return root


_UNMARK = "delete it, or put the text in quotes"


def _refuse_marks(event: Any, kind: str) -> None:
    mark = event.start_mark
    if kind == "AliasEvent":
        message = f"*{event.anchor} points at another place in the file"
        raise _Refusal(mark, "alias", message, "write the text out, or put it in quotes")
    if event.anchor is not None:
        raise _Refusal(mark, "anchor", f"&{event.anchor} names a place in the file", _UNMARK)
    if event.tag is not None:
        raise _Refusal(mark, "tag", "a type mark that starts with ! is not read", _UNMARK)


def _node(event: Any, kind: str) -> Node:
    if kind == "ScalarEvent":
        return Scalar(_mark(event), event.value, event.implicit[0])
    return ListNode(_mark(event)) if kind == "SequenceStartEvent" else MappingNode(_mark(event))


def _attach(event: Any, parent: ListNode | MappingNode, waiting_keys: list[Scalar | None], node: Node) -> None:
    if isinstance(parent, ListNode):
        if len(parent.items) == MOST_ENTRIES:
            message = f"the list has more than {MOST_ENTRIES} entries"
            raise _Refusal(event.start_mark, "too-large", message, "split the file")
        parent.items.append(node)
    elif waiting_keys[-1] is None:
        if not isinstance(node, Scalar):
            message = "a field name must be a word, not a list or fields in braces"
            raise _Refusal(event.start_mark, "key-not-text", message, "put the text in quotes")
        waiting_keys[-1] = node
    else:
        parent.entries.append((waiting_keys[-1], node))
        waiting_keys[-1] = None


_NodeProblem = tuple[int, int, str, str, str, str]


def _node_problems(root: Node, path: str) -> Iterator[_NodeProblem]:
    """Merge keys, keys that are not words or are written twice, and hidden characters, over the whole tree."""
    waiting: list[Node] = [root]
    while waiting:
        node = waiting.pop()
        if isinstance(node, Scalar):
            yield from _hidden_by_escape(node)
        elif isinstance(node, ListNode):
            waiting.extend(reversed(node.items))
        if not isinstance(node, MappingNode):
            continue
        first: dict[str, Scalar] = {}
        for key, value in node.entries:
            place = (key.mark.line, key.mark.column)
            yield from _hidden_by_escape(key)
            if key.plain and key.text == "<<":
                yield *place, "merge-key", "<< takes in the fields of another place", "write the fields out", ""
            elif not is_text(key.text, key.plain):
                message = f"the field name {key.text or '(nothing)'} is not a word"
                yield *place, "key-not-text", message, f'write it in quotes: "{key.text}"', ""
            elif key.text in first:
                line = first[key.text].mark.line
                message = f"'{key.text}' is written twice in the same place, first on line {line}"
                yield *place, "duplicate-key", message, "keep one of them", f"{path}:{line}"
            first.setdefault(key.text, key)
            waiting.append(value)


def _hidden_by_escape(scalar: Scalar) -> Iterator[_NodeProblem]:
    """What an escape in double quotes makes: a terminal would obey it. Such characters as they are: ``text.py``."""
    if scalar.plain:
        return
    found = HIDDEN.search(scalar.text) or re.search("\r", scalar.text)  # a terminal writes over the line
    if found:
        message = f"the text in quotes makes the hidden character U+{ord(found.group()):04X}"
        yield scalar.mark.line, scalar.mark.column, "control-character", message, "delete it", ""


# What the parser says, the start of its sentence -> our code, sentence and hint.
_WORDS: tuple[tuple[str, str, str], ...] = (
    (
        r"mapping values are not allowed",
        "a ':' that does not belong here",
        "check the indentation, or put the text in quotes",
    ),
    (
        r"could not find expected ':'",
        "a line without 'field: value'",
        "write 'field: value', with a space after the colon",
    ),
    (r"found unexpected end of stream", "a quote is opened here and never closed", "close the quote"),
    (r"expected ',' or '[\]}]'", "a bracket is not closed, or a comma is missing", "check the brackets from here on"),
    (r"found character '\\t'", "a tab where only spaces are allowed", "replace it with a space"),
    (r"found character '(.)' that cannot start", "text may not start with this character", "put the text in quotes"),
    (
        r"expected <block end>, but found '<scalar>'",
        "text goes on after the closing quote",
        "put all of it in one pair of quotes",
    ),
    (
        r"expected <block end>",
        "the indentation does not fit the lines above",
        "indent fields that belong together alike",
    ),
    (r"found unknown escape character", "a backslash means something else in double quotes", "use single quotes"),
    (r"expected chomping or indentation", "text follows a | or > on the same line", "put the text in quotes"),
)


def _explained(error: Any) -> _Refusal:
    problem = str(error.problem or "")
    mark = error.problem_mark or error.context_mark
    message, hint = "the file cannot be read as YAML here", "check quotes, brackets and indentation"
    for pattern, words, advice in _WORDS:
        if re.search(pattern, problem):
            message, hint = words, advice
            break
    if error.context_mark and any(part in message for part in ("quote is opened", "bracket", "without 'field")):
        mark = error.context_mark
    return _Refusal(mark, "tab" if "tab" in message else "yaml-syntax", message, hint)
