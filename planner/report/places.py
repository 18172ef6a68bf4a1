"""Days, weeks and lists in words, for texts about rows of rules."""

from __future__ import annotations

from collections.abc import Sequence

from planner.domain.terms import Day
from planner.problem.model import Problem
from planner.rules.base import Row

DAY_NAMES: dict[Day, str] = {
    "mon": "Monday",
    "tue": "Tuesday",
    "wed": "Wednesday",
    "thu": "Thursday",
    "fri": "Friday",
    "sat": "Saturday",
    "sun": "Sunday",
}


def place_in_words(scope: str, problem: Problem) -> str:
    """``w3/d2/hinge`` -> ``week 3, Tuesday, hinge``; of two places, one after the other, their week named once."""
    first, *others = (_place(part, problem) for part in scope.replace("-w", "|w").split("|"))
    week = first.split(", ")[0] + ", "
    return " and ".join([first, *(place.removeprefix(week) for place in others)])


def _place(scope: str, problem: Problem) -> str:
    words = []
    days = {f"d{slot.number}": DAY_NAMES[slot.day] for slot in problem.slots}
    for part in scope.split("/"):
        if part.startswith("w") and part[1:].isdigit():
            words.append(f"week {part[1:]}")
        elif part in days:
            words.append(days[part])
        elif part not in ("least", "most", "done", ""):
            words.append(part.replace("-", " "))
    return ", ".join(words)


def weeks_in_words(weeks: Sequence[str]) -> str:
    """``w3``, ``w4``, ``w5`` -> ``weeks 3 to 5``; a phase stays what it is called."""
    numbers = sorted({int(week[1:]) for week in weeks if week[:1] == "w" and week[1:].isdigit()})
    others = [f"the phase '{week}'" for week in dict.fromkeys(weeks) if not (week[:1] == "w" and week[1:].isdigit())]
    if not numbers:
        return listed(others)
    if len(numbers) == 1:
        said = f"week {numbers[0]}"
    elif numbers == list(range(numbers[0], numbers[-1] + 1)):
        said = f"weeks {numbers[0]} to {numbers[-1]}"
    else:
        said = f"weeks {listed([str(number) for number in numbers])}"
    return listed([said, *others])


def of_row(row: Row, slot: int) -> bool:
    return f"d{slot}" in row.scope.split("/")


def listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}" if words else "nothing"
