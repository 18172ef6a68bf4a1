"""Stage 1 of ten athletes: this planner against HiGHS on the same rows, as ratios in one run.

Ours: shortlists, models and proof, from the Problem on. HiGHS: the matrix of the whole library's rows, bands soft, no
gap allowed, from the Problem on as well. A second ratio gives HiGHS our own way of asking: the smallest shortlist that
held our block, every band as a hard row. Time is the process's own, which a busy machine leaves alone; both solvers
have one thread. Reading YAML and building the Problem are left out of both.
Run: python -m tests.benchmarks.solver_against_highs
"""

from __future__ import annotations

import dataclasses
import statistics
import time
from collections.abc import Callable
from typing import TypeVar

from planner.problem.from_files import estimate_and_problem
from planner.problem.model import Problem
from planner.rules.registry import gather_rows
from planner.rules.rule import Row
from planner.solve.bands import solve_bands
from tests.benchmarks.people import healthy_adults
from tests.independence.drawn import inputs
from tests.independence.highs import OPTIMAL, Answer, solve_with_highs

TIME_LIMIT_s = 900.0  # of the clock: never met on a machine with nothing else to do
T = TypeVar("T")


def timed(work: Callable[[Problem], T], problem: Problem) -> tuple[T, float]:
    """What ``work`` makes of a problem that keeps nothing from before, and the processor seconds it took."""
    fresh = dataclasses.replace(problem)
    start = time.process_time()
    return work(fresh), time.process_time() - start


def whole_library(problem: Problem) -> Answer:
    return solve_with_highs(problem, gather_rows(problem), time_limit_s=TIME_LIMIT_s)


def bands_as_hard_rows(problem: Problem) -> Answer:
    rows: list[Row] = [dataclasses.replace(row, price=0) for row in gather_rows(problem)]
    return solve_with_highs(problem, rows, time_limit_s=TIME_LIMIT_s)


def told(answer: Answer, seconds: float) -> str:
    return f"{seconds:6.2f} s, {answer.objective} {'proved' if answer.status == OPTIMAL else 'at the limit'}"


def main() -> None:
    ratios, our_way = [], []
    for name, lines in healthy_adults():
        _, problem = estimate_and_problem(inputs(lines, "eight-week"))
        found, ours_s = timed(solve_bands, problem)
        answer, highs_s = timed(whole_library, problem)
        short, short_s = timed(bands_as_hard_rows, found.problem)
        ratios.append(highs_s / ours_s)
        our_way.append(short_s / ours_s)
        proved = "proved" if found.objective <= found.bound else f"bound {found.bound}"
        print(
            f"{name:16s} ours {ours_s:5.2f} s, {found.objective} {proved}; HiGHS {told(answer, highs_s)}: "
            f"{ratios[-1]:.1f} x; HiGHS our way {told(short, short_s)}: {our_way[-1]:.1f} x",
            flush=True,
        )
    print(f"median HiGHS / ours: {statistics.median(ratios):.1f}; asked our way: {statistics.median(our_way):.1f}")


if __name__ == "__main__":
    main()
