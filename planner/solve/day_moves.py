"""Another week: one training day moved, or one line of the sport eased, tried if dates or sport cause the conflict."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planner.domain.athlete import Athlete, Fixture
from planner.domain.findings import UserError
from planner.domain.terms import DAYS, Day
from planner.problem.model import Problem
from planner.rules.registry import gather_rows
from planner.rules.rule import Ease
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


@dataclass(frozen=True)
class EasedSport:
    """``number``: of the practice or match among the athlete's, from 0; None for all practices."""

    ease: Ease
    number: int | None


def eased_sport(problem: Problem, rebuild: Rebuild, eases: Sequence[Ease]) -> EasedSport | None:
    """The first that gives a block: one line of the sport eased, then all practices; None if none tried does."""
    tried = (EasedSport(ease, number) for ease in eases for number in _lines_to_ease(problem.athlete, ease))
    return next((one for one in tried if _gives_a_block(rebuild, _with_sport_eased(problem.athlete, one))), None)


def _lines_to_ease(athlete: Athlete, ease: Ease) -> list[int] | list[None]:
    """Numbers of the practices or matches that may be eased so; None for all practices together."""
    if ease == "no match":
        return list(range(len(athlete.matches)))
    if ease in ("half practices", "no practices"):
        return [None] if athlete.practices else []
    lines = [n for n, one in enumerate(athlete.practices) if ease == "no practice" or one.hardness == "hard"]
    return lines[:MOST_WEEKS_TRIED]


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


def _with_sport_eased(athlete: Athlete, eased: EasedSport) -> Athlete:
    field = "matches" if eased.ease == "no match" else "practices"
    lines: list[Fixture] = list(getattr(athlete, field))
    if eased.number is None:
        halved = [one.model_copy(update={"minutes": max(1, one.minutes // 2)}) for one in lines]
        lines = halved if eased.ease == "half practices" else []
    elif eased.ease == "medium practice":
        lines[eased.number] = lines[eased.number].model_copy(update={"hardness": "medium"})
    else:
        del lines[eased.number]
    return athlete.model_copy(update={field: tuple(lines)})
