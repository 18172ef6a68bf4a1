"""Can these rows hold together? A "no" for a part of the block (some weeks, some rules) is a "no" for the whole.

The whole block of a large library is often too much for a proof; a phase of it, or a few rules in a phase, seldom are.
So the smallest parts are asked first. None (the budget did not suffice) is never taken for an answer.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass, replace

from ortools.sat.python import cp_model

from planner.problem.model import Problem
from planner.rules.base import Row
from planner.rules.registry import rule_by_id
from planner.solve.cp_model import SEED, solver, spent
from planner.solve.relax import Ranges, reach
from planner.solve.shortlist import shortlist
from planner.solve.variables import variable_ranges

# What the athlete's file, the days and the required patterns say is tried on its own first: it is most often to blame.
USUAL = (
    "bans",
    "dates",
    "equipment",
    "high-tier-gate",
    "level",
    "match-window",
    "pain",
    "pattern-cover",
    "pins",
    "prerequisites",
    "runway",
    "session-minutes",
    "take-off-fit",
)
FLOORS = ("quality-floor", "contacts-floor")
WHOLE_SHARE, PART_SHARE, WEEK_SHARE = 0.4, 0.25, 0.05  # of the budget, for any one question
# Movements alike, movements in all, and whether the quickest: a block of these few is a block of the whole library.
FEW = ((1, 90, False), (2, 120, True))
FEW_SHARE = 0.2  # of the budget, for each of them

Question = Callable[[Sequence[Row]], bool | None]


@dataclass
class Budget:
    """Deterministic time that may still be spent."""

    left: float

    def share(self, most: float) -> float:
        return max(0.0, min(self.left, most))


def refuted_part(
    problem: Problem, rows: Sequence[Row], budget: float, opened: Collection[str] = ()
) -> tuple[list[Row] | None, bool]:
    """Hard rows that cannot hold together, as few as come easily; and whether all of them surely can.

    ``opened``: movements that the rows leave open although a rule of the problem closes them.
    (None, False) where the budget answered neither.
    """
    hard, left = [row for row in rows if row.price == 0], Budget(budget)
    asker = Asker(problem, left)
    parts = [rows_within(problem, hard, phase.weeks) for phase in problem.phases]
    for part in (usual(inside) for inside in parts):
        if asker.holds(part, PART_SHARE * budget) is False:
            return part, False
    if holds_with_few(asker, problem, hard, FEW_SHARE * budget, opened):
        return None, True
    for week in problem.weeks:
        part = usual(rows_within(problem, hard, [week]), FLOORS)
        if asker.holds(part, WEEK_SHARE * budget) is False:
            return part, False
    if asker.holds(hard, WHOLE_SHARE * budget):
        return None, True
    for part in (*parts, hard):
        if asker.holds(part, PART_SHARE * budget) is False:
            return part, False
    return None, False


def holds_with_few(
    asker: Asker, problem: Problem, rows: Sequence[Row], most: float, opened: Collection[str] = ()
) -> bool:
    """Whether a block of a few movements keeps the rows. Not true says nothing: others may do what these cannot."""
    for alike, in_all, quickest in FEW:
        few = shortlist(problem, alike, in_all, quickest=quickest)
        kept = {movement.id for movement in few.movements} | set(opened) | {problem.retest.id}
        terms = [tuple(term for term in row.terms if _is_of(term[1], kept)) for row in rows]
        if asker.holds([replace(row, terms=left) for row, left in zip(rows, terms, strict=True)], most):
            return True
    return False


def _is_of(key: str, movements: set[str]) -> bool:
    """Whether a variable is of one of these movements, or of none: the shape of a day, a hard day."""
    return key.startswith(("takes/", "hard/")) or key.rpartition("/")[2] in movements


def usual(rows: Iterable[Row], more: Sequence[str] = ()) -> list[Row]:
    return [row for row in rows if is_structural(row) or row.rule in USUAL or row.rule in more]


def is_structural(row: Row) -> bool:
    rule = rule_by_id(row.rule)
    return rule is not None and rule.structural


def rows_within(problem: Problem, rows: Iterable[Row], weeks: Iterable[int]) -> list[Row]:
    """Rows that speak of nothing outside these weeks; what a phase chooses counts as in any week of it."""
    inside = set(weeks)
    phases = {problem.phase_of(week) for week in inside}
    return [row for row in rows if all(_is_within(key, inside, phases) for _, key in row.terms)]


def _is_within(key: str, weeks: set[int], phases: set[str]) -> bool:
    kind, place, *_ = key.split("/")
    if kind in ("sets", "hard"):
        return int(place[1:]) in weeks
    return place in phases if kind == "in" else True


class Asker:
    """Asks whether rows can hold together, with what each question may cost."""

    def __init__(self, problem: Problem, budget: Budget) -> None:
        self.ranges: Ranges = variable_ranges(problem)
        self.budget = budget

    def holds(self, rows: Sequence[Row], most: float, seed: int = SEED) -> bool | None:
        """True, False, or None where the budget did not suffice to say."""
        simple = simplified(rows, self.ranges)
        if simple is None:
            return False
        allowed = self.budget.share(most)
        if allowed <= 0:
            return None
        kept, ranges = simple
        solved = solver(allowed)
        solved.parameters.random_seed = seed
        status = solved.solve(plain_model(kept, ranges)[0])
        self.budget.left -= spent(solved)
        if status == cp_model.INFEASIBLE:
            return False
        return True if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None


def simplified(rows: Sequence[Row], ranges: Ranges) -> tuple[list[Row], dict[str, tuple[int, int]]] | None:
    """The rows without what must be zero; None where one of them cannot hold by its arithmetic alone."""
    bounds = dict(ranges)
    closed = {row.terms[0][1] for row in rows if len(row.terms) == 1 and row.high == 0 and row.terms[0][0] > 0}
    closed |= _following(rows, closed)
    kept = []
    for row in rows:
        terms = tuple(term for term in row.terms if term[1] not in closed)
        least, most = reach(terms, bounds)
        if (row.low is not None and most < row.low) or (row.high is not None and least > row.high):
            return None
        if (row.low is not None and least < row.low) or (row.high is not None and most > row.high):
            kept.append(Row(row.rule, row.scope, terms, row.low, row.high, row.price))
    if any(bounds[key][0] > 0 for key in closed):
        return None
    return kept, bounds


def _following(rows: Sequence[Row], closed: set[str]) -> set[str]:
    """Variables that a closed one holds at zero: sets of a movement that the phase does not choose."""
    found = set()
    for row in rows:
        if row.high == 0 and len(row.terms) == 2:
            (first, key), (second, other) = row.terms
            if first > 0 > second and other in closed:
                found.add(key)
    return found


def plain_model(rows: Iterable[Row], ranges: Ranges) -> tuple[cp_model.CpModel, dict[str, cp_model.IntVar]]:
    """Hard rows alone, over the variables that they speak of."""
    model = cp_model.CpModel()
    variables: dict[str, cp_model.IntVar] = {}
    for row in rows:
        keys = [key for _, key in row.terms]
        for key in keys:
            if key not in variables:
                variables[key] = model.new_int_var(*ranges[key], key)
        expression = cp_model.LinearExpr.weighted_sum([variables[k] for k in keys], [c for c, _ in row.terms])
        low = cp_model.INT_MIN if row.low is None else row.low
        high = cp_model.INT_MAX if row.high is None else row.high
        model.add_linear_constraint(expression, low, high)
    return model, variables
