"""Can these rows hold together? A "no" for a part of the block (some weeks, some rules) is a "no" for the whole.

The whole block of a large library is often too much for a proof; a phase of it, or a few rules in a phase, seldom are.
So the smallest parts are asked first. None (the budget did not suffice) is never taken for an answer.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from planner.problem.model import Problem
from planner.rules.base import Row
from planner.rules.registry import rule_by_id
from planner.solve.asking import Asker, Budget
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


def refuted_part(
    problem: Problem, rows: Sequence[Row], budget: float, opened: Collection[str] = ()
) -> tuple[list[Row] | None, bool]:
    """Hard rows that cannot hold together, as few as come easily; and whether all of them surely can.

    ``opened``: movements that the rows leave open although a rule of the problem closes them.
    (None, False) where the budget answered neither.
    """
    hard, left = [row for row in rows if row.price == 0], Budget(budget)
    asker = Asker(variable_ranges(problem), left)
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
