"""Files of every kind broken at one place, and every command that reads them: a finding or a result, never a traceback.

Run: python -m tests.campaign.mutants --count 500 --seed 1
"""

from __future__ import annotations

import argparse
import os
import random
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from planner.files.kinds import file_kind
from planner.files.load import read_document
from tests.campaign.stage import (
    ATHLETE,
    BLOCK,
    LOG,
    NOTE,
    RECORD,
    RESULTS,
    RETESTED,
    SETS,
    SQUAD,
    SQUAD_BLOCK,
    SQUAD_BOOK,
    SQUAD_TESTS,
    contents,
    dice_for,
    furnish,
    jumpblock,
    without_search,
)
from tests.campaign.table import as_table
from tests.library_commands.mutants import mutants

CHECK, PLAN = ("check", "{}"), ("plan", ATHLETE, "-o", "made.yaml")
PRINT = [("cards", BLOCK, "-o", "made.pdf", "--week", "1"), ("calendar", BLOCK, "-o", "made.ics")]
FOLLOW = [
    ("progress", BLOCK),
    ("progress", BLOCK, "-o", "made.pdf"),
    ("revise", BLOCK, "-o", "made.yaml"),
    ("cards", BLOCK, "-o", "made.pdf", "--from", "2025-09-16"),
]
LOG_MORE = ("log", BLOCK, "w2s2", "--as-planned", "--effort", "5")
INTO = ("platform", RECORD, "--into", ATHLETE, "--date", "2025-09-06", "-o", "made.pdf")
OUTCOME = [("outcome", BLOCK, "--athlete", RETESTED), ("outcome", BLOCK, "--athlete", RETESTED, "-o", "made.pdf")]
READ_SQUAD = ("squad", "read", SQUAD_TESTS, "-o", "made", "--squad", SQUAD)
OF_SQUAD = [
    ("squad", "overview", SQUAD),
    ("squad", "overview", SQUAD, "-o", "made.pdf"),
    ("squad", "slots", SQUAD, "--days", "2", "-o", "made.pdf"),
]
NEW = (
    *("new", "made.yaml", "--gym", "full-gym", "--name", "Ana Lima", "--born", "1998-03-02", "--mass", "71 kg"),
    *(
        "--stature",
        "1.75 m",
        "--reach",
        "2.25 m",
        "--take-off",
        "one-leg left",
        "--steps",
        "5",
        "--tested",
        "2025-09-01",
    ),
    *("--touches", "2.80 m, 2.82 m", "--target", "2.90 m", "--level", "intermediate", "--landing", "holds"),
    *("--days", "mon 75, wed 60, fri 75", "--lift", "back-squat 80 kg x 5, 2 left"),
)
TEMPLATE = "templates/blocks/in-season-four-week.yaml"
# The files of a coach's folder, and what is done with each: {} is the file.
FILES: dict[str, list[tuple[str, ...]]] = {
    ATHLETE: [
        CHECK,
        ("gap", "{}", "--full"),
        ("gap", "{}", "--json"),
        PLAN,
        INTO,
        *PRINT,
        ("library", "cover", "--athlete", "{}"),
        ("test", "{}", "--from", RESULTS),
        *OF_SQUAD,
    ],
    RETESTED: [CHECK, *OUTCOME, ("plan", "{}", "--after", BLOCK, "-o", "made.yaml")],
    BLOCK: [
        CHECK,
        *PRINT,
        *FOLLOW,
        *OUTCOME,
        ("plan", RETESTED, "--after", "{}", "-o", "made.yaml"),
        LOG_MORE,
        ("why", "{}", "--week", "1", "--session", "1"),
        ("change", "{}", "w3s1", "--drop", "-o", "made.yaml"),
        ("plan", ATHLETE, "--near", "{}", "-o", "made.yaml"),
    ],
    LOG: [CHECK, *FOLLOW, *OUTCOME, LOG_MORE, ("log", BLOCK, "--next-morning", "left patellar-knee 2")],
    "exercise_library/pogos.yaml": [
        CHECK,
        PLAN,
        ("library", "list"),
        ("library", "show", "pogo"),
        ("library", "edit", "pogo", "level=novice"),
    ],
    "exercise_library/equipment.yaml": [CHECK, PLAN, ("library", "cover")],
    "exercise_library/review.yaml": [CHECK, ("library", "cover", "--athlete", ATHLETE)],
    TEMPLATE: [CHECK, PLAN, ("check", BLOCK), ("rules", "--template", TEMPLATE), *PRINT],
    "templates/limits/standard.yaml": [CHECK, PLAN, ("check", BLOCK), ("rules", "--template", TEMPLATE)],
    "templates/benchmarks/standard.yaml": [CHECK, PLAN, ("gap", ATHLETE, "--full"), INTO],
    "templates/cards/standard.yaml": [CHECK, *PRINT, ("cards", BLOCK, "-o", "made.pdf", "--paper", "a5")],
    "templates/follow-up/standard.yaml": [CHECK, *FOLLOW, *OUTCOME],
    "templates/gyms/standard.yaml": [CHECK, NEW, ("library", "cover")],
    "templates/sheets/standard.yaml": [CHECK, READ_SQUAD, ("squad", "sheet", "-o", "made.csv")],
    "templates/squads/standard.yaml": [CHECK, OF_SQUAD[-1]],
    SQUAD: [CHECK, *OF_SQUAD, READ_SQUAD],
    SQUAD_TESTS: [READ_SQUAD],
    SQUAD_BOOK: [("squad", "read", "{}", "-o", "made", "--squad", SQUAD)],
    SQUAD_BLOCK: OF_SQUAD,
    RESULTS: [("test", ATHLETE, "--from", "{}")],
    SETS: [("log", BLOCK, "--from", "{}")],
    NOTE: [("log", BLOCK, "--from", "{}")],
    RECORD: [("platform", "{}"), INTO],
}
REFUSED_BYTES = (b"\x1b", b"\x07", "\u202e".encode())
ODD = [
    b"\x00",
    b"\xff",
    b"\t",
    b"\n",
    b":",
    b"- ",
    b"{",
    b"'",
    b"&a ",
    b"*a",
    b"!!int ",
    b"9" * 30,
    b"-",
    b"0",
    b"~",
    "é".encode(),
]


