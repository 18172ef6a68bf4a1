"""What a "no" costs: each pinned refusal with its cheapest change, and four short days from half an hour up.

Processor time of this process, over that of the healthy adult's bands, proved; whole seconds differ from machine to
machine, the ratios less. Run: python -m tests.benchmarks.refusals [pinned | short-days]
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from dataclasses import replace

from planner.problem.from_files import estimate_and_problem
from planner.report.conflict_text import steps_in_words
from planner.solve.bands import solve_bands
from planner.solve.conflict import find_conflict
from planner.solve.found_plan import BudgetSpent, NoBlock
from planner.solve.repair import minutes_that_do
from tests.conflicts.scenarios import NAMES, scenario
from tests.solve.demos import inputs, problem, shipped_library

DAYS = ("mon", "tue", "thu", "sat")
SHORT_minutes = (30, 31, 32, 33, 34, 35, 40, 45)


def cpu_seconds(work: Callable[[], str]) -> tuple[float, str]:
    before = time.process_time()
    said = work()
    return time.process_time() - before, said


def healthy() -> str:
    solve_bands(problem("adult"))
    return ""


def refused(name: str) -> str:
    found = scenario(name)
    return "as pinned" if found.told == found.expected else "NOT as pinned"


def four_days_of(minutes: int) -> str:
    """A block and its shortfall, or the change that the refusal names."""
    given = inputs("adult", {"training": {"days": [{"day": day, "minutes": minutes} for day in DAYS]}})
    asked = estimate_and_problem(given)[1]
    try:
        found = solve_bands(asked)
        return f"a block, shortfall {found.objective}{', proved' if found.proved else f', at best {found.bound}'}"
    except NoBlock as none:
        conflict = find_conflict(
            asked, none.rows, lambda athlete: estimate_and_problem(replace(given, athlete=athlete))[1], none.core
        )
        change, said = conflict and conflict.change, "no block"
    except BudgetSpent:
        change = minutes_that_do(asked, lambda athlete: estimate_and_problem(replace(given, athlete=athlete))[1])
        said = "none found, none ruled out"
    return f"{said}; {steps_in_words(change.steps, asked) if change else 'no change found'}"


def main() -> None:
    shipped_library()
    healthy()  # once before: what is read and compiled once is no part of a question
    unit, _ = cpu_seconds(healthy)
    print(f"healthy adult, all bands met: {unit:.2f} s of this processor, the unit below", flush=True)
    wanted = sys.argv[1:] or ["pinned", "short-days"]
    for name in NAMES if "pinned" in wanted else ():
        spent, said = cpu_seconds(lambda name=name: refused(name))  # type: ignore[misc]
        print(f"{name:36s} {spent:6.2f} s {spent / unit:6.2f}  {said}", flush=True)
    for minutes in SHORT_minutes if "short-days" in wanted else ():
        spent, said = cpu_seconds(lambda minutes=minutes: four_days_of(minutes))  # type: ignore[misc]
        print(f"four days of {minutes} minutes{'':13s} {spent:6.2f} s {spent / unit:6.2f}  {said}", flush=True)


if __name__ == "__main__":
    main()
