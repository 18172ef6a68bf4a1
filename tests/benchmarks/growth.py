"""What a larger library, a longer block and more sessions cost, as ratios to the shipped case within one run.

Every case is planned once a round, one after the other, and compared with the base of its own round, so that a busy
machine slows both. Time is the process's own. Reading YAML is left out; building the problem is not.
Run: python -m tests.benchmarks.growth [library] [weeks] [sessions] [shortfalls]
    [--rounds N] [--budget N] [--whole]
--whole: with the preferences of stage 2; else the bands and their proof alone.
"""

from __future__ import annotations

import argparse
import statistics
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, replace

from planner.problem.from_files import Inputs, estimate_and_problem
from planner.problem.model import Problem
from planner.rules.registry import gather_rows
from planner.solve.bands import solve_bands
from planner.solve.budgets import DEFAULT_BUDGET
from planner.solve.found_plan import BudgetSpent, NoBlock
from planner.solve.stages import solve
from planner.solve.variable_ranges import variable_ranges
from tests.benchmarks.larger import larger_library, of_weeks, with_more_days
from tests.benchmarks.people import Lines, adult, days, healthy_adults, short_of_something
from tests.independence.drawn import inputs, template

ROUNDS = 3
ROUTINES = ("mon thu", "mon wed fri", "mon tue thu sat", "mon tue wed fri sat", "mon tue wed thu fri sat")
# Enough behind the athlete that a block may start at the eight-week template's fifth week.
WELL_TRAINED = {"weekly_contacts": 200, "weekly_high_contacts": 30, "weekly_sprints": 10, "weekly_working_sets": 32}


@dataclass(frozen=True)
class Case:
    """What is planned, and the name of the case that it is compared with."""

    name: str
    inputs: Inputs
    base: str


@dataclass(frozen=True)
class Run:
    """One planning: seconds of the process, what came of it, and among how many movements it was found."""

    seconds: float
    outcome: str
    looked_at: int = 0


def library_cases() -> list[Case]:
    """Three athletes, each against the shipped library's own time."""
    return [case for who, lines in healthy_adults()[:3] for case in larger(who, lines)]


def larger(who: str, lines: Lines, times: tuple[int, ...] = (1, 2, 4, 8)) -> list[Case]:
    shipped = inputs(lines, "eight-week")
    libraries = {n: larger_library(shipped.library, n) for n in times}
    return [Case(f"{who}, x {n}", replace(shipped, library=libraries[n]), f"{who}, x 1") for n in times]


def week_cases() -> list[Case]:
    eight, twelve = template("eight-week"), template("twelve-week")
    shipped = inputs(adult(recent_load=WELL_TRAINED), "eight-week")
    templates = [of_weeks(eight, range(5, 9)), eight, twelve, of_weeks(twelve, [*range(1, 9), *range(5, 13)])]
    return [Case(f"{len(one.weeks)} weeks", replace(shipped, template=one), "8 weeks") for one in templates]


def session_cases() -> list[Case]:
    more = with_more_days(template("eight-week"))
    routines = [names.split() for names in ROUTINES]
    plans = [(routine, inputs(adult(training=days(*routine)), "eight-week")) for routine in routines]
    return [Case(f"{len(of)} sessions", replace(given, template=more), "4 sessions") for of, given in plans]


def shortfall_cases() -> list[Case]:
    """Bands that collide or nearly do, in the shipped library and in larger ones, against the adult's."""
    base = larger("as shipped", adult(), (1,))
    colliding = [case for who, lines in short_of_something() for case in larger(who, lines, (1, 2, 8))]
    return base + [replace(case, base=base[0].name) for case in colliding]


GROUPS: dict[str, Callable[[], list[Case]]] = {
    "library": library_cases,
    "weeks": week_cases,
    "sessions": session_cases,
    "shortfalls": shortfall_cases,
}


def run(case: Case, asked: argparse.Namespace) -> Run:
    start = time.process_time()
    _, problem = estimate_and_problem(case.inputs)
    try:
        if asked.whole:
            solution = solve(problem, asked.budget)
            bands, looked_at = solution.proof.stages[0], len(solution.problem.movements)
            found = bands.objective, bands.bound
        else:
            first = solve_bands(problem, asked.budget)
            found, looked_at = (first.objective, first.bound), len(first.problem.movements)
    except (NoBlock, BudgetSpent) as nothing:
        return Run(time.process_time() - start, type(nothing).__name__)
    seconds = time.process_time() - start
    proved = "proved" if found[0] == found[1] else "not proved"
    return Run(seconds, f"{found[0]}, bound {found[1]}, {proved}", looked_at)


def size(problem: Problem) -> str:
    return f"{len(problem.movements)} movements, {len(variable_ranges(problem))} x {len(gather_rows(problem))}"


def measure(cases: list[Case], asked: argparse.Namespace) -> None:
    """Plan the cases in turn, round after round; print each beside the base of its round."""
    runs: dict[str, list[Run]] = {case.name: [] for case in cases}
    for _ in range(asked.rounds):
        for case in cases:
            runs[case.name].append(run(case, asked))
            print(f"{case.name}: {runs[case.name][-1]}", file=sys.stderr, flush=True)
    for case in cases:
        mine = runs[case.name]
        ratios = [one.seconds / other.seconds for one, other in zip(mine, runs[case.base], strict=True)]
        outcomes = " / ".join(dict.fromkeys(one.outcome for one in mine))
        print(
            f"{case.name:22s} {statistics.median(ratios):6.2f} x the base ({min(ratios):.2f} to {max(ratios):.2f}); "
            f"{outcomes}; among {mine[0].looked_at}; {size(estimate_and_problem(case.inputs)[1])}; "
            f"{statistics.median(one.seconds for one in mine):.1f} s"
        )


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("groups", nargs="*", metavar="group", help=f"of {', '.join(GROUPS)}; none: all but the last")
    parser.add_argument("--rounds", type=int, default=ROUNDS)
    parser.add_argument("--budget", type=float, default=DEFAULT_BUDGET)
    parser.add_argument("--whole", action="store_true")
    asked = parser.parse_args()
    for name in asked.groups or [name for name in GROUPS if name != "shortfalls"]:
        print(f"{name}, {'whole plan' if asked.whole else 'bands and their proof'}, {asked.rounds} rounds", flush=True)
        measure(GROUPS[name](), asked)


if __name__ == "__main__":
    main()
