"""An athlete's file with some lines changed, as a coach might: minutes, bans, pins, equipment, dates, days."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from planner.domain.athlete import Athlete
from planner.domain.terms import Day
from planner.problem.model import Problem
from planner.rules.base import Step
from planner.rules.registry import rule_named

Rebuild = Callable[[Athlete], Problem]


def changed_athlete(problem: Problem, steps: Sequence[Step]) -> Athlete:
    """The problem's athlete after these steps; steps that are not lines of the athlete's file change nothing."""
    athlete = problem.athlete
    for rule_id in dict.fromkeys(step.rule for step in steps):
        own = [step for step in steps if step.rule == rule_id]
        athlete = rule_named(rule_id).changed(problem, athlete, own)
    return athlete


def with_day_moved(athlete: Athlete, before: Day, after: Day) -> Athlete:
    training = athlete.training
    days = tuple(day.model_copy(update={"day": after}) if day.day == before else day for day in training.days)
    return athlete.model_copy(update={"training": training.model_copy(update={"days": days})})


def without_match(athlete: Athlete, number: int) -> Athlete:
    return athlete.model_copy(update={"matches": (*athlete.matches[:number], *athlete.matches[number + 1 :])})
