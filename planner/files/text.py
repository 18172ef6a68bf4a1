"""Bytes to text that an editor shows as it is: UTF-8, no hidden characters, no tabs as indentation."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator
from itertools import islice

from planner.domain.findings import Finding
from planner.files.not_yaml import not_yaml

LARGEST_FILE_bytes = 1024 * 1024  # a hundred movements take about a tenth of it
MOST_FINDINGS = 50  # of one sort in one file; nobody reads more, and a broken file may have a hundred thousand
_LINE_END = re.compile(r"\r\n|\r|\n")
# Control characters; the three line separators that editors count differently; hidden and direction-changing ones.
HIDDEN = re.compile(
    r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u200b\u2028\u2029\u202a-\u202e\u2060\u2066-\u2069\ufeff\ufffe\uffff]"
)
_INDENTATION = re.compile(r"[ \t\u00a0\u2000-\u200a\u202f\u3000]*")
_BYTE_ORDER_MARKS = (b"\xff\xfe", b"\xfe\xff")


def split_lines(text: str) -> list[str]:
    """Lines as editors count them; ``str.splitlines`` would also break at form feeds and the like."""
    return _LINE_END.split(text)


def diff_of(before: bytes | None, after: bytes, name: str) -> str:
    """The change of a file as lines with - and + in front, three lines around each."""
    old, new = (split_lines("" if raw is None else raw.decode("utf-8-sig")) for raw in (before, after))
    return "".join(f"{line}\n" for line in difflib.unified_diff(old, new, name, name, lineterm=""))


def read_text(raw: bytes, path: str) -> tuple[str | None, list[Finding]]:
    """The text of a file (a byte-order mark taken off), or findings on the lines that keep it from being read."""
    if len(raw) > LARGEST_FILE_bytes:
        size = f"{len(raw) / LARGEST_FILE_bytes:.1f} MiB"
        return None, [
            Finding(
                path, 0, 0, "too-large", f"the file is {size}; the limit is 1 MiB", "split it, or take out what is old"
            )
        ]
    if (other := not_yaml(raw, path)) is not None:
        return None, [other]
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        return None, [_not_utf8(raw, error.start, path)]
    sorts = (_hidden_characters(text, path), _indentation(text, path))
    findings = [finding for sort in sorts for finding in islice(sort, MOST_FINDINGS)]
    if not findings and not any(line.strip() and not line.lstrip().startswith("#") for line in split_lines(text)):
        hint = "its first line says what it is, such as file: athlete/1"
        findings.append(Finding(path, 1, 1, "empty-file", "the file is empty", hint))
    return (None if findings else text), findings


def _not_utf8(raw: bytes, offset: int, path: str) -> Finding:
    before = raw[:offset].decode("utf-8-sig", errors="replace")
    lines = split_lines(before)
    kind = "the file is saved as UTF-16" if raw.startswith(_BYTE_ORDER_MARKS) else "the file is not UTF-8 text"
    message = f"{kind}: byte {raw[offset]:#04x} at offset {offset} cannot be read"
    return Finding(path, len(lines), len(lines[-1]) + 1, "not-utf8", message, "save it with the encoding UTF-8")


def _hidden_characters(text: str, path: str) -> Iterator[Finding]:
    if HIDDEN.search(text) is None:
        return
    for number, line in enumerate(split_lines(text), start=1):
        found = HIDDEN.search(line)
        if found:
            message = f"hidden character U+{ord(found.group()):04X}"
            at = found.start() + 1
            yield Finding(path, number, at, "control-character", message, "delete it", source_line=printable(line))


def _indentation(text: str, path: str) -> Iterator[Finding]:
    for number, line in enumerate(split_lines(text), start=1):
        indent = _INDENTATION.match(line)
        width = indent.end() if indent else 0
        if width == len(line) or line[:width].strip(" ") == "":
            continue
        column = next(i for i, character in enumerate(line) if character != " ") + 1
        what = "a tab" if line[column - 1] == "\t" else "a space that is not an ordinary one"
        message = f"{what} is used as indentation"
        yield Finding(path, number, column, "tab", message, "indent with ordinary spaces", source_line=line)


def printable(text: str) -> str:
    """The text without what a terminal would obey instead of show, such as a file's name may hold."""
    utf8 = text.encode("utf-8", "backslashreplace").decode("utf-8")  # a file's name may hold bytes that are not UTF-8
    return HIDDEN.sub("\N{REPLACEMENT CHARACTER}", utf8)
