"""What a date allows: nothing when away, next to a match only a short primer of low jumps."""

from __future__ import annotations

from collections.abc import Callable

from planner.domain.movement import Movement
from planner.domain.terms import TIERS
from planner.problem.block_calendar import BlockCalendar
from planner.problem.last_week import near_match


def bar_on(days: BlockCalendar, week: int, slot: int) -> Callable[[Movement], str | None]:
    """Why this date bars a movement: away, or a match that day or the next, which allows only a primer."""
    if (week, slot) in days.away:
        return lambda _: "away"
    if near_match(days.dates[week, slot], days.sport):
        return lambda movement: None if is_primer(movement) else "match within a day: primer only"
    return lambda _: None


def is_primer(movement: Movement) -> bool:
    """Fit for the day before a match: low jumps of the landing part."""
    return movement.part == "landing" and movement.jump is not None and movement.jump.tier == TIERS[0]