@dataclass(frozen=True)
class Mutant:
    sort: str
    raw: bytes


def bytes_changed(raw: bytes, dice: random.Random) -> Mutant:
    """One accident of bytes: cut off, lost, doubled, overwritten or put in."""
    at, length = dice.randrange(len(raw) + 1), dice.choice([1, 1, 3, 20, 200])
    ways: dict[str, Callable[[], bytes]] = {
        "cut off": lambda: raw[:at],
        "bytes lost": lambda: raw[:at] + raw[at + length :],
        "bytes doubled": lambda: raw[: at + length] + raw[at:],
        "bytes put in": lambda: raw[:at] + dice.choice(ODD) + raw[at:],
        "bytes over others": lambda: raw[:at] + dice.choice(ODD) + raw[at + length :],
    }
    sort = dice.choice(list(ways))
    return Mutant(sort, ways[sort]())


def fields_changed(raw: bytes, path: str, dice: random.Random) -> list[Mutant]:
    """One of each sort of change of a field, by the models of the file; none where it is no file of ours."""
    document = read_document(raw, path, "")[0] if path.endswith(".yaml") else None
    kind = file_kind(document)[0] if document is not None else None
    if document is None or kind is None:
        return []
    return [Mutant(one.sort, one.text.encode("utf-8", "surrogatepass")) for one in mutants(document, kind, dice, 3)]


def drawn(folder: Path, seed: int, count: int) -> Iterator[tuple[str, Mutant, tuple[str, ...]]]:
    """``count`` mutants, spread over the files, each with one of the commands that read its file."""
    kept: dict[str, list[Mutant]] = {}
    for number in range(count):
        path, commands = list(FILES.items())[number % len(FILES)]
        dice, raw = dice_for(seed, number, path), (folder / path).read_bytes()
        if path not in kept:
            kept[path] = fields_changed(raw, path, dice_for(seed, path))
        by_field = kept[path] and dice.random() < 0.6
        mutant = dice.choice(kept[path]) if by_field else bytes_changed(raw, dice)
        yield path, mutant, tuple(word.format(path) for word in commands[number // len(FILES) % len(commands)])


def faults_of(words: Sequence[str], before: dict[str, bytes], folder: Path) -> tuple[str, list[str]]:
    """The command's exit as a word, and what must not be: a bug, raw control characters, anything half-written."""
    said = jumpblock(*words)
    after, found = contents(folder), []
    if said.code not in (0, 1):
        found.append(f"exit {said.code}: {said.err.strip().splitlines()[-2:]}")
    if any(bad in said.out + said.err.encode() for bad in REFUSED_BYTES):
        found.append("a character printed that a terminal obeys")
    changed = sorted(name for name in {*before, *after} if before.get(name) != after.get(name))
    if said.code and changed:
        found.append(f"refused, and yet written: {changed}")
    if any(name.endswith(".part") for name in after):
        found.append("a half-written file is left")
    return {0: "done", 1: "refused"}.get(said.code, "broken"), found


def run(folder: Path, seed: int, count: int) -> tuple[dict[str, Counter[str]], list[str]]:
    """Counts of exits by file, and the faults. ``folder``: one that was furnished; it is as before afterwards."""
    counts: dict[str, Counter[str]] = {path: Counter() for path in FILES}
    faults: list[str] = []
    os.chdir(folder)
    whole = contents(folder)
    with without_search():
        for number, (path, mutant, words) in enumerate(drawn(folder, seed, count)):
            Path(path).write_bytes(mutant.raw)
            exit_word, found = faults_of(words, {**whole, path: mutant.raw}, folder)
            counts[path][exit_word] += 1
            faults += [f"{number} {mutant.sort} in {path}, {' '.join(words)}: {fault}" for fault in found]
            restore(folder, whole)
    return counts, faults


def restore(folder: Path, whole: dict[str, bytes]) -> None:
    for name, raw in reversed(contents(folder).items()):  # what is in a folder before the folder
        if name not in whole:
            (folder / name).rmdir() if (folder / name).is_dir() else (folder / name).unlink()
        elif raw != whole[name]:
            (folder / name).write_bytes(whole[name])


def staged(folder: Path) -> Path:
    """A furnished folder with the in-season player's block in it, planned here."""
    assert jumpblock("start", folder).code == 0
    assert jumpblock("plan", folder / ATHLETE, "-o", folder / BLOCK).code == 0
    furnish(folder)
    return folder


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=500)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as where:
        counts, faults = run(staged(Path(where).resolve() / "coach"), given.seed, given.count)
    print(as_table(f"{given.count} mutants, seed {given.seed}", counts, ("done", "refused", "broken"), faults))


if __name__ == "__main__":
    main()
