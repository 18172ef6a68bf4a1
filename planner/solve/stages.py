"""The stages of solving: bands first, with proof; then preferences, within a deterministic budget."""

from __future__ import annotations

from dataclasses import dataclass

from planner.domain.block import Proof
from planner.problem.model import Problem
from planner.problem.variable import Values
from planner.rules.registry import gather_rows
from planner.rules.rule import Row
from planner.solve.bands import solve_bands
from planner.solve.budgets import DEFAULT_BUDGET, LIKED
from planner.solve.found_plan import Progress
from planner.solve.prefer import prefer
from planner.solve.shortfalls import shortfalls
from planner.solve.shortlist import narrowed


@dataclass(frozen=True)
class Solution:
    """Values of every variable, the soft rows missed (with the units short or over), and the proof."""

    problem: Problem
    values: Values
    missed: tuple[tuple[Row, int], ...]
    proof: Proof
    deterministic_time: float


def solve(problem: Problem, budget: float = DEFAULT_BUDGET, progress: Progress = lambda _: None) -> Solution:
    """The best block by its bands, proved if the budget allows, then by a coach's preferences.

    Raises NoBlock or BudgetSpent.
    """
    found = solve_bands(problem, budget, progress)
    allowed = {row.key: units for row, units in found.missed}
    small, values = narrowed(found.problem, found.values, *LIKED)
    values, later, more = prefer(small, values, allowed, budget, progress)
    missed = shortfalls(gather_rows(small), values)
    proof = Proof(status="optimal" if found.proved else "feasible", scope="library", stages=(found.stage, *later))
    return Solution(small, values, missed, proof, round(found.spent + more, 3))
