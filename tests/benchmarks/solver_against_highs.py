"""Stage 1 of ten athletes: this planner against HiGHS on the same rows, as a ratio in one run.

Ours: model, shortlists and proof. HiGHS: the matrix of the whole library's rows, bands soft, one thread, no gap
allowed. Reading YAML is left out of both. Run: python -m tests.benchmarks.solver_against_highs
"""

from __future__ import annotations

import statistics
import time

from planner.problem.from_files import estimate_and_problem
from planner.solve.matrix import gather_rows
from planner.solve.stages import solve_bands
from tests.benchmarks.people import healthy_adults
from tests.independence.drawn import inputs
from tests.independence.highs import OPTIMAL, solve_with_highs

TIME_LIMIT_s = 120.0


def main() -> None:
    ratios = []
    for name, data in healthy_adults():
        _, problem = estimate_and_problem(inputs(data, "eight-week"))
        start = time.perf_counter()
        found = solve_bands(problem)
        ours_s = time.perf_counter() - start
        problem.memo.clear()
        start = time.perf_counter()
        answer = solve_with_highs(problem, gather_rows(problem), time_limit_s=TIME_LIMIT_s)
        highs_s = time.perf_counter() - start
        proved = "proved" if found.objective <= found.bound else f"bound {found.bound}"
        theirs = "proved" if answer.status == OPTIMAL else "at the limit"
        ratios.append(highs_s / ours_s)
        print(
            f"{name:16s} ours {ours_s:6.2f} s, {found.objective} {proved}; "
            f"HiGHS {highs_s:7.2f} s, {answer.objective} {theirs}; ratio {ratios[-1]:.1f}",
            flush=True,
        )
    print(f"median ratio (HiGHS / ours): {statistics.median(ratios):.1f}")


if __name__ == "__main__":
    main()
