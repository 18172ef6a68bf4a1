"""``python -m tests.benchmarks.felt``: CPU and wall time of each command on the demos, against starting click alone.

``--against CHECKOUT`` runs the same commands on the code of another checkout too, such as one before a change, each
run next to one of ours: its figures are the columns "before". A block is planned once for each demo by each (not
counted with the rest, since that takes as long as it takes). Each figure is the least of three runs, as a busy machine
only adds; Python keeps what it compiles, as it does where the package is installed.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

ROOT = Path(__file__).parents[2]
DEMOS = ("adult-one-leg-jumper", "in-season-player", "youth-two-leg-jumper")
COMMANDS = {
    "gap": "gap {athlete}",
    "check": "check {athlete}",
    "check block": "check {block}",
    "cards": "cards {block} -o {block}.pdf",
    "why": "why {block} --week 1",
}
RUNS = 3
COMPILED = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
Figures = tuple[float, float]


def timed(words: Sequence[str], checkout: Path) -> Figures:
    """CPU and wall time in seconds of a run of this Python on a checkout's code. It has to end with 0."""
    before, began = os.times(), time.monotonic()
    there = {**COMPILED, "PYTHONPATH": str(checkout)}
    subprocess.run([sys.executable, *words], check=True, capture_output=True, cwd=checkout, env=there)
    after = os.times()
    cpu = after.children_user + after.children_system - before.children_user - before.children_system
    return cpu, time.monotonic() - began


def measured(words: Sequence[str], checkouts: Sequence[Path], runs: int = RUNS) -> list[Figures]:
    """The least times of the same words on each checkout; ``{n}`` in them is the checkout's place."""
    found: list[list[Figures]] = [[] for _ in checkouts]
    for _ in range(runs):
        for place, checkout in enumerate(checkouts):
            found[place].append(timed([word.format(n=place) for word in words], checkout))
    return [(min(cpu for cpu, _ in one), min(wall for _, wall in one)) for one in found]


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("--against", type=Path, metavar="CHECKOUT", help="A folder with another checkout.")
    against = parser.parse_args().against
    checkouts = [*([against.resolve()] if against else []), ROOT]
    ours = ["-m", "planner"]
    print(f"{'':<40}" + ("      before            now" if against else ""))
    print(f"{'command':<40}" + "   CPU s  wall s" * len(checkouts) + ("  CPU ratio" if against else ""))
    _print("python -c 'import click'", measured(["-c", "import click"], checkouts))
    _print("jumpblock --help", measured([*ours, "--help"], checkouts))
    with tempfile.TemporaryDirectory() as folder:
        for demo in DEMOS:
            athlete, block = f"templates/athletes/{demo}.yaml", f"{folder}/{demo}-{{n}}.yaml"
            _print(f"plan {demo}", measured([*ours, "plan", athlete, "-o", block], checkouts, 1))
            for name, said in COMMANDS.items():
                words = [word.replace("{athlete}", athlete).replace("{block}", block) for word in said.split()]
                _print(f"{name} {demo}", measured([*ours, *words], checkouts))


def _print(name: str, figures: Sequence[Figures]) -> None:
    columns = "".join(f" {cpu:7.2f} {wall:7.2f}" for cpu, wall in figures)
    ratio = f" {figures[1][0] / figures[0][0]:10.2f}" if len(figures) == 2 else ""
    print(f"{name:<40}{columns}{ratio}", flush=True)


if __name__ == "__main__":
    main()
