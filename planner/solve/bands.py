"""Stage 1: the block that misses least of its bands, and the proof that no block of the whole library misses less.

The cheapest proof that will do comes first. A block that misses nothing is the best of any library, whatever shortlist
it was found in; where there is much to choose from, the first shortlists are small mixtures. Else the best of a
shortlist is held against a smaller question that the whole library must answer too: only the bands of the rules that
were missed, only the movements that count for those. Its answer is a bound, and the movements it leans on are those
worth adding to the shortlist. Only where the two do not meet is the whole library solved at full length.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from planner.domain.address import Address
from planner.problem.model import Problem
from planner.problem.variable import Values, Variable
from planner.rules.base import Row
from planner.rules.registry import rule_named
from planner.solve.budgets import (
    BEST_OF_ALL_SHARE,
    BOUND_SHARE,
    DEFAULT_BUDGET,
    FIRST_SHARE,
    HARD_SHARE,
    LARGE_MIX,
    LIKED,
    QUICKEST,
    ROUNDS,
    SAME_CHOICE_SHARE,
    SHORTLIST_SHARE,
    SMALL_MIX,
    SMALL_MIX_SHARE,
    WHOLE_SHARE,
)
from planner.solve.cp_model import add_hint, build_model, solver, spent, values_of
from planner.solve.matrix import gather_rows
from planner.solve.refute import verdict
from planner.solve.relax import of_movements, projected
from planner.solve.shortfalls import shortfalls, units_missed
from planner.solve.shortlist import MILD_AND_QUICK, OF_ALL_SORTS, SPARING, mixed, only, open_library, shortlist
from planner.solve.variable_ranges import variable_ranges

Progress = Callable[[str], None]


class NoBlock(Exception):
    """The hard rules cannot all hold. ``rows``: those of the whole library; ``core``: enough of them to say so."""

    def __init__(self, problem: Problem, rows: Sequence[Row], core: Sequence[Row] | None = None) -> None:
        super().__init__("no block keeps every hard rule")
        self.problem, self.rows, self.core = problem, rows, rows if core is None else core


class BudgetSpent(Exception):
    """Neither a block nor a proof that there is none, within the budget."""


@dataclass(frozen=True)
class Found:
    """A block of a library: values of its variables, the soft rows it misses, the deterministic time spent so far.

    ``bound``: no block of the whole library misses less than this, in priced units.
    """

    problem: Problem
    values: Values
    missed: tuple[tuple[Row, int], ...]
    spent: float
    bound: int = 0

    @property
    def objective(self) -> int:
        return sum(row.price * units for row, units in self.missed)

    @property
    def proved(self) -> bool:
        return self.objective <= self.bound


@dataclass
class Search:
    """One search of stage 1: its budget, what it has spent, and the bound for the whole library so far."""

    budget: float
    progress: Progress
    spent: float = 0.0
    bound: int = 0
    answer: cp_model.CpSolver = field(init=False)

    def run(self, model: cp_model.CpModel, share: float, *, from_below: bool = False) -> bool | None:
        """Whether there is a solution; None where the share of the budget did not suffice to say."""
        self.answer = solver(share * self.budget, from_below=from_below)
        status = self.answer.solve(model)
        self.spent += spent(self.answer)
        if status == cp_model.INFEASIBLE:
            return False
        return True if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None

    def raise_bound(self, bound: float) -> None:
        self.bound = max(self.bound, round(bound))

    def say(self, found: Found) -> Found:
        return dataclasses.replace(found, spent=self.spent, bound=min(self.bound, found.objective))


def solve_bands(problem: Problem, budget: float = DEFAULT_BUDGET, progress: Progress = lambda _: None) -> Found:
    """Stage 1 alone. Raises NoBlock or BudgetSpent."""
    search, size = Search(budget, progress), len(problem.movements)
    for smaller, share in _first_lists(problem):
        progress(f"looking among {len(smaller.movements)} of {size} movements")
        found = _meets_all_bands(search, smaller, share)
        if found is not None:
            return search.say(found)
    progress("weighing what cannot all be met")
    start: Found | None = None
    for smaller, from_below in _lists_that_collide(problem):
        found = _best(search, smaller, SHORTLIST_SHARE, None, from_below=from_below)
        if found is None or (from_below and found.objective > found.bound):
            continue  # from below, what is found on the way is of no use
        if start is None or found.objective < start.objective:
            start = _close_in(search, problem, found, from_below=from_below)
        if start is not None and start.objective <= search.bound:
            return search.say(start)
    if start is None:
        start = _any_block(search, problem)
    progress(f"looking in the whole library of {size} movements")
    return search.say(_whole_library(search, problem, start))


def _first_lists(problem: Problem) -> Iterator[tuple[Problem, float]]:
    """The libraries to ask first, each made when it is asked for, with its share of the budget."""
    liked = shortlist(problem, *LIKED)
    if len(liked.movements) < LARGE_MIX:
        yield liked, FIRST_SHARE
    else:  # a list that mixes liking with time and work is a smaller question, and more often holds a block
        yield mixed(problem, SMALL_MIX, MILD_AND_QUICK), SMALL_MIX_SHARE
        yield mixed(problem, LARGE_MIX, OF_ALL_SORTS), FIRST_SHARE
    yield shortlist(problem, *QUICKEST, quickest=True), SHORTLIST_SHARE


def _lists_that_collide(problem: Problem) -> Iterator[tuple[Problem, bool]]:
    """The libraries to weigh shortfalls in, and whether from below: soonest done where little has to be missed."""
    yield mixed(problem, SMALL_MIX, SPARING), True
    yield shortlist(problem, *LIKED), False
    yield shortlist(problem, *QUICKEST, quickest=True), False


def _meets_all_bands(search: Search, problem: Problem, share: float) -> Found | None:
    """A block of this library with no shortfall at all: then nothing outside it can do better. None says nothing."""
    rows = [dataclasses.replace(row, price=0) if row.price else row for row in gather_rows(problem)]
    often = [row for row in rows if not rule_named(row.rule).seldom_tight]
    values = _answer(search, problem, often, share)
    if values is not None and any(units_missed(row, values) for row in rows):
        values = _same_choice(search, problem, rows, values) or _answer(search, problem, rows, share, hint=values)
    return None if values is None else Found(problem, values, (), search.spent)


def _same_choice(
    search: Search, problem: Problem, rows: Sequence[Row], values: Mapping[Variable, int]
) -> Values | None:
    """Other sets of the same movements on the same days: a far smaller question than the whole again."""
    chosen = {key: (value, value) for key, value in values.items() if key.chooses}
    return _answer(search, problem, rows, SAME_CHOICE_SHARE, ranges={**variable_ranges(problem), **chosen})


def _answer(
    search: Search,
    problem: Problem,
    rows: Sequence[Row],
    share: float,
    hint: Mapping[Variable, int] | None = None,
    ranges: dict[Variable, tuple[int, int]] | None = None,
) -> Values | None:
    built = build_model(problem, rows, ranges=ranges)
    if hint is not None:
        add_hint(built, hint)
    return values_of(built, search.answer) if search.run(built.model, share) else None


def _best(
    search: Search, problem: Problem, share: float, hint: Mapping[Variable, int] | None, *, from_below: bool = False
) -> Found | None:
    """The best block of this library within the share; ``bound`` speaks for this library alone."""
    rows = gather_rows(problem)
    built = build_model(problem, rows)
    if hint is not None:
        add_hint(built, {key: hint.get(key, 0) for key in built.variables})
    built.model.minimize(built.penalty())
    if not search.run(built.model, share, from_below=from_below):
        return None
    values, bound = values_of(built, search.answer), round(search.answer.best_objective_bound)
    return Found(problem, values, shortfalls(rows, values), search.spent, bound)


def _close_in(search: Search, problem: Problem, start: Found, *, from_below: bool) -> Found:
    """Bound and block, each helped by the other, until they meet or the rounds are over."""
    whole = open_library(problem)
    for _ in range(ROUNDS):
        known = {movement.id for movement in start.problem.movements}
        used = _bound(search, whole, [row for row, _ in start.missed], _band_of if from_below else _rule_of)
        if start.objective <= search.bound or used <= known:
            break
        wider = only(problem, known | used)
        better = _best(search, wider, SHORTLIST_SHARE, start.values, from_below=from_below)
        if better is None or better.objective >= start.objective:
            break
        start = better
    return start


def _band_of(row: Row) -> tuple[str, Address]:
    """What a band is of, whatever its week: one tier of contacts, one quality."""
    return row.rule, row.at._replace(week=None)


def _rule_of(row: Row) -> str:
    return row.rule


def _bound(search: Search, whole: Problem, missed: Sequence[Row], kind: Callable[[Row], object]) -> set[str]:
    """Raise the bound by the bands of the missed rows' kinds alone; the movements that count for them and that the
    bound uses."""
    kinds = {kind(row) for row in missed}
    rows = [row for row in gather_rows(whole) if row.price == 0 or kind(row) in kinds]
    counted = {key.at.movement or "" for row in rows if row.price for _, key in row.terms if key.kind == "sets"}
    keep = of_movements(variable_ranges(whole), counted)
    built = build_model(whole, [row for row, _ in projected(rows, variable_ranges(whole), keep)], ranges=keep)
    built.model.minimize(built.penalty())
    if not search.run(built.model, BOUND_SHARE):
        return set()
    search.raise_bound(search.answer.best_objective_bound)
    values = values_of(built, search.answer)
    return _movements_in(values)


def _movements_in(values: Mapping[Variable, int]) -> set[str]:
    """What is chosen for some day of some phase."""
    return {key.at.movement or "" for key, value in values.items() if value and key.kind == "in"}


def _whole_library(search: Search, problem: Problem, start: Found | None) -> Found:
    whole = open_library(problem)
    found = _meets_all_bands(search, whole, WHOLE_SHARE)
    if found is None:
        found = _best(search, whole, BEST_OF_ALL_SHARE, start.values if start else None)
        if found is not None:
            search.raise_bound(found.bound)
    # Where the whole library does no better, the shortlist's block is kept: its movements fit the athlete best.
    if start is not None and (found is None or start.objective <= found.objective):
        return start
    if found is None:
        raise BudgetSpent
    return found


def _any_block(search: Search, problem: Problem) -> Found | None:
    """Without any block in hand, ask for the hard rules alone, part by part: a yes or a no comes much sooner there."""
    search.progress("asking whether any block can be")
    rows = [row for row in gather_rows(problem) if row.price == 0]
    found = verdict(problem, rows, HARD_SHARE * search.budget)
    if found.part is not None:
        raise NoBlock(problem, rows, found.part)
    if found.point is None:
        return None
    used = _movements_in(found.point)
    smaller = only(problem, used | {movement.id for movement in shortlist(problem, *LIKED).movements})
    values = {key: found.point.get(key, low) for key, (low, _) in variable_ranges(smaller).items()}
    start = Found(smaller, values, shortfalls(gather_rows(smaller), values), search.spent)
    return _best(search, smaller, SHORTLIST_SHARE, values) or start
