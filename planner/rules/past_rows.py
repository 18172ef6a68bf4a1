"""What was done enters the rows as constants: a revised block plans only what is still to come."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Iterator, Mapping

from planner.problem.model import Problem
from planner.problem.variable import Variable
from planner.rules.rule import Row, Rule

# To the solver what the past forces is dearer than any band, in each rule's own unit.
FORCED_PRICE = 1000


def with_the_past(rows: Iterable[Row], problem: Problem, rules: Mapping[str, Rule]) -> Iterator[Row]:
    """The rows with what was done taken out of their sums; those of the past alone are left out.

    What was missed is not made up: to a least sum it counts as planned, to a largest sum as done. A hard row that the
    past alone overruns gives way to what the past forces. Where ``problem.past_gives``, every hard row that counts the
    past has a price instead, so that it is broken as little as can be.
    """
    most = {entry.key: entry.dosage.high_sets for week in problem.weeks for entry in problem.week_entries(week)}
    for row in rows:
        left = _left(row, problem)
        if not left.terms and (row.terms or problem.is_over(row.at)):
            continue
        if left.terms and _may_give(row, left, rules[row.rule]):
            left = _given_way(left, most)
            if problem.past_gives:
                left = dataclasses.replace(left, price=max(1, FORCED_PRICE // rules[row.rule].row_units))
        yield left


def is_forced(row: Row, problem: Problem, values: Mapping[Variable, int], rule: Rule) -> bool:
    """Whether these values break a hard row, as its rule makes it, and only the past can be to blame for that."""
    if not _may_give(row, _left(row, problem), rule):
        return False
    total = sum(c * values[key] for c, key in row.terms)
    return (row.low is not None and total < row.low) or (row.high is not None and total > row.high)


def _may_give(row: Row, left: Row, rule: Rule) -> bool:
    """Whether the past can be to blame where a hard row fails: it counts some of it, and is not a definition."""
    return not row.price and not rule.structural and len(left.terms) < len(row.terms)


def _left(row: Row, problem: Problem) -> Row:
    """The row over what is still to come."""
    over = [(c * problem.past[key], c * problem.past_plan[key]) for c, key in row.terms if key in problem.past]
    terms = tuple(term for term in row.terms if term[1] not in problem.past)
    low = None if row.low is None else row.low - sum(map(max, over))
    high = None if row.high is None else row.high - sum(done for done, _ in over)
    return dataclasses.replace(row, terms=terms, low=low, high=high)


def _given_way(row: Row, most: Mapping[Variable, int]) -> Row:
    """The row with limits that what is still to come can meet at all."""
    edges = [c * most.get(key, 1) for c, key in row.terms]
    least, largest = sum(min(0, edge) for edge in edges), sum(max(0, edge) for edge in edges)
    low = None if row.low is None else min(row.low, largest)
    high = None if row.high is None else max(row.high, least)
    return dataclasses.replace(row, low=low, high=high)
