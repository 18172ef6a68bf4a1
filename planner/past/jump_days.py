"""Touches of a jump from day to day: the best of each, and whether the last days are below the days before them."""

from __future__ import annotations

import datetime
import math
from collections.abc import Sequence
from dataclasses import dataclass

from planner.domain.follow_up import JumpDays
from planner.estimate.trials import middle
from planner.past.done import DoneSession


@dataclass(frozen=True)
class JumpDay:
    """``spread_m``: how far a day's best is from the athlete's own mean by chance, one standard deviation."""

    date: datetime.date
    session: str
    best_m: float
    jumps: int
    spread_m: float
    is_test: bool
    mean_before_m: float | None  # of the days before it, once there are enough
    middle_m: float  # of all touches: unlike the best, it does not rise with their number; its error is the spread

    @property
    def is_low(self) -> bool:
        return self.mean_before_m is not None and self.best_m < self.mean_before_m - self.spread_m


@dataclass(frozen=True)
class JumpLine:
    """All jump days of one movement: never two methods on one line."""

    movement: str
    name: str
    days: tuple[JumpDay, ...]


def jump_lines(
    done: Sequence[DoneSession], rule: JumpDays, *, day_error_m: float, trial_error_m: float
) -> list[JumpLine]:
    """A line for each movement with touches, in the order in which they first come."""
    names: dict[str, str] = {}
    found: dict[str, list[JumpDay]] = {}
    for one in done:
        items = {item.id: item for item in one.session.items}
        touched: dict[str, list[float]] = {}
        for line in one.entry.items:
            if line.touches and line.item in items:
                movement = items[line.item].movement
                names.setdefault(movement, items[line.item].name)
                touched.setdefault(movement, []).extend(line.touches)
        for movement, touches in touched.items():
            days = found.setdefault(movement, [])
            spread_m = math.hypot(day_error_m, trial_error_m / math.sqrt(len(touches)))
            days.append(_jump_day(one, touches, spread_m, days[-rule.days_before :], rule))
    return [JumpLine(movement, names[movement], tuple(days)) for movement, days in found.items()]


def are_low(line: JumpLine, rule: JumpDays) -> bool:
    """Whether the last days, as many as the rule asks for, are all below the days before them."""
    last = line.days[-rule.days_low :]
    return len(last) == rule.days_low and all(day.is_low for day in last)


def _jump_day(
    one: DoneSession, touches: Sequence[float], spread_m: float, before: Sequence[JumpDay], rule: JumpDays
) -> JumpDay:
    mean = sum(day.best_m for day in before) / len(before) if len(before) == rule.days_before else None
    is_test = any(item.part == "test" for item in one.session.items)
    return JumpDay(one.date, one.planned.id, max(touches), len(touches), spread_m, is_test, mean, middle(touches))
