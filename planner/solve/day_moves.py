"""Other training days: the same week with one day moved or a match left out, tried if dates cause the conflict."""

from __future__ import annotations

from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.findings import UserError
from planner.domain.terms import DAYS, Day
from planner.problem.model import Problem
from planner.rules.registry import gather_rows
from planner.solve.budgets import MOST_WEEKS_TRIED, OTHER_WEEK_BUDGET
from planner.solve.loosened_rows import Rebuild
from planner.solve.refute import verdict


@dataclass(frozen=True)
class MovedDay:
    before: Day
    after: Day


def moved_day(problem: Problem, rebuild: Rebuild) -> MovedDay | None:
    """The first day moved to another weekday that gives a block, nearest weekdays first; None if none tried does."""
    tried = (
        moved
        for moved in _moves(problem)[:MOST_WEEKS_TRIED]
        if _gives_a_block(rebuild, _with_day_moved(problem.athlete, moved))
    )
    return next(tried, None)


def match_left_out(problem: Problem, rebuild: Rebuild) -> int | None:
    """The number of the first match without which there is a block; None if no single one is to blame."""
    numbers = range(len(problem.athlete.matches))
    return next((n for n in numbers if _gives_a_block(rebuild, _without_match(problem.athlete, n))), None)


def _gives_a_block(rebuild: Rebuild, changed: Athlete) -> bool:
    try:
        other = rebuild(changed)
    except UserError:
        return False
    return verdict(other, gather_rows(other), OTHER_WEEK_BUDGET).point is not None


def _moves(problem: Problem) -> list[MovedDay]:
    """Each training day that no pin names to each free weekday, shortest moves first."""
    taken = [day.day for day in problem.athlete.training.days]
    pinned = [pin.day for pin in problem.athlete.pins]
    free = [day for day in DAYS if day not in taken]
    moved = [day for day in taken if day not in pinned]
    pairs = [(abs(DAYS.index(a) - DAYS.index(b)), DAYS.index(a), DAYS.index(b)) for a in moved for b in free]
    return [MovedDay(DAYS[before], DAYS[after]) for _, before, after in sorted(pairs)]


def _with_day_moved(athlete: Athlete, moved: MovedDay) -> Athlete:
    training = athlete.training
    days = tuple(
        day.model_copy(update={"day": moved.after}) if day.day == moved.before else day for day in training.days
    )
    return athlete.model_copy(update={"training": training.model_copy(update={"days": days})})


def _without_match(athlete: Athlete, number: int) -> Athlete:
    return athlete.model_copy(update={"matches": (*athlete.matches[:number], *athlete.matches[number + 1 :])})
