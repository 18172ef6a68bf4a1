"""``python -m tests.benchmarks.felt``: CPU and wall time of each command on the demos, against starting click alone.

A block is planned once for each demo (not counted with the rest). Each figure is the least of three runs, as a busy
machine only adds; Python keeps what it compiles, as it does where the package is installed.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

ROOT = Path(__file__).parents[2]
DEMOS = ("adult-one-leg-jumper", "in-season-player", "youth-two-leg-jumper")
RUNS = 3
COMPILED = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}


def measured(words: Sequence[str], runs: int = RUNS) -> tuple[float, float]:
    """Least CPU and wall time in seconds of a command that has to end with 0."""
    found = []
    for _ in range(runs):
        before, began = os.times(), time.monotonic()
        subprocess.run(words, check=True, capture_output=True, cwd=ROOT, env=COMPILED)
        after = os.times()
        cpu = after.children_user + after.children_system - before.children_user - before.children_system
        found.append((cpu, time.monotonic() - began))
    return min(cpu for cpu, _ in found), min(wall for _, wall in found)


def main() -> None:
    python, ours = sys.executable, [sys.executable, "-m", "planner"]
    print(f"{'command':<44} {'CPU s':>7} {'wall s':>7}")
    _print("python -c 'import click'", measured([python, "-c", "import click"]))
    _print("jumpblock --help", measured([*ours, "--help"]))
    with tempfile.TemporaryDirectory() as folder:
        for demo in DEMOS:
            athlete, block = f"templates/athletes/{demo}.yaml", f"{folder}/{demo}.yaml"
            _print(f"plan   {demo}", measured([*ours, "plan", athlete, "-o", block], 1))
            for name, words in (
                ("gap", ["gap", athlete]),
                ("check", ["check", athlete]),
                ("check block", ["check", block]),
                ("cards", ["cards", block, "-o", f"{folder}/{demo}.pdf"]),
                ("why", ["why", block, "--week", "1"]),
            ):
                _print(f"{name:<6} {demo}", measured([*ours, *words]))


def _print(name: str, figures: tuple[float, float]) -> None:
    print(f"{name:<44} {figures[0]:7.2f} {figures[1]:7.2f}", flush=True)


if __name__ == "__main__":
    main()
