"""What a change weighs stands in the template: another price there, and another change is the cheapest."""

from __future__ import annotations

from typing import Any

import pytest

from planner.domain.address import Address
from planner.problem.model import Problem
from planner.problem.variable import Variable
from planner.rules.rule import Row
from planner.solve.near import fewest_changes
from planner.solve.repair import least_steps
from planner.solve.variable_ranges import variable_ranges
from tests.rules.kept_blocks import changed_problem, kept_block, kept_values
from tests.solve.demos import problem

BUDGET = 1.0  # deterministic time; each question is of one or two rows
SET_s, ROOM_s = 600, 600  # a set of ten minutes, on a day that has room for one
CONTACTS, FLOOR = 10, 30


def _some_sets(planned: Problem, least: int) -> Variable:
    """The first variable of the sets of a movement that may be as many."""
    ranges = variable_ranges(planned)
    return next(key for key, (_, high) in ranges.items() if key.kind == "sets" and key.at.week == 1 and high >= least)


@pytest.mark.parametrize(
    ("prices", "gives_way"), [({"minute": 1}, "session-minutes"), ({"contact": 1}, "contacts-floor")]
)
def test_the_cheapest_change_is_cheap_by_the_template(prices: dict[str, Any], gives_way: str) -> None:
    planned = problem("adult", template_changes={"changes": prices})
    key = _some_sets(planned, FLOOR // CONTACTS)
    short = Row("session-minutes", Address(week=1, slot=planned.slots[0].number), ((SET_s, key),), None, ROOM_s)
    floor = Row("contacts-floor", Address(week=1), ((CONTACTS, key),), FLOOR, None)
    steps = least_steps(planned, [short, floor], ["session-minutes", "contacts-floor"])
    assert [(step.rule, step.amount) for step in steps] == [(gives_way, 20)]  # minutes, or contacts


@pytest.mark.parametrize(("prices", "cost"), [({}, 1), ({"set": 7}, 7)])
def test_a_set_more_than_the_block_in_use_costs_what_the_template_says(prices: dict[str, Any], cost: int) -> None:
    planned = changed_problem("youth", template={"near": prices})
    values, ranges = kept_values("youth"), variable_ranges(planned)
    key = next(k for k, sets in values.items() if k.kind == "sets" and 0 < sets < ranges[k][1])
    found = fewest_changes(
        planned, [Row("bans", Address(week=1), ((1, key),), values[key] + 1, None)], kept_block("youth"), BUDGET
    )
    assert found is not None and (found[1].status, found[1].objective) == ("optimal", cost)
