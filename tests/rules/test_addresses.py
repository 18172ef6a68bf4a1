"""A breach knows its place: the item, session or week that it is about, whatever names its sentence holds."""

from __future__ import annotations

import pytest

from planner.domain.address import NOWHERE, Address
from planner.domain.block import Block
from tests.rules.cases import Case, all_cases

CASES = [case for case in all_cases() if case.fails]


def _items(block: Block, at: Address) -> list[tuple[str, str]]:
    """(movement, name) of the items at the address."""
    sessions = [s for s in block.sessions if at.session == s.id]
    return [(i.movement, i.name) for s in sessions for i in s.items if at.movement in (None, i.movement)]


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.rule}: {case.name}")
def test_every_breach_is_at_a_place_of_the_block(case: Case) -> None:
    block = case.block()
    for breach in case.breaches():
        at = breach.at
        if at.session is not None and at.movement is not None:
            assert any(name in breach.sentence for _, name in _items(block, at)), breach
        elif at.session is not None:
            assert _items(block, at), breach
        elif at != NOWHERE:
            assert at.phase is not None or at.week in {week.number for week in block.weeks}, breach


def test_of_two_movements_in_a_sentence_the_one_to_blame_is_addressed() -> None:
    (case,) = [case for case in CASES if case.name == "two squats in a session"]
    breaches = case.breaches()
    assert len({name for _, name in _items(case.block(), breaches[0].at._replace(movement=None))}) > 1
    assert {breach.at.movement for breach in breaches} == {"front-squat"}
