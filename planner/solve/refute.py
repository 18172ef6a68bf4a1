"""Can these rows hold together? A "no" for a part of the block (some weeks, some rules) is a "no" for the whole.

The whole block of a large library is often too large for a proof; a phase of it, or a few rules in a phase, seldom are.
So the smallest parts come first. None (the budget ran out) is never taken for an answer.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace

from planner.problem.model import Problem
from planner.problem.training_days import Phase
from planner.problem.variable import Values, Variable
from planner.rules.registry import rule_named
from planner.rules.rule import Row
from planner.solve import budgets
from planner.solve.cp_model import SEED, holds_at
from planner.solve.feasibility import Asker, Budget
from planner.solve.relax import of_movements
from planner.solve.shortlist import shortlist
from planner.solve.variable_ranges import variable_ranges


@dataclass(frozen=True)
class Refutation:
    """Of hard rows: some that cannot hold together, or values with which all of them hold; or neither is known."""

    part: list[Row] | None = None
    point: Values | None = None


def verdict(problem: Problem, rows: Sequence[Row], budget: float) -> Refutation:
    """Whether the hard rows can hold together, cheapest questions first; if not, a small part that cannot."""
    hard = [row for row in rows if row.price == 0]
    asker, inside = Asker(variable_ranges(problem), Budget(budget)), Inside(problem, hard)
    for phase in problem.phases:
        part = usual(inside.phase(phase))
        if asker.holds(part, budgets.VERDICT_PART_SHARE * budget) is False:
            return Refutation(part)
    if holds_with_few(asker, problem, hard, budgets.FEW_SHARE * budget):
        return Refutation(point=asker.point)
    for phase in problem.phases:
        part = usual(inside.phase(phase), floors=True)
        answer = asker.holds(part, budgets.VERDICT_WEEK_SHARE * budget)
        smaller = None if answer else _refuted_week(asker, inside, phase, budgets.VERDICT_WEEK_SHARE * budget)
        if answer is False or smaller is not None:
            return Refutation(smaller or part)
    if asker.holds(hard, budgets.VERDICT_WHOLE_SHARE * budget):
        return Refutation(point=asker.point)
    for part in (*(inside.phase(phase) for phase in problem.phases), hard):
        if asker.holds(part, budgets.VERDICT_PART_SHARE * budget) is False:
            return Refutation(part)
    return Refutation(point=asker.point) if _holds_from_other_seeds(asker, hard, budget) else Refutation()


def _holds_from_other_seeds(asker: Asker, hard: Sequence[Row], budget: float) -> bool:
    """Whether one of a few short searches, each from another seed, finds a block: their times differ by ten and more,
    so that several short ones find what a long one does not."""
    each = budgets.OTHER_SEED_SHARE * budget
    asker.budget.left = budgets.OTHER_SEEDS * each
    return any(asker.holds(hard, each, SEED + other, quick=True) for other in range(1, budgets.OTHER_SEEDS + 1))


def unkept_part(
    problem: Problem, rows: Sequence[Row], opened: Collection[str], *, thorough: bool
) -> tuple[list[Row] | None, bool]:
    """As ``verdict``, for rows that may well hold: the part that cannot (not made small), and whether all of them hold.

    ``opened``: movements that the rows leave open although a rule closes them. ``thorough``: if a few movements and the
    usual rules are inconclusive, ask with all rules and the whole library.
    """
    asker, inside = Asker(variable_ranges(problem), Budget(budgets.REPAIR_BUDGET)), Inside(problem, rows)
    liked, *others = budgets.FEW
    if holds_with_few(asker, problem, rows, budgets.REPAIR_FEW, opened, [liked]):
        return None, True
    for phase in problem.phases:
        part = usual(inside.phase(phase), floors=True)
        answer = asker.holds(part, budgets.REPAIR_PART, quick=True)
        smaller = _refuted_week(asker, inside, phase, budgets.REPAIR_PART) if answer is None else None
        if answer is False or smaller is not None:
            return smaller or part, False
    if not thorough:
        return None, False
    for part in (inside.phase(phase) for phase in problem.phases):
        if asker.holds(part, budgets.REPAIR_ALL_RULES) is False:
            return part, False
    few = holds_with_few(asker, problem, rows, budgets.REPAIR_FEW, opened, others)
    return None, bool(few or asker.holds(rows, budgets.REPAIR_WHOLE))


def _refuted_week(asker: Asker, inside: Inside, phase: Phase, most: float) -> list[Row] | None:
    for week in phase.weeks:
        part = usual(inside.week(week, phase), floors=True)
        if asker.holds(part, most) is False:
            return part
    return None


def holds_with_few(
    asker: Asker,
    problem: Problem,
    rows: Sequence[Row],
    most: float,
    opened: Collection[str] = (),
    few: Sequence[budgets.Few] = budgets.FEW,
) -> bool:
    """Whether a block of a few movements keeps the rows. False is inconclusive: other movements might."""
    for alike, in_all, quickest in few:
        chosen = shortlist(problem, alike, in_all, quickest=quickest)
        kept = rows_of(problem, rows, {movement.id for movement in chosen.movements} | set(opened))
        if asker.holds_soon(kept, most):
            return True
    return False


def rows_of(problem: Problem, rows: Sequence[Row], movements: set[str]) -> list[Row]:
    """The rows if only these movements (and the closing test) may be chosen."""
    kept = of_movements(variable_ranges(problem), movements | {problem.retest.id})
    found = []
    for row in rows:
        terms = tuple(term for term in row.terms if term[1] in kept)
        if terms or not holds_at(row, 0):
            found.append(row if len(terms) == len(row.terms) else replace(row, terms=terms))
    return found


def usual(rows: Iterable[Row], *, floors: bool = False) -> list[Row]:
    """The rows of the rules that conflict most often, with the floors on request."""
    rules = ((row, rule_named(row.rule)) for row in rows)
    return [row for row, one in rules if one.structural or one.often_to_blame or (floors and one.is_floor)]


def is_structural(row: Row) -> bool:
    return rule_named(row.rule).structural


class Inside:
    """The rows about nothing outside a week or a phase; what a phase chooses counts as inside each of its weeks."""

    def __init__(self, problem: Problem, rows: Iterable[Row]) -> None:
        places = {key: _place(key) for key in variable_ranges(problem)}
        self.rows = [(row, {place for _, key in row.terms if (place := places[key])}) for row in rows]

    def phase(self, phase: Phase) -> list[Row]:
        return self._within({*phase.weeks, phase.id})

    def week(self, week: int, phase: Phase) -> list[Row]:
        return self._within({week, phase.id})

    def _within(self, inside: set[int | str]) -> list[Row]:
        return [row for row, places in self.rows if places <= inside]


def _place(key: Variable) -> int | str | None:
    """The week or phase of a variable; None if it is about the whole block."""
    return key.at.phase if key.at.week is None else key.at.week
