"""An athlete's file with some lines changed, as a coach might: minutes, bans, pins, equipment, dates, days."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.terms import Day
from planner.problem.model import Problem

Rebuild = Callable[[Athlete], Problem]
# Rules whose steps are lines of the athlete's file.
LINES = ("session-minutes", "bans", "pins", "equipment", "dates")


@dataclass(frozen=True)
class Step:
    """One thing that gives way. ``what``: a weekday, a movement, a thing of the gym, a pin's number, a date, a week's
    pattern, quality or contacts; ``amount`` in minutes, quarter sets, contacts or times."""

    rule: str
    what: str
    amount: int


def changed_athlete(athlete: Athlete, steps: Sequence[Step]) -> Athlete:
    """The athlete after steps of the rules in LINES."""
    by_rule = {rule: {step.what: step.amount for step in steps if step.rule == rule} for rule in LINES}
    training, gym = athlete.training, athlete.equipment
    longer = by_rule["session-minutes"]
    days = tuple(day.model_copy(update={"minutes": day.minutes + longer.get(day.day, 0)}) for day in training.days)
    free = {datetime.date.fromisoformat(date) for date in by_rule["dates"]}
    away = tuple(date for date in training.away if date not in free)
    pins = tuple(pin for number, pin in enumerate(athlete.pins) if str(number) not in by_rule["pins"])
    return athlete.model_copy(
        update={
            "training": training.model_copy(update={"days": days, "away": away}),
            "equipment": gym.model_copy(update={"items": (*gym.items, *by_rule["equipment"])}),
            "bans": tuple(movement for movement in athlete.bans if movement not in by_rule["bans"]),
            "pins": pins,
        }
    )


def with_day_moved(athlete: Athlete, before: Day, after: Day) -> Athlete:
    training = athlete.training
    days = tuple(day.model_copy(update={"day": after}) if day.day == before else day for day in training.days)
    return athlete.model_copy(update={"training": training.model_copy(update={"days": days})})


def without_match(athlete: Athlete, number: int) -> Athlete:
    return athlete.model_copy(update={"matches": (*athlete.matches[:number], *athlete.matches[number + 1 :])})
