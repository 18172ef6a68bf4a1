"""The cheapest change that makes a block possible, in a coach's words: ``3 more minutes on Tuesday``."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from planner.problem.model import Problem
from planner.rules.base import Step
from planner.rules.places import DAY_NAMES
from planner.rules.registry import rule_named

if TYPE_CHECKING:
    from planner.solve.conflict import Conflict


def change_words(conflict: Conflict, problem: Problem) -> str:
    """The steps with real numbers, or another training day, or both."""
    other = _other_day(conflict, problem)
    if conflict.change is None:
        return f"one change that would do: {other}" if other else _nothing_found(conflict)
    word = "the cheapest change" if conflict.change.cheapest else "one change that would do"
    said = f"{word}: {steps_in_words(conflict.change.steps, problem)}"
    return f"{said}; or {other}" if other else said


def steps_in_words(steps: Sequence[Step], problem: Problem) -> str:
    """One clause for each rule, with that rule's steps together."""
    rules = dict.fromkeys(step.rule for step in steps)
    return "; ".join(
        rule_named(rule).change_in_words([step for step in steps if step.rule == rule], problem) for rule in rules
    )


def _nothing_found(conflict: Conflict) -> str:
    if conflict.of_matches:
        return "moving one day or leaving out one match is not enough; train on other days, or choose another template"
    return "no single change to the athlete's lines was found to be enough; change one of these and plan again"


def _other_day(conflict: Conflict, problem: Problem) -> str:
    if conflict.moved is not None:
        return f"train on {DAY_NAMES[conflict.moved.after]} instead of {DAY_NAMES[conflict.moved.before]}"
    if conflict.match_left_out is not None:
        match = problem.athlete.matches[conflict.match_left_out]
        when = DAY_NAMES[match.day] if match.day else f"{match.date}"
        return f"leave out the match on {when}"
    return ""
