"""What a longer search for a coach's preferences would bring: points of a drawn squad, and its processor time.

A point is a sixth of one more movement on a day; the template's ``preferences`` give the others.
Run: python -m tests.benchmarks.longer_preferences --athletes 40 --times 4
"""

from __future__ import annotations

import argparse
import statistics
import tempfile
import time
from pathlib import Path

from planner.jobs.plan_one import PlanTask, sources_of
from planner.problem.model import Problem
from planner.solve.bands import solve_bands
from planner.solve.budgets import DEFAULT_BUDGET, LIKED
from planner.solve.prefer import prefer
from planner.solve.shortlist import narrowed
from tests.benchmarks.squad import drawn_squad


def points_and_seconds(problem: Problem, times: float) -> tuple[dict[float, int], dict[float, float]]:
    """Of the budget and of ``times`` it, from the same bands: points of choices and sets, seconds of the search."""
    found = solve_bands(problem)
    allowed = {row.key: units for row, units in found.missed}
    small, values = narrowed(found.problem, found.values, *LIKED)
    points, seconds = {}, {}
    for factor in (1.0, times):
        began = time.process_time()
        _, stages, _ = prefer(small, values, allowed, factor * DEFAULT_BUDGET, lambda _: None)
        seconds[factor] = time.process_time() - began
        points[factor] = sum(stage.objective or 0 for stage in stages)
    return points, seconds


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--athletes", type=int, default=40)
    parser.add_argument("--times", type=float, default=4.0)
    said = parser.parse_args()
    lost, slower = [], []
    with tempfile.TemporaryDirectory() as name:
        for athlete, path in drawn_squad(Path(name), said.athletes).items():
            sources = sources_of(PlanTask(path, f"{name}/block.yaml"))
            _, problem = sources.estimate_and_problem(None, before=None)
            points, seconds = points_and_seconds(problem, said.times)
            lost.append(points[1.0] - points[said.times])
            slower.append(seconds[said.times] / seconds[1.0])
            print(
                f"{athlete:24s} {points[1.0]:5d} points, {lost[-1]:4d} fewer, {slower[-1]:.1f} times as long",
                flush=True,
            )
    print(
        f"median {statistics.median(lost):.0f}, mean {statistics.mean(lost):.1f}, most {max(lost)} points fewer in "
        f"{statistics.median(slower):.1f} times the processor time (median)"
    )


if __name__ == "__main__":
    main()
