"""What a date allows: nothing when away, beside a match only a short primer of low jumps."""

from __future__ import annotations

import datetime

from planner.domain.movement import Movement
from planner.domain.terms import TIERS
from planner.problem.last_week import near_match
from planner.problem.model import SportDay


def barred_on(
    movement: Movement,
    key: tuple[int, int],
    dates: dict[tuple[int, int], datetime.date],
    away: frozenset[tuple[int, int]],
    sport: dict[datetime.date, SportDay],
) -> str | None:
    """Why this date allows no set of the movement: away, or a match that day or the next (then only a primer)."""
    if key in away:
        return "away"
    beside_match = near_match(dates[key], sport)
    return "match within a day: primer only" if beside_match and not is_primer(movement) else None


def is_primer(movement: Movement) -> bool:
    """Fit for the day before a match: low jumps of the landing part."""
    return movement.part == "landing" and movement.jump is not None and movement.jump.tier == TIERS[0]
