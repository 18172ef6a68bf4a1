"""What a deficit changes: an athlete short of one quality, against the same athlete without the deficit.

Run: python -m tests.benchmarks.coach_pairs [--kept pairs.jsonl] [--only-kept]

Two kinds of athlete, five qualities, 5, 15 and 30 % short: over the load weeks, sets of the quality and how many of
them are loaded, contacts, sprints, and which movements came and went. Blocks are kept: a run that was cut goes on.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Mapping
from pathlib import Path

from planner.domain.terms import QUALITIES, Quality
from planner.units import STANDARD_GRAVITY_m_s2
from tests.benchmarks.coach_draws import (
    IN_RESERVE,
    LIFTS,
    REPS,
    TESTED_ON,
    Drawn,
    Lines,
    lift_test,
    load_showing,
    needs_of,
)
from tests.benchmarks.coach_kept import keep, read_of
from tests.benchmarks.coach_kept import read as read_kept
from tests.coach.block_read import Read
from tests.independence.drawn import plain

TEMPLATE, BY = "eight-week", (0.05, 0.15, 0.30)
KINDS: Mapping[str, Lines] = {
    "one leg, run-up": {"take_off": "one-leg left", "approach": {"steps": 5}},
    "two legs, standing": {"take_off": "two-leg", "approach": {"steps": 0}},
}
MOST_NAMED = 4


def athlete(kind: str, short: Mapping[Quality, float]) -> Lines:
    """The shipped adult in this kind of jump; every quality is as the target asks, but for what is ``short``."""
    changes = KINDS[kind]
    touch = {
        "kind": "touch", "date": TESTED_ON, "take_off": changes["take_off"],
        "run_up": bool(changes["approach"]["steps"]), "trials": ["3.00 m", "3.01 m", "3.02 m"],
    }  # fmt: skip
    lines = {**json.loads(json.dumps(plain("adult-one-leg-jumper"), default=str)), **changes, "tests": [touch]}
    lines["target"] = {"touch": "3.07 m", "method": "touch"}
    lines |= {"birth_date": "1997-03-14", "body_mass": "80 kg", "print_as": {}}
    needs, body_kg = needs_of(lines, TEMPLATE), 80.0
    for quality, lift, body_share, leg_share, _ in LIFTS:
        kg = needs[quality, "N"] * (1 - short.get(quality, 0.0)) / leg_share / STANDARD_GRAVITY_m_s2 - body_kg
        sides: tuple[Lines, ...] = ({"side": "left"}, {"side": "right"}) if body_share else ({},)
        load_kg = load_showing(kg, body_kg * body_share)
        # Weaker than that, it takes a set of one with another left, without a load.
        done = lift_test(lift, load_kg, REPS, IN_RESERVE) if load_kg >= 0 else lift_test(lift, 0, 1, 1)
        lines["tests"] += [{**done, **side} for side in sides]
    speed = needs["speed-exposure", "m/s"] * (1 - short.get("speed-exposure", 0.0))
    run = {"method": "light gates", "distance": "10 m", "trials": [f"{10 / speed:.2f} s"] * 2}
    lines["tests"].append({"kind": "flying-sprint", "date": TESTED_ON, **run})
    return lines


def wanted() -> dict[str, tuple[str, dict[Quality, float]]]:
    """Kind and deficit of each block, by its key; those without a deficit first."""
    found: dict[str, tuple[str, dict[Quality, float]]] = {kind: (kind, {}) for kind in KINDS}
    return found | {f"{kind}, {q} {by:.0%} short": (kind, {q: by}) for kind in KINDS for q in QUALITIES for by in BY}


def row(key: str, read: Read, base: Read, quality: Quality) -> str:
    """One line of the table: this block, with the other's figures behind a stroke."""
    both = [_figures(one, quality) for one in (read, base)]
    cells = " | ".join(f"{mine:g} / {theirs:g}" for mine, theirs in zip(*both, strict=True))
    mine, theirs = (_movements(one) for one in (read, base))
    came, went = [m for m in mine if m not in theirs], [m for m in theirs if m not in mine]
    return f"| {key} | {cells} | {_named(came)} | {_named(went)} |"


def _movements(read: Read) -> list[str]:
    return list(dict.fromkeys(line.movement.id for line in read.where(lambda line: line.works, read.load_weeks)))


def _figures(read: Read, quality: Quality) -> tuple[float, ...]:
    weeks = read.load_weeks
    sets = sum(week.totals.working_sets.get(quality, 0.0) for week in weeks)
    lifts = [
        one
        for one in read.where(lambda line: not line.item.contacts, weeks)
        if one.movement.qualities.get(quality) == 3
    ]
    loaded = sum(one.item.sets for one in lifts if one.loaded)
    return (
        sets,
        loaded,
        sum(line.item.contacts for line in read.where(lambda line: line.works, weeks)),
        sum(w.totals.sprint_efforts for w in weeks),
    )


def _named(movements: list[str]) -> str:
    more = len(movements) - MOST_NAMED
    return ", ".join([*movements[:MOST_NAMED], *([f"{more} more"] if more > 0 else [])]) or "-"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--kept", type=Path, default=Path("pairs.jsonl"))
    parser.add_argument("--only-kept", action="store_true", help="plan nothing: what the file has")
    given = parser.parse_args()
    draws = {
        key: lambda kind=kind, short=short: Drawn(athlete(kind, short), TEMPLATE, "pair")  # type: ignore[misc]
        for key, (kind, short) in wanted().items()
    }
    kept = (
        read_kept(given.kept) if given.only_kept else keep(draws, given.kept, tell=lambda t: print(t, file=sys.stderr))
    )
    reads = {one.key: read_of(one) for one in kept if one.block is not None}
    print(
        "| athlete | sets | loaded sets | contacts | sprints | came | went |", "|---|---|---|---|---|---|---|", sep="\n"
    )
    for key, (kind, short) in wanted().items():
        if short and key in reads and kind in reads:
            print(row(key, reads[key], reads[kind], next(iter(short))))


if __name__ == "__main__":
    main()
