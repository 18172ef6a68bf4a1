"""Addresses in words, for texts about the rows of rules."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from planner.domain.address import Address
from planner.domain.terms import JOINT_NAMES, PATTERNS, QUALITY_NAMES, Day
from planner.problem.model import Problem
from planner.rules.figure_words import listed

MOST_NAMED = 12  # further movements are only counted
DAY_NAMES: dict[Day, str] = {
    "mon": "Monday",
    "tue": "Tuesday",
    "wed": "Wednesday",
    "thu": "Thursday",
    "fri": "Friday",
    "sat": "Saturday",
    "sun": "Sunday",
}


def day_of(problem: Problem, slot: int | None) -> Day:
    """The weekday of a training day."""
    return next(s.day for s in problem.slots if s.number == slot)


def place_in_words(at: Address, other: Address | None, problem: Problem) -> str:
    """``week 3, Tuesday, hinge``; two places one after the other, with their week named once."""
    words = _words(at, problem)
    if other is not None and other.slot is None and other.week is not None:
        words += f", after week {other.week}"
    elif other is not None:
        same_week = at.week is not None and at.week == other.week
        words += " and " + _words(other._replace(week=None) if same_week else other, problem)
    return words


def places_in_words(places: Iterable[tuple[Address, Address | None]], problem: Problem) -> str:
    """Several places, with the weeks of the same words grouped."""
    by_words: dict[str, list[Address]] = {}
    for at, other in places:
        inside = place_in_words(at._replace(week=None, phase=None), other, problem)
        by_words.setdefault(inside, []).append(at)
    return "; ".join(
        f"{words}, {weeks_in_words(at)}" if words else weeks_in_words(at) for words, at in by_words.items()
    )


def weeks_in_words(places: Sequence[Address]) -> str:
    """Weeks 3, 4 and 5 become ``weeks 3 to 5``; a phase goes by its name."""
    numbers = sorted({at.week for at in places if at.week is not None})
    phases = dict.fromkeys(at.phase for at in places if at.week is None and at.phase is not None)
    named_phases = [f"the phase '{phase}'" for phase in phases]
    if not numbers:
        return listed(named_phases)
    said = f"weeks {listed(map(str, numbers))}"
    if len(numbers) == 1:
        said = f"week {numbers[0]}"
    elif len(numbers) > 2 and numbers == list(range(numbers[0], numbers[-1] + 1)):
        said = f"weeks {numbers[0]} to {numbers[-1]}"
    return listed([said, *named_phases])


def named(names: Sequence[str]) -> str:
    """``'back squat'``, ``each of 'back squat' and 'hinge'``; of many, the first ones and how many more."""
    quoted = [f"'{name}'" for name in names[:MOST_NAMED]]
    more = len(names) - MOST_NAMED
    return quoted[0] if len(names) == 1 else f"each of {listed([*quoted, f'{more} more'] if more > 0 else quoted)}"


def _name_of(part: str | None) -> str | None:
    """A quality or a joint by its name; a pattern that is called like one (knee-dominant) and all else by its words."""
    names: dict[str, str] = {
        key: name for key, name in (*QUALITY_NAMES.items(), *JOINT_NAMES.items()) if key not in PATTERNS
    }
    return part and names.get(part, part.replace("-", " "))


def _words(at: Address, problem: Problem) -> str:
    week = None if at.week is None else f"week {at.week}"
    day = None if at.slot is None else DAY_NAMES[day_of(problem, at.slot)]
    parts = [week, at.phase, day, *map(_name_of, (at.movement, at.of, at.joint, at.leg))]
    return ", ".join(part for part in parts if part)
