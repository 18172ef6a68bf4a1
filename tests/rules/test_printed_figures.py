"""Figures that a hand edit leaves behind are found: contacts, tier, minutes, hard day, and each total of the week."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from planner.domain.block import Block, Totals
from planner.domain.block_parts import LegPoints
from planner.rules.consistency import inconsistencies
from planner.rules.recount import count_block
from tests.rules.edits import edited
from tests.rules.kept_blocks import block_of, changed_problem, kept_block, kept_problem
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
        (lambda: {"contacts": {**_totals().contacts, "low": 1}}, "week 2 says 1 low contact;"),
        (
            lambda: {"working_sets": {**_totals().working_sets, "calf-ankle": 1.0}},
            "week 2 says 1 set of calf strength;",
        ),
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
    for what in ("min; its items take", "of maximal strength; its items make", "points on the"):
        assert any(what in sentence for sentence in found), (what, found)


def _of_kept(*edits: Any) -> list[str]:
    block = edited(kept_block("adult"), kept_problem("adult"), edits)
    return [breach.sentence for breach in inconsistencies(count_block(block, kept_problem("adult")))]


ITEM = {"week": 8, "session": 3, "item": "tall-pogo"}  # 2 sets of ten
SAYS = "Tall pogo, arms driving in w8s3 (Thu 30 Oct) says"


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({}, []),
        ({"contacts": 21}, [f"{SAYS} 21 contacts; its sets and reps make 20"]),
        ({"tier": "high"}, [f"{SAYS} tier high; the library says low"]),
        ({"side": "each", "contacts": 20}, [f"{SAYS} 20 contacts; its sets and reps make 40"]),
    ],
)
def test_an_item_agrees_with_its_sets_and_with_the_library(changes: dict[str, Any], said: list[str]) -> None:
    found = _of_kept({"change": {**ITEM, **changes}})
    assert [sentence for sentence in found if sentence.startswith(SAYS)] == said


@pytest.mark.parametrize(
    ("minutes", "said"),
    [
        (41, []),
        (43, []),
        (40, ["w4s1 (Mon 29 Sep) says 40 min; its items take 42"]),
        (44, ["w4s1 (Mon 29 Sep) says 44 min; its items take 42"]),
    ],
)
def test_minutes_may_be_a_minute_off(minutes: int, said: list[str]) -> None:
    assert _of_kept({"change": {"week": 4, "session": 1, "minutes": minutes}}) == said


@pytest.mark.parametrize(
    ("week", "session", "marked", "said"),
    [
        (4, 1, False, ["w4s1 (Mon 29 Sep) is marked not hard; by its items it is"]),
        (4, 2, True, ["w4s2 (Tue 30 Sep) is marked hard; by its items it is not"]),
    ],
)
def test_a_hard_day_is_marked_as_its_items_make_it(week: int, session: int, marked: bool, said: list[str]) -> None:
    assert _of_kept({"change": {"week": week, "session": session, "hard_day": marked}}) == said


@pytest.mark.parametrize(
    ("totals", "said"),
    [
        ({}, None),
        ({"working_sets": {"calf-ankle": 0.25}}, "week 1 says 0.25 sets of calf strength; its items make 0"),
        ({"contacts": {"low": 1}}, "week 1 says 1 low contact; its items make 0"),
        ({"sprint_efforts": 1}, "week 1 says 1 sprint; its items make 0"),
        ({"sprint_m": 0.1}, None),
        ({"sprint_m": 0.2}, "week 1 says 0.2 m of sprints; its items make 0"),
        ({"joint_stress": {"low-back": LegPoints(left=0.1, right=0)}}, None),
        ({"joint_stress": {"low-back": LegPoints(left=0, right=0.2)}}, "week 1 says 0.2 points on the right low-back"),
    ],
)
def test_totals_of_a_week_without_a_session(totals: dict[str, Any], said: str | None) -> None:
    """Sets and contacts to the last one; metres and points as far as they are printed, a tenth."""
    first = kept_block("adult").weeks[0]
    none = first.totals.model_copy(
        update={"working_sets": {}, "contacts": {}, "sprint_efforts": 0, "sprint_m": 0.0, "joint_stress": {}, **totals}
    )
    week = first.model_copy(update={"sessions": (), "totals": none})
    found = [one.sentence for one in inconsistencies(count_block(block_of((week,)), kept_problem("adult")))]
    assert len(found) == (said is not None) and all(sentence.startswith(said or "") for sentence in found), found


def test_the_sport_of_a_week_is_that_of_its_seven_days() -> None:
    """A practice on the first day of week 2 is of that week alone."""
    own = [{"day": "tue", "minutes": 90, "contacts": 60}, {"day": "thu", "minutes": 90, "contacts": 60}]
    one_more = {"date": datetime.date(2025, 9, 15), "minutes": 90, "contacts": 60}
    for practices, weeks in ((own, set()), ([*own, one_more], {"week 2"})):
        planned = changed_problem("in-season", {"practices": practices})
        told = [one.sentence for one in inconsistencies(count_block(kept_block("in-season"), planned))]
        assert {sentence.partition(" says")[0] for sentence in told} == weeks


def test_a_jump_without_its_reps_makes_no_contacts() -> None:
    planned, block = kept_problem("in-season"), kept_block("in-season")
    without = {"change": {"week": 1, "session": 2, "item": "tall-pogo", "reps": None, "contacts": 16}}
    told = [one.sentence for one in inconsistencies(count_block(edited(block, planned, [without]), planned))]
    assert any("says 16 contacts; its sets and reps make 0" in sentence for sentence in told)
