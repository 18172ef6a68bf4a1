"""Many blocks read as a coach reads them: for each check, how many blocks it applies to, how many break it, an example.

Run: python -m tests.benchmarks.coach_reads --kept coach.jsonl [--seeds 0:200] [--demos] [--check ID] [--block FILE]

``--seeds A:B`` draws athletes A to B - 1; ``--demos`` adds the shipped ones on their own, the long and the in-season
template, and a few with a line changed, at corners that are seldom drawn. Blocks are kept in the file: a run that was
cut goes on where it stopped, and blocks that are kept are read again without planning; ``--only-kept`` plans nothing.
``--check`` prints every break of one check. ``--block`` reads a block's file with the files that it names.
``--list`` says what each check strikes out.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from pydantic import ValidationError

from planner.domain.block import Week
from planner.units import counted
from tests.benchmarks.coach_kept import Kept, corners, demos, keep, read_of, seeds
from tests.benchmarks.coach_kept import read as read_kept
from tests.coach.all_checks import all_checks
from tests.coach.block_read import Line, Read, read_block
from tests.coach.checking import Break, Check

WIDEST = 150
FITTING_RISE = (0.10, 0.25)  # of a novice's main lift in eight weeks


@dataclass(frozen=True)
class Row:
    """What became of one check: the blocks it applied to, and the breaks of each block that breaks it."""

    check: Check
    applied: int
    broken: dict[str, list[Break]]

    @property
    def line(self) -> str:
        share = f"{len(self.broken) / self.applied:4.0%}" if self.applied else "   -"
        point = self.check.point if self.check.must else "s"
        return f"{point:>2s}  {self.check.id:34s} {self.applied:7d} {len(self.broken):7d} {share}"

    @property
    def example(self) -> str:
        key = next(iter(self.broken), None)
        return "" if key is None else f"      {key}: {self.broken[key][0]}"[:WIDEST]


def rows(blocks: dict[str, Read], checks: Iterable[Check]) -> list[Row]:
    found = {check.id: (check, dict[str, list[Break]](), 0) for check in checks}
    for key, read in blocks.items():
        for check, broken, applied in list(found.values()):
            breaks = check.breaks(read)
            if breaks:
                broken[key] = breaks
            found[check.id] = (check, broken, applied + (breaks is not None))
    return [Row(check, applied, broken) for check, broken, applied in found.values()]


def as_text(kept: list[Kept], reads: Mapping[str, Read], found: list[Row]) -> str:
    none = [one for one in kept if one.block is None]
    seconds = sum(one.seconds for one in kept)
    must = [row for row in found if row.check.must]
    clean = len(kept) - len(none) - len({key for row in must for key in row.broken})
    blocks = f"{len(kept)} athletes, {len(kept) - len(none)} blocks, {len(none)} without one"
    proved = [one for one in kept if one.block is not None and one.block["proof"]["status"] == "optimal"]
    met = sum(not one.block["shortfalls"] for one in proved if one.block is not None)
    faults = sum(bool(one.faults) for one in kept)
    lines = [
        f"{blocks}; {seconds / 60:.0f} minutes of one core",
        f"proved {len(proved)}, of these with every band met {met}; blocks that the audit finds at fault {faults}",
        f"blocks that a coach would sign (no break of a must): {clean}",
        *novices_rise(reads),
        "",
        f"{'':2s}  {'check':34s} {'applies':>7s} {'broken':>7s}",
    ]
    for row in found:
        lines += [row.line, *([row.example] if row.example else [])]
    lines += ["", *(f"no block: {one.key}: {one.refused}"[:WIDEST] for one in none)]
    return "\n".join(lines)


def readable(kept: Iterable[Kept]) -> dict[str, Read]:
    """The blocks that today's models read; one kept in an older format is named, and has to be planned again."""
    found = {}
    for one in kept:
        try:
            found |= {one.key: read_of(one)} if one.block is not None else {}
        except ValidationError:
            print(f"{one.key} was kept in another format: take its line out to plan it again", file=sys.stderr)
    return found


def novices_rise(reads: Mapping[str, Read]) -> list[str]:
    """How far the load of novices' main lifts rises from the first load week to the last, where both print one.

    All of them, and those whose gym has a load that would be a fitting rise.
    """
    rises, fitting = [], []
    for read in (one for one in reads.values() if one.is_novice):
        first, last = (_main_lines(read, week) for week in (read.load_weeks[0], read.load_weeks[-1]))
        for lift in [lift for lift in first if lift in last]:
            rises.append((last[lift].item.load_kg or 0.0) / (first[lift].item.load_kg or 1.0) - 1)
            fitting += rises[-1:] if _has_fitting_load(read, first[lift]) else []
    said = [
        ("of a load in the first and the last load week", rises),
        ("of these in a gym with a fitting load", fitting),
    ]
    return [f"novices: {counted(len(of), 'main lift')} {what}: {median(of):+.0%}" for what, of in said if of]


def _has_fitting_load(read: Read, line: Line) -> bool:
    """Whether the gym has dumbbells a fitting rise above this load; a bar has plates for it."""
    kg, (least, most) = line.item.load_kg or 0.0, FITTING_RISE
    if "dumbbells" not in line.movement.equipment:
        return True
    return any(kg * (1 + least) <= one <= kg * (1 + most) for one in read.athlete.equipment.dumbbells)


def _main_lines(read: Read, week: Week) -> dict[str, Line]:
    """The main lifts with a load, by movement."""
    lines = [line for line in read.of(week) if line.item.part == "main-lift" and line.item.load_kg]
    return {line.movement.id: line for line in lines}


def every_break(found: list[Row]) -> str:
    return "\n".join(f"{key}: {one}" for row in found for key, breaks in row.broken.items() for one in breaks)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--seeds", default="0:200", help="first:last, the last left out")
    parser.add_argument("--kept", type=Path, default=Path("coach.jsonl"))
    parser.add_argument("--demos", action="store_true", help="the shipped athletes too")
    parser.add_argument("--only-kept", action="store_true", help="plan nothing: what the file has")
    parser.add_argument("--check", help="every break of this check alone")
    parser.add_argument("--block", type=Path, help="read this block alone")
    parser.add_argument("--list", action="store_true", help="what each check strikes out, with its source")
    given = parser.parse_args()
    if given.list:
        print("\n".join(f"{one.point:>6s}  {one.id}: {one.strikes} ({one.source})" for one in all_checks()))
        return
    checks = [one for one in all_checks() if given.check in (None, one.id)]
    if given.block is not None:
        print(every_break(rows({given.block.name: read_block(given.block)}, checks)))
        return
    first, last = (int(number) for number in given.seeds.split(":"))
    wanted = {**(demos() | corners() if given.demos else {}), **seeds(first, last)}
    if given.only_kept:
        kept = [one for one in read_kept(given.kept) if one.key in wanted]
    else:
        kept = keep(wanted, given.kept, tell=lambda text: print(text, file=sys.stderr))
    reads = readable(kept)
    found = rows(reads, checks)
    print(every_break(found) if given.check else as_text(kept, reads, found))


if __name__ == "__main__":
    main()
