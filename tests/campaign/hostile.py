"""Hostile text in every free-text field of every file, through every command that reads it and all that it prints.

Run: python -m tests.campaign.hostile
"""

from __future__ import annotations

import argparse
import io
import json
import os
import re
import tempfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pypdf

from planner.files.edit_spans import value_end
from planner.files.kinds import file_kind, model_of
from planner.files.load import read_document
from planner.files.tree import Scalar
from tests.campaign.mutants import FILES, restore, staged
from tests.campaign.stage import contents, jumpblock, without_search
from tests.campaign.table import as_table
from tests.library_commands.mutants import REFERENCES, spots

# Each is one sort of trouble: markup and a local file, a formula, a calendar line, formats of programs, letters that a
# font lacks, combining marks, a terminal's orders, and what is simply long.
TEXTS = {
    "markup": "<b>x</b><img src='/etc/passwd'/>&amp;<a href='file:///etc/passwd'>y</a>",
    "formula": "=HYPERLINK(1);+1+cmd|' /C calc'!A0",
    "calendar": "x\\nEND:VEVENT\\r\\nBEGIN:VEVENT;UID:1,2",
    "formats": "%s %n {0} {name} ${HOME} $(id) `id`",
    "letters": "日本語 שלום العربية \N{GRINNING FACE}",
    "marks": "e" + "\u0301" * 60,
    "orders": '"\\e]0;x\\a\\e[31mred\\u202e"',
    "long": "wordwithoutanend" * 100,
}
STREAM = re.compile(rb"\bstream\r?\n.*?\bendstream\b", re.DOTALL)
OBEYED = ("\x1b", "\x07", "\u202e")


def fields(raw: bytes, path: str) -> list[tuple[str, int, int]]:
    """Each free-text field once: its name, and where its first value begins and ends."""
    document = read_document(raw, path, "")[0]
    kind = file_kind(document)[0] if document is not None else None
    if document is None or kind is None:
        return []
    found: dict[str, tuple[str, int, int]] = {}
    for spot in spots(document.root, model_of(kind)):
        is_text = (
            spot.annotation is str and isinstance(spot.node, Scalar) and spot.field not in ("file", "id", *REFERENCES)
        )
        if is_text and spot.field not in found:
            found[spot.field] = (spot.field, spot.node.mark.start, value_end(spot.node, document.text))
    return list(found.values())


def written(text: str) -> str:
    return text if text.startswith('"') else json.dumps(text, ensure_ascii=False)


def drawn(folder: Path) -> Iterator[tuple[str, str, str, bytes]]:
    """Every free-text field of every file with every text: the file, the field, the sort of text, the file's bytes."""
    for path in FILES:
        if path.endswith(".yaml"):
            text = (folder / path).read_text("utf-8")
            for field, start, end in fields(text.encode(), path):
                for sort, hostile in TEXTS.items():
                    yield path, field, sort, (text[:start] + written(hostile) + text[end:]).encode()


def faults_of(words: tuple[str, ...], folder: Path) -> tuple[str, list[str]]:
    said = jumpblock(*words)
    found = [] if said.code in (0, 1) else [f"exit {said.code}: {said.err.strip().splitlines()[-2:]}"]
    printed = said.out.decode("utf-8") + said.err
    for made in folder.glob("made.*"):
        raw = made.read_bytes()
        printed += _read_back(made.suffix, raw)
        if made.suffix == ".pdf" and has_link(raw):
            found.append("a link in the PDF")
    if any(one in printed for one in OBEYED):
        found.append("a character that a terminal obeys")
    if "root:" in printed:
        found.append("a local file was opened")
    return {0: "done", 1: "refused"}.get(said.code, "broken"), found


def has_link(raw: bytes) -> bool:
    """Whether an object of the PDF opens something. What a stream holds is packed, and may spell anything by chance."""
    objects = STREAM.sub(b"", raw)
    return any(action in objects for action in (b"/URI", b"/Launch", b"/GoToR", b"/JavaScript"))


def _read_back(kind: str, raw: bytes) -> str:
    if kind == ".pdf":
        return "".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(raw)).pages)
    return raw.decode("utf-8")


def run(folder: Path, every: int = 1) -> tuple[dict[str, Counter[str]], list[str]]:
    """Counts of exits by file, and the faults. ``every``: only each nth case, with one command; 1: all."""
    counts: dict[str, Counter[str]] = {}
    faults: list[str] = []
    os.chdir(folder)
    whole = contents(folder)
    with without_search():
        for number, (path, field, sort, raw) in enumerate(drawn(folder)):
            if number % every:
                continue
            commands = FILES[path] if every == 1 else [FILES[path][number // every % len(FILES[path])]]
            for command in commands:
                Path(path).write_bytes(raw)
                words = tuple(word.format(path) for word in command)
                exit_word, found = faults_of(words, folder)
                counts.setdefault(path, Counter())[exit_word] += 1
                faults += [f"{sort} as {field} of {path}, {' '.join(words)}: {fault}" for fault in found]
                restore(folder, whole)
    return counts, faults


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--every", type=int, default=1, help="only each nth case, with one command")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as where:
        counts, faults = run(staged(Path(where).resolve() / "coach"), given.every)
        os.chdir("/")
    print(as_table("hostile text", counts, ("done", "refused", "broken"), faults))


if __name__ == "__main__":
    main()
