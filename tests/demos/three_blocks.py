"""Three blocks of the adult demo one after the other, each planned from what was done of the one before.

    python -m tests.demos.three_blocks FOLDER

In FOLDER, which must not be there yet, it plans the demo's block, reads the shipped log, writes the retest below the
old tests, plans the next block with --after, trains that as planned with touches and squats of its own, and so on.
Printed: what each block takes over, whether it is proved, what ``check`` says, and how the first load week grows from
the weeks before it, summed here from the printed items. All of it is invented.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

from planner.cli import main
from planner.domain.block import Block, Item, Week
from planner.domain.terms import LOAD_ROLES
from planner.files.load import load_block

ROOT = Path(__file__).parents[2]
LOG = ROOT / "templates/logs/adult-to-the-retest.csv"
TOUCH = "  - {{kind: touch, date: {day}, method: vane tape, take_off: one-leg left, run_up: true, trials: [{marks}]}}\n"
SQUAT = "  - {{kind: lift, date: {day}, movement: back-squat, load: {load} kg, reps: 4, reps_in_reserve: 2}}\n"
RETESTS = (
    TOUCH.format(day="2025-11-01", marks="3.14 m, 3.15 m, 3.13 m")
    + TOUCH.format(day="2025-11-04", marks="3.15 m, 3.16 m, 3.14 m")
    + SQUAT.format(day="2025-11-04", load="132.5"),
    TOUCH.format(day="2026-01-03", marks="3.16 m, 3.14 m, 3.16 m")
    + TOUCH.format(day="2026-01-06", marks="3.15 m, 3.16 m, 3.17 m")
    + SQUAT.format(day="2026-01-06", load="145"),
)
FIRST_TOUCH_cm, MORE_A_WEEK_cm = 313, 0.5
MORE_kg = 2.5


@dataclass(frozen=True)
class Grown:
    """A week's sums against those of the usual week before, and the most that the growth limits allow."""

    what: str
    before: float
    now: float
    most: float


def three_blocks(folder: Path) -> list[Path]:
    """Plans them into the folder. Raises RuntimeError where a command refuses."""
    folder.mkdir(parents=True)
    run("start", folder / "coach")
    ana = folder / "coach" / "milo.yaml"
    ana.write_text((ROOT / "templates/athletes/adult-one-leg-jumper.yaml").read_text("utf-8"), "utf-8")
    blocks = [ana.with_name(f"block-{number}.yaml") for number in (1, 2, 3)]
    run("plan", ana, "-o", blocks[0])
    run("check", blocks[0])
    run("log", blocks[0], "--from", LOG)
    for number, retest in enumerate(RETESTS):
        ana.write_text(ana.read_text("utf-8").rstrip() + "\n\n" + retest, "utf-8")
        run("plan", ana, "--after", blocks[number], "-o", blocks[number + 1])
        run("check", blocks[number + 1])  # at once: later tests are not those that it was planned from
        if number == 0:
            trained(blocks[1])
    return blocks


def trained(path: Path) -> None:
    """Every session as planned, with a heavier squat and a touch that rises from week to week."""
    for week in load_block(path).require().weeks:
        touch = FIRST_TOUCH_cm + MORE_A_WEEK_cm * week.number
        for session in week.sessions:
            words: list[object] = ["--as-planned", "--effort", 7, "--minutes", session.minutes]
            for number, item in enumerate(session.items, start=1):
                if item.movement == "back-squat" and item.load_kg:
                    squat = f"{item.load_kg + MORE_kg:g} kg x {item.reps}; {item.reps_in_reserve} left"
                    words += ["--item", number, squat]
                if item.movement == "full-approach-jump-one-leg" and item.sets > 1:
                    words += ["--item", number, f"{touch / 100:.2f} m, {(touch + 2) / 100:.2f} m"]
            run("log", path, session.id, *words)


def run(*words: object) -> None:
    code = main([str(word) for word in words])
    if code:
        raise RuntimeError(f"jumpblock {' '.join(map(str, words))} ends with {code}")


def seam(before: Block, new: Block) -> list[Grown]:
    """Both blocks as printed: the first load week against the mean of the last four load weeks, and the most it may."""
    load = [week for week in before.weeks if week.role in LOAD_ROLES][-4:]
    first = next(week for week in new.weeks if week.role in LOAD_ROLES)
    limits = (("working sets", sets, 1.1, 2), ("contacts", contacts, 1.1, 10), ("high contacts", high, 1.2, 0))
    found = []
    for what, sums, ratio, step in (*limits, ("sprints", sprints, 1.2, 0)):
        usual = round(sum(sums(week) for week in load) / len(load))
        found.append(Grown(what, usual, sums(first), ratio * usual + step))
    return found


def sets(week: Week) -> int:
    held = ("main-lift", "one-leg", "hamstring", "calf", "trunk")
    return sum(item.sets for item in _items(week) if item.part in held)


def contacts(week: Week) -> int:
    return sum(item.contacts for item in _items(week))


def high(week: Week) -> int:
    return sum(item.contacts for item in _items(week) if item.tier == "high")


def sprints(week: Week) -> int:
    return sum(item.sets for item in _items(week) if item.part == "sprint")


def _items(week: Week) -> list[Item]:
    return [item for session in week.sessions for item in session.items]


def report(blocks: list[Path]) -> None:
    loaded = [load_block(path).require() for path in blocks]
    for path, block in zip(blocks, loaded, strict=True):
        print(f"{path.name}: {block.weeks[0].start}, bands {block.proof.status}, {len(block.shortfalls)} bands missed")
    for before, new in pairwise(loaded):
        print(f"week 1 of the block from {new.weeks[0].start}:")
        for one in seam(before, new):
            print(f"  {one.what}: {one.now:g} after {one.before:g}, at most {one.most:.1f}")
    run("outcome", *blocks[:2])


if __name__ == "__main__":
    report(three_blocks(Path(sys.argv[1])))
