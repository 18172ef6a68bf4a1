"""How long the command takes to say its help, against a bare import of its command-line package.

Both are processes of their own, one after the other, and the median of their ratios is printed; the bar is 2.
Run: python -m tests.benchmarks.start_up
"""

from __future__ import annotations

import resource
import statistics
import subprocess
import sys
from collections.abc import Sequence

from planner.cli.app import COMMANDS

ROUNDS = 15
BAR = 2.0
BARE = ["-c", "import click"]


def cpu_seconds(arguments: Sequence[str]) -> float:
    """Processor time of a Python process with these arguments, so that other work on the machine counts little."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, *arguments], stdout=subprocess.DEVNULL, check=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def ratio(words: Sequence[str]) -> float:
    """The median over the rounds of the command's time to that of the bare import."""
    pairs = [(cpu_seconds(["-m", "planner", *words]), cpu_seconds(BARE)) for _ in range(ROUNDS)]
    return statistics.median(ours / bare for ours, bare in pairs)


def main() -> None:
    cpu_seconds(["-m", "planner", "--help"])  # once before, for the compiled files
    print(f"--help            {ratio(['--help']):.2f} x import click (bar {BAR:g})", flush=True)
    for name in COMMANDS:
        print(f"{name + ' --help':17s} {ratio([name, '--help']):.2f}", flush=True)


if __name__ == "__main__":
    main()
