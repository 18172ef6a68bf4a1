"""The same files planned and printed again and again: other hash seeds, one core or two, with and without other work
on the machine, folders listed in another order each time. Plan and cards must come out byte for byte the same.

Run: python -m tests.benchmarks.one_hash [--runs 20] [--demo adult]
"""

from __future__ import annotations

import argparse
import contextlib
import hashlib
import multiprocessing
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.solve.demos import DEMOS, ROOT

RUNS = 20
# The command, on so many cores (where the system lets us say so), with every folder listed in a shuffled order.
SHUFFLED = """
import contextlib, os, random, sys
from planner.cli import main
draw, listed = random.Random(int(sys.argv[1])), os.scandir
class Shuffled(contextlib.ExitStack):
    def __init__(self, path="."):
        super().__init__()
        with listed(path) as entries:
            found = sorted(entries, key=lambda entry: entry.name)
        draw.shuffle(found)
        self.left = iter(found)
    def __iter__(self):
        return self.left
    def __next__(self):
        return next(self.left)
os.scandir = Shuffled
if hasattr(os, "sched_setaffinity"):
    os.sched_setaffinity(0, sorted(os.sched_getaffinity(0))[: int(sys.argv[2])])
sys.exit(main(sys.argv[3:]))
"""


@dataclass(frozen=True)
class Setting:
    """What may not matter: the hash seed (the folder order follows it), cores, and other work beside."""

    seed: int
    cores: int
    busy: bool = False


def settings(runs: int) -> list[Setting]:
    return [Setting(seed, cores=1 + seed % 2, busy=seed % 4 >= 2) for seed in range(runs)]


def plan_and_cards(coach: Path, demo: str, setting: Setting) -> tuple[str, str]:
    """Digests of the block and of its cards, made by the command in processes of their own."""
    new = Path(tempfile.mkdtemp(prefix="run-", dir=coach))
    block, cards = new / "block.yaml", new / "cards.pdf"
    with _other_work(setting.busy):
        _run(setting, "plan", coach / f"templates/athletes/{DEMOS[demo][0]}.yaml", "-o", block)
        _run(setting, "cards", block, "-o", cards)
    plan, printed = (hashlib.sha256(path.read_bytes()).hexdigest() for path in (block, cards))
    return plan, printed


def coach_folder(parent: Path) -> Path:
    """A folder with library, templates and athletes, as a coach gets it."""
    _run(Setting(0, cores=1), "start", parent / "coach")
    return parent / "coach"


def _run(setting: Setting, *words: object) -> None:
    environment = {**os.environ, "PYTHONHASHSEED": str(setting.seed), "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-c", SHUFFLED, str(setting.seed), str(setting.cores), *map(str, words)]
    subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, check=True)


@contextlib.contextmanager
def _other_work(busy: bool) -> Iterator[None]:
    """Two processes that keep the cores busy meanwhile."""
    workers = [multiprocessing.get_context("spawn").Process(target=_spin, daemon=True) for _ in range(2 * busy)]
    for worker in workers:
        worker.start()
    try:
        yield
    finally:
        for worker in workers:
            worker.terminate()
            worker.join()


def _spin() -> None:
    while True:
        pass


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--runs", type=int, default=RUNS)
    parser.add_argument("--demo", choices=DEMOS, default="adult")
    asked = parser.parse_args()
    found: list[tuple[str, str]] = []
    with tempfile.TemporaryDirectory() as folder:
        coach = coach_folder(Path(folder))
        for setting in settings(asked.runs):
            found.append(plan_and_cards(coach, asked.demo, setting))
            plan, cards = (digest[:12] for digest in found[-1])
            work = "busy" if setting.busy else "    "
            print(f"seed {setting.seed:2d}  {setting.cores} core(s)  {work}  plan {plan}  cards {cards}", flush=True)
    plans, cards_too = ({digests[place] for digests in found} for place in (0, 1))
    print(f"{asked.runs} runs: {len(plans)} plan(s), {len(cards_too)} set(s) of cards")


if __name__ == "__main__":
    main()
