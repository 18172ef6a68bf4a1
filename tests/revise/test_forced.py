"""What the past forces is excused where it is, and nowhere else."""

from __future__ import annotations

import pytest

from planner.rules.forced import Forced
from planner.rules.rule import Address, Breach, Row
from tests.revise.rest import SECOND_WEDNESDAY, problem_of, told_block


@pytest.fixture(scope="module")
def forced() -> Forced:
    told = told_block(SECOND_WEDNESDAY)
    problem = problem_of(told)
    last = problem.phases[-1]
    rows = [
        Row("growth", Address(week=3, of="contacts"), (), None, 0),
        Row("joint-stress", Address(week=2, slot=1, joint="patellar-knee", leg="left"), (), None, 0),
        Row("hard-days-apart", Address(week=2, slot=1), (), None, 1, other=Address(week=2, slot=2)),
        Row("no-new-in-taper", Address(phase=last.id, slot=last.slots[1], movement="pogo"), (), None, 0),
    ]
    return Forced(rows, told, problem)


def _breach(rule: str, at: Address) -> Breach:
    return Breach(rule, at, "", 1, "sets")


@pytest.mark.parametrize(
    ("rule", "at"),
    [
        ("growth", Address(week=3, of="contacts")),
        ("joint-stress", Address(session="w2s1", joint="patellar-knee", leg="left")),
        ("hard-days-apart", Address(session="w2s2")),
        ("no-new-in-taper", Address(session="w4s2", item="w4s2i1", movement="pogo")),
    ],
)
def test_a_breach_at_the_place_of_a_forced_row_is_excused(forced, rule, at) -> None:
    assert forced.excuses(_breach(rule, at))


@pytest.mark.parametrize(
    ("rule", "at"),
    [
        ("growth", Address(week=4, of="contacts")),
        ("growth", Address(week=3, of="working sets")),
        ("stress-growth", Address(week=3, of="contacts")),
        ("joint-stress", Address(session="w2s2", joint="patellar-knee", leg="left")),
        ("joint-stress", Address(session="w2s1", joint="patellar-knee", leg="right")),
        ("hard-days-apart", Address(session="w3s1")),
        ("no-new-in-taper", Address(session="w4s1", item="w4s1i1", movement="pogo")),
        ("no-new-in-taper", Address(session="w4s2", item="w4s2i2", movement="run-pogo")),
    ],
)
def test_the_same_rule_broken_elsewhere_is_not(forced, rule, at) -> None:
    assert not forced.excuses(_breach(rule, at))
