"""Touches of a jump from day to day: the best of each, and whether the last days lie below the days before them."""

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
    """``spread_m``: how far a day's best lies from the athlete's own mean by chance, one standard deviation."""

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
    touched: dict[str, list[tuple[DoneSession, list[float], str]]] = {}
    for one in done:
        names = {item.id: item.name for item in one.session.items}
        of_day: dict[str, tuple[list[float], str]] = {}
        for line in one.entry.items:
            if line.touches and line.item in names:
                movement = next(item.movement for item in one.session.items if item.id == line.item)
                of_day.setdefault(movement, ([], names[line.item]))[0].extend(line.touches)
        for movement, (touches, name) in of_day.items():
            touched.setdefault(movement, []).append((one, touches, name))
    return [_line(movement, days, rule, day_error_m, trial_error_m) for movement, days in touched.items()]


def are_low(line: JumpLine, rule: JumpDays) -> bool:
    """Whether the last days, as many as the rule asks for, all lie below the days before them."""
    last = line.days[-rule.days_low :]
    return len(last) == rule.days_low and all(day.is_low for day in last)


def _line(
    movement: str, days: list[tuple[DoneSession, list[float], str]], rule: JumpDays, day_m: float, trial_m: float
) -> JumpLine:
    found: list[JumpDay] = []
    for one, touches, _ in days:
        before = [day.best_m for day in found[-rule.days_before :]]
        mean = sum(before) / len(before) if len(before) == rule.days_before else None
        spread = math.hypot(day_m, trial_m / math.sqrt(len(touches)))
        is_test = any(item.part == "test" for item in one.session.items)
        found.append(
            JumpDay(one.date, one.planned.id, max(touches), len(touches), spread, is_test, mean, middle(touches))
        )
    return JumpLine(movement, days[0][2], tuple(found))
