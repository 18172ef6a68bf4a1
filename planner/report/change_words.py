"""The cheapest change that gives a block, as a coach would be told it: ``3 more minutes on Tuesday``."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, cast

from planner.domain.terms import Day
from planner.problem.model import Problem
from planner.report.places import DAY_NAMES, listed, weeks_in_words
from planner.rules.base import ClosingRule
from planner.rules.registry import rule_by_id

if TYPE_CHECKING:
    from planner.solve.athlete_lines import Step
    from planner.solve.conflict import Conflict


def change_words(conflict: Conflict, problem: Problem) -> str:
    """The steps with real numbers; another training day beside them or in their place."""
    other = _other_day(conflict, problem)
    if conflict.change is None:
        return f"one change that would do: {other}" if other else _nothing_found(conflict)
    word = "the cheapest change" if conflict.change.cheapest else "one change that would do"
    said = f"{word}: {steps_in_words(conflict.change.steps, problem)}"
    return f"{said}; or {other}" if other else said


def steps_in_words(steps: Sequence[Step], problem: Problem) -> str:
    return "; ".join(_steps(steps, problem))


def _nothing_found(conflict: Conflict) -> str:
    if "match-window" in conflict.rules:
        return "no one day moved and no one match left out is enough; train on other days, or choose another template"
    return "no single change of the athlete's lines was found that is enough; change one of these and plan again"


def _other_day(conflict: Conflict, problem: Problem) -> str:
    if conflict.moved is not None:
        return f"train on {DAY_NAMES[conflict.moved.after]} instead of {DAY_NAMES[conflict.moved.before]}"
    if conflict.match_left_out is not None:
        match = problem.athlete.matches[conflict.match_left_out]
        when = DAY_NAMES[match.day] if match.day else f"{match.date}"
        return f"leave out the match on {when}"
    return ""


def _steps(steps: Sequence[Step], problem: Problem) -> Iterator[str]:
    """Steps of one kind together, in a sentence each."""
    by_rule: dict[str, list[Step]] = {}
    for step in steps:
        by_rule.setdefault(step.rule, []).append(step)
    for rule, same in by_rule.items():
        yield _said(rule, same, problem)


def _said(rule_id: str, steps: list[Step], problem: Problem) -> str:
    rule = rule_by_id(rule_id)
    if rule_id == "session-minutes":
        first, *rest = [(step.amount, DAY_NAMES[cast(Day, step.what)]) for step in steps]
        more = "more minute" if first[0] == 1 else "more minutes"
        return listed([f"{first[0]} {more} on {first[1]}", *[f"{minutes} on {day}" for minutes, day in rest]])
    if rule_id == "equipment":
        return f"have {listed([step.what for step in steps])} in the gym"
    if rule_id == "bans":
        return f"take the ban off {listed([problem.library[step.what].name for step in steps])}"
    if rule_id == "pins":
        names = [problem.library[problem.athlete.pins[int(step.what)].movement].name for step in steps]
        return f"take out the pin of {listed(names)}"
    if rule_id == "dates":
        return f"train on {listed([step.what for step in steps])}"
    if rule is not None and rule_id in ("prerequisites", "level"):
        named = [(problem.library[step.what], cast(ClosingRule, rule)) for step in steps]
        return f"a coach's word (allow) for {listed([f'{m.name}, which {r.reason(problem, m)}' for m, r in named])}"
    if isinstance(rule, ClosingRule):
        named = [(problem.library[step.what], rule) for step in steps]
        return listed([f"open {m.name} (it {r.reason(problem, m)})" for m, r in named])
    return _of_the_template(rule_id, steps)


def _of_the_template(rule_id: str, steps: list[Step]) -> str:
    """What the template asks every week, lowered there."""
    weeks = [step.what.split("/")[0] for step in steps]
    if rule_id == "pattern-cover":
        by_pattern: dict[str, list[str]] = {}
        for step in steps:
            week, pattern = step.what.split("/")
            by_pattern.setdefault(pattern.replace("-", " "), []).append(week)
        said = [f"{pattern} in {weeks_in_words(found)}" for pattern, found in by_pattern.items()]
        return f"a template that does not ask for {listed(said)}"
    if rule_id == "contacts-floor":
        fewest = listed(
            [f"{step.amount} contacts in {weeks_in_words([week])}" for step, week in zip(steps, weeks, strict=True)]
        )
        return f"a template whose floor is lower by {fewest}"
    lower = [
        f"{step.amount / 4:g} sets of {step.what.split('/')[1]} in {weeks_in_words([week])}"
        for step, week in zip(steps, weeks, strict=True)
    ]
    return f"a template whose floor is lower by {listed(lower)}"
