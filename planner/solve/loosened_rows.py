"""The rows after some of their rules give way, as the rules themselves offer.

Lines of the athlete's file may give way, and so may the template's patterns and floors. Rules that protect the athlete
(pain, youth, growth, joint stress, time between hard days) never do.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import replace

from planner.domain.athlete import Athlete
from planner.problem.model import Problem
from planner.problem.variable import Variable, variable
from planner.rules.registry import rule_named
from planner.rules.rule import Loosening, Row, Step

Rebuild = Callable[[Athlete], Problem]
Offers = Mapping[Row, tuple[Loosening, ...]]
Steps = dict[Loosening, int]


def offers(problem: Problem, rows: Sequence[Row], rules: Collection[str] = ()) -> Offers:
    """What these rules offer, and the rules that may always give way."""
    asked = ((row, rule_named(row.rule)) for row in rows)
    return {
        row: tuple(rule.loosenings(problem, row)) for row, rule in asked if rule.id in rules or rule.always_loosened
    }


def eased(rows: Sequence[Row], offered: Offers, steps: Mapping[Loosening, int]) -> list[Row]:
    """The hard rows after these steps."""
    by_key = {row.key: found for row, found in offered.items()}
    hard = [row for row in rows if row.price == 0]
    return [_eased_row(row, by_key.get(row.key, ()), steps) for row in hard] if steps else hard


def _eased_row(row: Row, offered: tuple[Loosening, ...], steps: Mapping[Loosening, int]) -> Row:
    amount = min((one.size * steps.get(one, 0) for one in offered), default=0)
    if not amount:
        return row
    return replace(row, low=row.low - amount) if row.low is not None else replace(row, high=(row.high or 0) + amount)


def loosened(row: Row, offered: tuple[Loosening, ...]) -> Iterator[Row]:
    """The row once for each of its offers; it gives way if all of them are taken."""
    if not offered:
        yield row
    for one in offered:
        sign = one.size if row.low is not None else -one.size
        yield replace(row, terms=(*row.terms, (sign, gives(one))))


def gives(one: Loosening) -> Variable:
    """The variable that counts how often an offer is taken."""
    return variable("gives", one.at, one.rule)


def taken(steps: Mapping[Loosening, int]) -> tuple[Step, ...]:
    return tuple(Step(one.rule, one.at, amount) for one, amount in steps.items() if amount)


def opened(steps: Mapping[Loosening, int]) -> set[str]:
    """Closed movements that the steps open."""
    return {one.at.movement for one, amount in steps.items() if amount and one.at.movement is not None}


def changed_athlete(problem: Problem, steps: Sequence[Step]) -> Athlete:
    """The problem's athlete after these steps; steps that are not lines of the athlete's file change nothing."""
    athlete = problem.athlete
    for rule_id in dict.fromkeys(step.rule for step in steps):
        own = [step for step in steps if step.rule == rule_id]
        athlete = rule_named(rule_id).changed(problem, athlete, own)
    return athlete


def after(problem: Problem, steps: Mapping[Loosening, int], rebuild: Rebuild | None) -> tuple[Problem, Steps]:
    """The Problem after the steps that are lines of the athlete's file, and the steps that are not."""
    lines = {one: amount for one, amount in steps.items() if rule_named(one.rule).loosened_in_the_file}
    if rebuild is None or not lines:
        return problem, dict(steps)
    changed = changed_athlete(problem, taken(lines))
    return rebuild(changed), {one: amount for one, amount in steps.items() if one not in lines}
