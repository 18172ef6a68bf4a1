"""Hundreds of drawn athletes, kept seed by seed, and the table of what became of them.

Run: python -m tests.independence.many --seeds 0:500 --kept drawn.jsonl
A run that was cut goes on where it stopped; with no seed left it prints the table again.
"""

from __future__ import annotations

import argparse
import json
import time
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

from planner.rules.registry import all_rules
from tests.independence.drawn import drawn
from tests.independence.outcomes import KINDS, Outcome, outcome
from tests.rules.cases import AUDIT_ONLY


@dataclass(frozen=True)
class Line:
    seed: int
    about: str
    seconds: float
    outcome: Outcome


def run(seeds: Iterable[int], kept: Path) -> list[Line]:
    """An outcome for every seed: those in the file as they stand there, the others worked out and added to it."""
    done = {line.seed: line for line in read(kept)}
    wanted = list(seeds)
    with kept.open("a", encoding="utf-8") as file:
        for seed in wanted:
            if seed not in done:
                done[seed] = _worked_out(seed)
                file.write(json.dumps(asdict(done[seed])) + "\n")
                file.flush()
    return [done[seed] for seed in wanted]


def _worked_out(seed: int) -> Line:
    about, start = drawn(seed).about, time.process_time()
    try:
        found = outcome(seed)
    except Exception as error:  # a fault of ours like any other: one seed must not end the run
        found = Outcome("crashed", faults=[f"{type(error).__name__}: {error}"])
    return Line(seed, about, round(time.process_time() - start, 2), found)


def read(kept: Path) -> list[Line]:
    if not kept.exists():
        return []
    lines = [json.loads(text) for text in kept.read_text("utf-8").splitlines()]
    return [Line(**{**line, "outcome": Outcome(**line["outcome"])}) for line in lines]


@dataclass(frozen=True)
class Table:
    """Draws of each kind, in how many blocks a rule was tight, in how many conflicts it stood, and what was wrong."""

    kinds: Counter[str]
    tight: Counter[str]
    conflict: Counter[str]
    proved: int
    met: int  # blocks with no shortfall at all
    minimal: int
    unsure: int
    faults: list[tuple[int, str]]
    seconds: float

    @property
    def count(self) -> int:
        return sum(self.kinds.values())

    @property
    def refused_share(self) -> float:
        return (self.count - self.kinds["block"] - self.kinds["budget"]) / self.count

    def loose(self, least: int) -> list[str]:
        """Rules with rows that were tight in fewer than so many blocks."""
        return [rule.id for rule in all_rules() if rule.id not in AUDIT_ONLY and self.tight[rule.id] < least]

    def never_in_conflict(self) -> list[str]:
        """Rules that a conflict could name and none did; aims give way, and a block's structure is never blamed."""
        return [
            rule.id
            for rule in all_rules()
            if rule.hard and not rule.structural and rule.id not in AUDIT_ONLY and not self.conflict[rule.id]
        ]


def table(lines: Sequence[Line]) -> Table:
    found = [line.outcome for line in lines]
    return Table(
        kinds=Counter(one.kind for one in found),
        tight=Counter(rule for one in found for rule in one.tight),
        conflict=Counter(rule for one in found for rule in one.conflict),
        proved=sum(one.proved for one in found),
        met=sum(one.kind == "block" and one.shortfall == 0 for one in found),
        minimal=sum(one.minimal for one in found),
        unsure=sum(bool(one.unsure) for one in found),
        faults=[(line.seed, fault) for line in lines for fault in line.outcome.faults],
        seconds=sum(line.seconds for line in lines),
    )


def as_text(found: Table) -> str:
    kinds = ", ".join(f"{kind} {found.kinds[kind]}" for kind in (*KINDS, "crashed"))
    lines = [
        f"{found.count} drawn athletes in {found.seconds / 60:.0f} minutes of one core: {kinds}",
        f"blocks: {found.proved} proved, {found.met} meet every band; refused {found.refused_share:.0%}",
        f"conflicts: {found.minimal} called minimal; {found.unsure} that HiGHS had not time enough for in part",
        f"{'rule':18s} {'tight in':>9s} {'conflicts':>9s}",
        *(f"{rule.id:18s} {found.tight[rule.id]:9d} {found.conflict[rule.id]:9d}" for rule in all_rules()),
        f"faults: {len(found.faults)}",
        *(f"  seed {seed}: {fault}" for seed, fault in found.faults),
    ]
    return "\n".join(lines)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", default="0:500", help="first:last, the last left out")
    parser.add_argument("--kept", type=Path, default=Path("drawn.jsonl"))
    given = parser.parse_args()
    first, last = (int(number) for number in given.seeds.split(":"))
    print(as_text(table(run(range(first, last), given.kept))))


if __name__ == "__main__":
    main()
