"""Figures that a hand edit leaves behind are found: contacts, tier, minutes, hard day, and each total of the week."""

from __future__ import annotations

from typing import Any

import pytest

from planner.domain.block import Block, LegPoints, Totals
from planner.rules.consistency import inconsistencies
from planner.rules.recount import count_block
from tests.solve.demos import solved

WEEK = 2


def _found(block: Block) -> list[str]:
    return [breach.sentence for breach in inconsistencies(count_block(block, solved("youth").problem))]


def _with_totals(**changes: Any) -> Block:
    block = solved("youth").block
    week = block.weeks[WEEK - 1]
    totals = week.totals.model_copy(update=changes)
    weeks = tuple(w.model_copy(update={"totals": totals}) if w.number == WEEK else w for w in block.weeks)
    return block.model_copy(update={"weeks": weeks})


def _totals() -> Totals:
    return solved("youth").block.weeks[WEEK - 1].totals


def _more_stress() -> dict[str, Any]:
    joints = _totals().joint_stress
    left = joints["achilles-ankle"]
    return {"joint_stress": {**joints, "achilles-ankle": LegPoints(left=left.left + 1, right=left.right)}}


@pytest.mark.parametrize("demo", ["youth", "in-season"])
def test_a_block_as_planned_agrees_with_itself(demo: str) -> None:
    found = solved(demo)
    assert not list(inconsistencies(count_block(found.block, found.problem)))


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        (lambda: {"sprint_efforts": _totals().sprint_efforts + 1}, "sprints; its items make"),
        (lambda: {"sprint_m": _totals().sprint_m + 20}, "m of sprints; its items make"),
        (lambda: {"contacts": {**_totals().contacts, "low": 1}}, "week 2 says 1 low contacts"),
        (lambda: {"working_sets": {**_totals().working_sets, "calf-ankle": 1.0}}, "week 2 says 1 calf-ankle sets"),
        (_more_stress, "points on the left achilles-ankle; its work and sport make"),
    ],
    ids=["sprints", "metres", "contacts", "sets", "joint stress"],
)
def test_a_total_that_its_items_do_not_make(changes: Any, said: str) -> None:
    found = _found(_with_totals(**changes()))
    assert len(found) == 1 and said in found[0], found


def test_items_changed_and_nothing_else() -> None:
    """Two sets more of the first lift: minutes, sets and joint stress of the week no longer agree."""
    block = solved("youth").block
    week = block.weeks[WEEK - 1]
    session = next(s for s in week.sessions if any(i.part == "main-lift" for i in s.items))
    items = tuple(i.model_copy(update={"sets": i.sets + 2}) if i.part == "main-lift" else i for i in session.items)
    sessions = tuple(s.model_copy(update={"items": items}) if s.id == session.id else s for s in week.sessions)
    weeks = tuple(w.model_copy(update={"sessions": sessions}) if w.number == WEEK else w for w in block.weeks)
    found = _found(block.model_copy(update={"weeks": weeks}))
    for what in ("min; its items take", "maximal-strength sets; its items make", "points on the"):
        assert any(what in sentence for sentence in found), (what, found)
