"""Other training days: the same week with one day moved, tried as a change where dates stand in the way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.findings import UserError
from planner.domain.terms import DAYS, Day
from planner.problem.model import Problem
from planner.solve.athlete_lines import Rebuild, with_day_moved, without_match
from planner.solve.budgets import MOST_WEEKS_TRIED, OTHER_WEEK_BUDGET
from planner.solve.matrix import gather_rows
from planner.solve.refute import verdict


@dataclass(frozen=True)
class MovedDay:
    before: Day
    after: Day


def moved_day(problem: Problem, rebuild: Rebuild) -> MovedDay | None:
    """The first day moved to another weekday, nearest first, that gives a block; None where none tried does."""
    for moved in list(_moves(problem))[:MOST_WEEKS_TRIED]:
        if _gives_a_block(problem, rebuild, with_day_moved(problem.athlete, moved.before, moved.after)):
            return moved
    return None


def match_left_out(problem: Problem, rebuild: Rebuild) -> int | None:
    """The first line of matches without which there is a block; None where no single one is to blame."""
    for number in range(len(problem.athlete.matches)):
        if _gives_a_block(problem, rebuild, without_match(problem.athlete, number)):
            return number
    return None


def _gives_a_block(problem: Problem, rebuild: Rebuild, changed: Athlete) -> bool:
    try:
        other = rebuild(changed)
    except UserError:
        return False
    return verdict(other, gather_rows(other), OTHER_WEEK_BUDGET).point is not None


def _moves(problem: Problem) -> Iterator[MovedDay]:
    """One training day to a free weekday, the shortest way first."""
    taken = [day.day for day in problem.athlete.training.days]
    free = [day for day in DAYS if day not in taken]
    pairs = [(abs(DAYS.index(a) - DAYS.index(b)), DAYS.index(a), DAYS.index(b)) for a in taken for b in free]
    for _, before, after in sorted(pairs):
        yield MovedDay(DAYS[before], DAYS[after])
