"""Spreadsheets of a squad's tests, broken, through ``squad read``: what is wrong is told at its cell, and soon.

Run: python -m tests.campaign.sheets --count 2000 --seed 0
"""

from __future__ import annotations

import argparse
import json
import os
import shutil
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from openpyxl.utils.cell import column_index_from_string, coordinate_from_string

from planner.files.squad_tests_sheet import read_squad_tests
from planner.jobs.new_squad_sheet import filled_sheet
from tests.campaign.stage import contents, jumpblock
from tests.campaign.table import as_table
from tests.squads.drawn import battery, columns, rows
from tests.squads.sheet_mutants import Mutant, Place, mutant

DEMO = Path(__file__).parents[2] / "templates" / "squads" / "demo-squad.yaml"
SLOWEST_s = 10.0
ATHLETES = "athletes"
# Findings about the file as a whole, and those that tell of a cell what its row or its column lacks.
OF_THE_FILE = ("not-a-workbook", "not-csv", "no-headings", "no-athletes", "too-many-rows", "too-large", "not-utf-8")
LACKING = ("not-whole", "no-date", "no-name", "no-unit", "column-twice", "trial-twice", "side-missing")
# What one cell says by itself, whatever stands in the others.
OF_A_CELL = (
    *("error-cell", "not-a-date", "quantity", "out-of-range", "not-a-count", "not-a-number", "not-a-choice"),
    *("too-long", "hidden-character", "comma-or-point", "date-order", "date-for-figure"),
)


def faults_of(broken: Mutant, folder: Path) -> tuple[str, float, list[str]]:
    """What came of it as a word, the seconds of the processor, and what must not be."""
    before, began = contents(folder), time.process_time()
    said = jumpblock("squad", "read", broken.path.name, "-o", ATHLETES, "--squad", "squad.yaml", "--json")
    seconds = time.process_time() - began
    faults = [f"{seconds:.1f} s"] if seconds > SLOWEST_s else []
    if said.code not in (0, 1):
        return "broken", seconds, [*faults, f"exit {said.code}: {said.err.strip().splitlines()[-2:]}"]
    if said.code and contents(folder) != before:
        faults.append("refused, and yet written")
    found = [one for one in json.loads(said.out)["findings"] if one["level"] == "error"]
    faults += [] if broken.anywhere else list(misplaced(broken, found))
    faults += [f"without a place: {one}" for one in found if place_of(broken, one) is None and not _of_file(one)]
    return ("refused" if said.code else "read"), seconds, faults


def place_of(broken: Mutant, finding: dict[str, Any]) -> Place | None:
    """Row and column; None where the finding names neither cell nor line."""
    _, bang, cell = finding["path"].rpartition("!")
    if bang:
        letters, row = coordinate_from_string(cell)
        return row, column_index_from_string(letters)
    line = finding["line"] or 0
    return (broken.line_of.get(line, line), finding["column"] or 1) if line else None


def _of_file(finding: dict[str, Any]) -> bool:
    return finding["code"] in OF_THE_FILE


def misplaced(broken: Mutant, found: list[dict[str, Any]]) -> Iterator[str]:
    """Findings at cells that nobody broke, and broken cells that no finding names."""
    by_place = {place: one for one in found if (place := place_of(broken, one)) is not None}
    for place, one in by_place.items():
        if not _may_be_at(broken, place, one["code"]):
            yield f"at a cell that is whole: {one['path']} {place} [{one['code']}] {one['message'][:80]}"
    if not any(_of_file(one) for one in found):
        for row, column in sorted(broken.wrong - by_place.keys()):
            if column not in broken.columns and row not in broken.rows:
                yield f"not found: row {row}, column {column}"


def _may_be_at(broken: Mutant, place: Place, code: str) -> bool:
    row, column = place
    if place in broken.cells or row in broken.rows or column in broken.columns or (broken.lost and code in LACKING):
        return True
    return code not in OF_A_CELL and any(row == at for at, _ in broken.cells)


def lost_on_the_way(seed: int, folder: Path, *, as_csv: bool) -> list[str]:
    """What a sheet of six athletes says otherwise, or no longer, once it is written and read."""
    drawn, path = rows(6, seed), folder / ("whole.csv" if as_csv else "whole.xlsx")
    path.write_bytes(filled_sheet(battery(), (), drawn, as_csv=as_csv))
    found = []
    for row, person in zip(drawn, read_squad_tests(path, path.name, battery()).people, strict=True):
        read = {(name, None): one.value for name, one in person.fields.items()}
        figures = {
            (day.test.id, field, side or day.side, trial): one.value
            for day in person.tests
            for (trial, field, side), one in day.figures.items()
        }
        for column, value in zip(columns(), row, strict=True):
            if column.person is not None:
                there = read.get((column.person.field, None))
            else:
                assert column.test is not None and column.figure is not None
                there = figures.get((column.test.id, column.figure.field, column.side, column.trial or 1))
            if not _same(value, there, column.unit):
                found.append(f"{person.name}, {column.heading}: {value} came back as {there}")
    return found


def _same(written: Any, read: Any, unit: str | None) -> bool:
    if unit is None or written is None:
        return bool(written == read)
    number, _, there = str(read).partition(" ")
    return there == unit and float(number) == written


def run(seeds: range) -> tuple[dict[str, Counter[str]], list[str], float]:
    """Counts of what came of each sort of break, the faults, and the seconds of the slowest."""
    counts: dict[str, Counter[str]] = {}
    faults: list[str] = []
    slowest = 0.0
    with tempfile.TemporaryDirectory() as name:
        folder, here = Path(name).resolve(), Path.cwd()
        shutil.copyfile(DEMO, folder / "squad.yaml")
        os.chdir(folder)
        try:
            for seed in seeds:
                known_already(seed, folder)
                broken = mutant(seed, folder)
                word, seconds, found = faults_of(broken, folder)
                broken.path.unlink()
                slowest = max(slowest, seconds)
                for way in set(broken.breaks):
                    counts.setdefault(way, Counter())[word] += 1
                lost = lost_on_the_way(seed, folder, as_csv=seed % 2 == 0)
                counts.setdefault("none (out and in)", Counter())["read" if not lost else "broken"] += 1
                faults += [f"seed {seed}, {', '.join(broken.breaks)}: {one}" for one in found]
                faults += [f"seed {seed}, out and in: {one}" for one in lost]
        finally:
            os.chdir(here)
    return counts, faults, slowest


def known_already(seed: int, folder: Path) -> None:
    """Every third sheet is of athletes who have their files already, from two months before."""
    shutil.rmtree(folder / ATHLETES, ignore_errors=True)
    if seed % 3 == 0:
        earlier = [
            [value.replace(month=1) if n == 2 else value for n, value in enumerate(row)] for row in rows(6, seed)
        ]
        (folder / "earlier.csv").write_bytes(filled_sheet(battery(), (), earlier, as_csv=True))
        said = jumpblock("squad", "read", "earlier.csv", "-o", ATHLETES, "--squad", "squad.yaml")
        assert said.code == 0, said.err


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=0, help="of the first; the others follow it")
    given = parser.parse_args()
    counts, faults, slowest = run(range(given.seed, given.seed + given.count))
    print(as_table(f"{given.count} sheets from seed {given.seed}", counts, ("read", "refused", "broken"), faults))
    print(f"slowest: {slowest:.1f} s of the processor")


if __name__ == "__main__":
    main()
