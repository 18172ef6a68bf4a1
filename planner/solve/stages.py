"""The stages of solving: bands first, proved; then preferences, within a deterministic budget."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from ortools.sat.python import cp_model

from planner.domain.block import Proof, Stage
from planner.problem.model import Problem
from planner.rules.base import Row
from planner.solve.cp_model import add_hint, build_model, solver, spent, values_of
from planner.solve.matrix import gather_rows
from planner.solve.prefer import prefer
from planner.solve.shortlist import shortlist

# Deterministic time (about seconds): the whole budget is part of the input, never the clock.
DEFAULT_BUDGET = 40.0
SHORTLISTS = (1, 2)  # of movements that are alike, so many; then the whole library
SHORTLIST_SHARE = 0.1
HARD_SHARE = 0.25
BANDS_SHARE = 0.35
Progress = Callable[[str], None]


@dataclass(frozen=True)
class Solution:
    """Values of every variable, the shortfalls of soft rows (row, units short or over), and the proof."""

    problem: Problem
    values: dict[str, int]
    missed: tuple[tuple[Row, int], ...]
    proof: Proof
    deterministic_time: float


class NoBlock(Exception):
    """The hard rules cannot all hold. ``rows`` are those of the whole library."""

    def __init__(self, problem: Problem, rows: Sequence[Row]) -> None:
        super().__init__("no block keeps every hard rule")
        self.problem, self.rows = problem, rows


class BudgetSpent(Exception):
    """Neither a block nor a proof that there is none, within the budget."""


@dataclass(frozen=True)
class Found:
    """A block of a library: values of its variables, the soft rows it misses, the deterministic time spent so far.

    ``bound``: no block of the whole library misses less than this, in priced units.
    """

    problem: Problem
    values: dict[str, int]
    missed: tuple[tuple[Row, int], ...]
    spent: float
    bound: int = 0

    @property
    def objective(self) -> int:
        return sum(row.price * units for row, units in self.missed)


def solve(problem: Problem, budget: float = DEFAULT_BUDGET, progress: Progress = lambda _: None) -> Solution:
    """The best block by its bands, proved where the budget allows, then by a coach's preferences.

    Raises NoBlock or BudgetSpent.
    """
    return _finish(solve_bands(problem, budget, progress), budget, progress)


def solve_bands(problem: Problem, budget: float = DEFAULT_BUDGET, progress: Progress = lambda _: None) -> Found:
    """Stage 1 alone. Raises NoBlock or BudgetSpent.

    A block of a shortlist that misses nothing is the best of any library. Otherwise the best of the shortlist is where
    the search in the whole library starts, and only the whole library gives the bound.
    """
    for most_alike in SHORTLISTS:
        smaller = shortlist(problem, most_alike)
        progress(f"looking among {len(smaller.movements)} of {len(problem.movements)} movements")
        found = _meets_all_bands(smaller, SHORTLIST_SHARE * budget)
        if found is not None:
            return found
    progress("weighing what cannot all be met")
    start = _best(shortlist(problem, SHORTLISTS[0]), SHORTLIST_SHARE * budget, None)[0]
    progress(f"looking in the whole library of {len(problem.movements)} movements")
    return _whole_library(problem, start, budget)


def _meets_all_bands(problem: Problem, budget: float) -> Found | None:
    """A block of this library with no shortfall at all: then nothing outside it can do better. None says nothing."""
    built = build_model(problem, [dataclasses.replace(row, price=0) for row in gather_rows(problem)])
    solved = solver(budget)
    if solved.solve(built.model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return Found(problem, values_of(built, solved), (), spent(solved))


def _best(problem: Problem, budget: float, start: dict[str, int] | None) -> tuple[Found | None, bool]:
    """The best block of this library within the budget, with its bound, and whether there can be none at all."""
    rows = gather_rows(problem)
    built = build_model(problem, rows)
    if start is not None:
        add_hint(built, {key: start.get(key, 0) for key in built.variables})
    built.model.minimize(built.penalty())
    solved = solver(budget)
    status = solved.solve(built.model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None, status == cp_model.INFEASIBLE
    values = values_of(built, solved)
    bound = round(solved.best_objective_bound)
    return Found(problem, values, shortfalls(rows, values), spent(solved), bound), False


def _whole_library(problem: Problem, start: Found | None, budget: float) -> Found:
    if start is None:
        _refuse_if_impossible(problem, HARD_SHARE * budget)
    best, impossible = _best(problem, BANDS_SHARE * budget, start.values if start else None)
    if impossible:
        raise NoBlock(problem, gather_rows(problem))
    bound = best.bound if best is not None else 0
    # Where the whole library does no better, the shortlist's block is kept: its movements fit the athlete best.
    if start is not None and (best is None or start.objective <= best.objective):
        return dataclasses.replace(start, bound=bound)
    if best is None:
        raise BudgetSpent
    return best


def _refuse_if_impossible(problem: Problem, budget: float) -> None:
    """Without any block in hand, ask first for the hard rules alone: a "no" comes much sooner than an optimum."""
    rows = gather_rows(problem)
    if solver(budget).solve(build_model(problem, rows, soft=False).model) == cp_model.INFEASIBLE:
        raise NoBlock(problem, rows)


def _finish(found: Found, budget: float, progress: Progress) -> Solution:
    status: Literal["optimal", "feasible"] = "optimal" if found.objective <= found.bound else "feasible"
    first = Stage(
        name="bands",
        status=status,
        objective=found.objective,
        bound=found.bound,
        unit="priced shortfall",
    )
    allowed = {(row.rule, row.scope): units for row, units in found.missed}
    values, later, more = prefer(found.problem, found.values, allowed, budget, progress)
    missed = shortfalls(gather_rows(found.problem), values)
    proof = Proof(status=status, scope="library", stages=(first, *later))
    return Solution(found.problem, values, missed, proof, round(found.spent + more, 3))


def shortfalls(rows: Sequence[Row], values: dict[str, int]) -> tuple[tuple[Row, int], ...]:
    """Soft rows that the values miss, with the units missed."""
    found = []
    for row in rows:
        missed = units_missed(row, values) if row.price else 0
        if missed:
            found.append((row, missed))
    return tuple(found)


def units_missed(row: Row, values: dict[str, int]) -> int:
    """How far the row's sum lies outside its limits, in the row's whole numbers; 0 inside."""
    total = sum(c * values[k] for c, k in row.terms)
    short = 0 if row.low is None else row.low - total
    over = 0 if row.high is None else total - row.high
    return max(short, over, 0)
