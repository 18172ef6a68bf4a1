"""Why there is no block, in a coach's words: the conflicting rules, the lines behind them, and the cheapest change."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from planner.domain.findings import Finding
from planner.problem.model import Problem
from planner.rules.figure_words import listed
from planner.rules.places import DAY_NAMES
from planner.rules.registry import rule_named
from planner.rules.rule import Blamed, Keys, Rule, Step

if TYPE_CHECKING:
    from planner.solve.conflict import Conflict
    from planner.solve.day_moves import EasedSport

Locate = Callable[[Keys], tuple[str, int, int]]


def conflict_findings(
    conflict: Conflict | None, problem: Problem, path: str, locate: Locate | None = None
) -> list[Finding]:
    """One finding that says there is no block and what would help, then one for each line or rule of the conflict."""
    if conflict is None:
        message = "no block was found, but the search ran out of budget before it could prove that none exists"
        return [Finding(path, 0, 0, "no-block", message, "raise --budget")]
    sure = "" if conflict.minimal else " (perhaps not all of them are part of the conflict)"
    if not conflict.confirmed:
        sure += " (a second search could not confirm it)"
    titles = listed([f"'{rule.title}'" for rule in _rules(conflict)])
    first = "no block keeps this rule" if len(conflict.rules) == 1 else "no block keeps these rules together"
    found = [Finding(path, 0, 0, "no-block", f"{first}{sure}: {titles}", _change(conflict, problem))]
    for rule in _rules(conflict):
        rows = [row for row in conflict.rows if row.rule == rule.id]
        part = Blamed(rows, problem, alone=len(conflict.rules) == 1, needs=conflict.needs)
        for keys, sentence in rule.blamed(part):
            where = locate(keys) if locate is not None and keys else (path, 0, 0)
            found.append(Finding(*where, rule.id, sentence, f"see jumpblock rules {rule.id}"))
    return found


def _rules(conflict: Conflict) -> list[Rule]:
    return [rule_named(name) for name in conflict.rules]


def _change(conflict: Conflict, problem: Problem) -> str:
    """The steps with real numbers, or another week, or both."""
    other = _other_week(conflict, problem)
    if conflict.change is None:
        return f"one change that would do: {other}" if other else _nothing_found(conflict, problem)
    word = "the cheapest change" if conflict.change.cheapest else "one change that would do"
    said = f"{word}: {steps_in_words(conflict.change.steps, problem)}"
    return f"{said}; or {other}" if other else said


def steps_in_words(steps: Sequence[Step], problem: Problem) -> str:
    """One clause for each rule, with that rule's steps together; all of them are needed."""
    rules = dict.fromkeys(step.rule for step in steps)
    return "; and ".join(
        rule_named(rule).change_in_words([step for step in steps if step.rule == rule], problem) for rule in rules
    )


def _nothing_found(conflict: Conflict, problem: Problem) -> str:
    """What was tried in vain: names only changes of sport that the athlete has."""
    athlete, eases = problem.athlete, conflict.eases
    tried = ["leaving out one match"] if athlete.matches and "no match" in eases else []
    tried += ["easing the practices"] if athlete.practices and any("practice" in ease for ease in eases) else []
    if not tried:
        return "no single change to the athlete's lines was found to be enough; change one of these and plan again"
    said = ", ".join(["moving one day", *tried[:-1]])
    return f"{said} or {tried[-1]} is not enough; train on other days, or choose another template"


def _other_week(conflict: Conflict, problem: Problem) -> str:
    if conflict.moved is not None:
        return f"train on {DAY_NAMES[conflict.moved.after]} instead of {DAY_NAMES[conflict.moved.before]}"
    if conflict.eased is not None:
        return _eased_in_words(conflict.eased, problem)
    return ""


def _eased_in_words(eased: EasedSport, problem: Problem) -> str:
    if eased.number is None:
        return "make every practice half as long" if eased.ease == "half practices" else "leave out all practices"
    lines = problem.athlete.matches if eased.ease == "no match" else problem.athlete.practices
    line = lines[eased.number]
    when = f"{DAY_NAMES[line.day]}s" if line.day else f"{line.date}"
    if eased.ease == "medium practice":
        return f"make the practice on {when} a medium one"
    return f"leave out the {'match' if eased.ease == 'no match' else 'practice'} on {when}"
