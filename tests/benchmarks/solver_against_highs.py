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
from tests.independence.drawn import inputs, plain
from tests.independence.highs import OPTIMAL, solve_with_highs

TIME_LIMIT_s = 120.0


def athletes() -> list[tuple[str, dict[str, object]]]:
    """Ten healthy adults of the shipped eight-week block: levels, days and minutes, gyms, take-offs and tests."""
    found = []
    for name, change in [
        ("as shipped", {}),
        ("novice", {"level": "novice"}),
        ("advanced", {"level": "advanced"}),
        ("landing not yet", {"landing": "not-yet"}),
        ("right leg", _take_off("one-leg right")),
        ("two legs", _take_off("two-leg")),
        ("lighter", {"body_mass": "70 kg"}),
        ("three days", {"training": _days("mon", "wed", "fri")}),
        ("other four days", {"training": _days("mon", "wed", "fri", "sun")}),
        ("long days", {"training": _days("mon", "tue", "thu", "sat", minutes=110)}),
    ]:
        found.append((name, {**plain("adult-one-leg-jumper"), **change}))
    return found


def _take_off(legs: str) -> dict[str, object]:
    """The same jumper off other legs: the tests of the target jump go with it."""
    tests = [
        {**test, "take_off": legs} if str(test.get("take_off", "")).startswith("one-leg") else test
        for test in plain("adult-one-leg-jumper")["tests"]  # type: ignore[attr-defined]
    ]
    return {"take_off": legs, "tests": tests}


def _days(*names: str, minutes: int = 90) -> dict[str, object]:
    return {"days": [{"day": name, "minutes": minutes} for name in names]}


def main() -> None:
    ratios = []
    for name, data in athletes():
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
