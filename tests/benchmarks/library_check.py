"""Checking the shipped library, every phase of it, against ruamel.yaml reading the same files and doing no more.

Both in one process, interleaved, the median of their ratios; the bar is 2.5.
Run: python -m tests.benchmarks.library_check
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from pathlib import Path

from ruamel.yaml import YAML

from planner.files.file_checker import Checker

ROUNDS = 9
BAR = 2.5
LIBRARY = Path(__file__).parents[2] / "exercise_library"


def read_only() -> None:
    for path in sorted(LIBRARY.glob("*.yaml")):
        YAML(typ="rt").load(path.read_text("utf-8"))


def check_all() -> None:
    assert Checker().check(LIBRARY) == []


def seconds(work: Callable[[], None]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def main() -> None:
    seconds(check_all), seconds(read_only)  # imports and caches
    pairs = [(seconds(check_all), seconds(read_only)) for _ in range(ROUNDS)]
    ratio = statistics.median(check / read for check, read in pairs)
    check_s, read_s = (statistics.median(pair[side] for pair in pairs) for side in (0, 1))
    print(f"check {check_s:.3f} s, reading alone {read_s:.3f} s, ratio {ratio:.2f} (bar {BAR})")


if __name__ == "__main__":
    main()
