"""Where the files of a folder name a movement: what hangs on it when it is to be taken out."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from planner.domain.findings import Finding
from planner.files.document import Document
from planner.files.load import read_bytes, read_document, yaml_files
from planner.files.tree import ListNode, MappingNode, Mark, Node

# The fields of our files that hold a movement's id, alone or in a list; a test holds them against the models.
NAMING = ("movement", "bans", "easier", "harder", "of", "requires", "movements", "into")
MOST_PLACES = 5  # of one file: a block names a movement every week


def mentions(movement_id: str, folder: Path) -> list[Finding]:
    """The first places at which each file below ``folder`` names the movement, and how many there are.

    Raises UserError for a folder that holds more than a coach's, such as a whole disk.
    """
    word = re.compile(rf"{re.escape(movement_id)}(?![a-z0-9-]).*", re.DOTALL)  # alone, or first in a requirement
    found: list[Finding] = []
    for name, path in yaml_files(folder):
        raw, _ = read_bytes(path, name)
        if raw is None or movement_id.encode() not in raw:
            continue
        document, _ = read_document(raw, name, "")
        if document is not None:
            found += _findings(movement_id, document, list(_marks_of(document.root, word, "")))
    return found


def with_ban_note(found: list[Finding], movement_id: str) -> list[Finding]:
    """These places, and the way to keep the movement from one athlete only."""
    message = f"to keep it from one athlete only, write bans: [{movement_id}] into that athlete's file"
    hint = "--anyway takes it out of the library for all"
    return [*found, Finding("", 0, 0, "one-athlete", message, hint, level="note")]


def _findings(movement_id: str, document: Document, places: list[Mark]) -> Iterator[Finding]:
    for number, mark in enumerate(places[:MOST_PLACES], start=1):
        left = len(places) - MOST_PLACES if number == MOST_PLACES else 0
        more = f", and {left} more times in this file" if left > 0 else ""
        hint = "name another one, or take it out there"
        yield document.finding(mark, "still-named", f"'{movement_id}' is named here{more}", hint)


def _marks_of(node: Node, word: re.Pattern[str], field: str) -> Iterator[Mark]:
    if isinstance(node, MappingNode):
        for key, value in node.entries:
            yield from _marks_of(value, word, key.text)
    elif isinstance(node, ListNode):
        for item in node.items:
            yield from _marks_of(item, word, field)
    elif field in NAMING and word.fullmatch(node.text):
        yield node.mark
