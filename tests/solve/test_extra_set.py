"""A coach who asks for an extra set on the weaker leg gets it in the block, with its minutes and its joint stress."""

from __future__ import annotations

import re
from functools import cache

import pytest

from planner.audit import audit
from planner.domain.block import Block, Item
from planner.domain.terms import LOAD_ROLES
from planner.problem.from_files import Inputs, estimate_and_problem
from planner.report.changes import changes
from planner.rules.recount import count_block
from planner.rules.session_minutes import counted_minutes
from planner.solve.make_block import References, make_block
from planner.solve.near import solve_near
from tests.solve.demos import SOMEWHERE, Demo, inputs, solve_for

NOWHERE = References(SOMEWHERE, SOMEWHERE, SOMEWHERE, SOMEWHERE)
WEAK_LEFT_CALF = {
    "tests": [
        {"kind": "touch", "date": "2025-09-03", "take_off": "two-leg", "run_up": True, "trials": ["2.97 m", "2.98 m"]},
        {"kind": "contact-time", "date": "2025-09-03", "take_off": "two-leg", "trials": ["0.32 s"]},
        {"kind": "heel-raise", "date": "2025-09-01", "form": "strict", "left": 12, "right": 26},
    ]
}


def _given(word: str) -> Inputs:
    return inputs("in-season", {**WEAK_LEFT_CALF, "weaker_leg": word})


@cache
def _solved(word: str) -> Demo:
    return solve_for(_given(word))


def _is_one_leg_calf_work(demo: Demo, item: Item) -> bool:
    movement = demo.inputs.library[item.movement] if item.part != "test" else None
    return movement is not None and movement.legs == "one" and item.part == "calf"


def test_every_one_leg_calf_item_of_a_load_week_has_it_and_nothing_else_does() -> None:
    demo = _solved("extra-set")
    assert not [breach for breach in audit(demo.block, demo.problem) if breach.hard]
    got = 0
    for week in demo.block.weeks:
        for session in week.sessions:
            for item in session.items:
                due = week.role in LOAD_ROLES and item.sets > 0 and _is_one_leg_calf_work(demo, item)
                assert item.extra_set == ("left" if due else None), (item.id, item.movement)
                got += due
    assert got, "a block without one-leg calf work tests nothing"


def test_minutes_and_the_joints_of_that_leg_take_the_set_and_budgets_do_not() -> None:
    demo = _solved("extra-set")
    plain = count_block(
        demo.block.model_copy(update={"weeks": tuple(_without(w) for w in demo.block.weeks)}), demo.problem
    )
    counted = count_block(demo.block, demo.problem)
    for week, same in zip(counted.weeks, plain.weeks, strict=True):
        assert week.working_sets == same.working_sets
        assert week.stress("achilles-ankle", "right") == same.stress("achilles-ankle", "right")
        has_extra = any(item.item.extra_set for item in week.items)
        assert (week.stress("achilles-ankle", "left") > same.stress("achilles-ankle", "left")) == has_extra
        for session, bare in zip(week.sessions, same.sessions, strict=True):
            if not session.is_test:
                minutes = counted_minutes(demo.problem, session)
                more = minutes - counted_minutes(demo.problem, bare)
                assert (more > 0) == any(item.item.extra_set for item in session.items)
                assert minutes <= session.session.minutes


def _without(week):  # type: ignore[no-untyped-def]
    sessions = tuple(
        s.model_copy(update={"items": tuple(i.model_copy(update={"extra_set": None}) for i in s.items)})
        for s in week.sessions
    )
    return week.model_copy(update={"sessions": sessions})


def test_asking_for_it_in_mid_block_changes_that_and_what_it_takes_the_time_of() -> None:
    """A full day gives up a set of something else for it, and nothing on any other day changes."""
    before = _solved("same")
    result, problem = estimate_and_problem(_given("extra-set"))
    after = make_block(solve_near(problem, before.block), result.gap, NOWHERE)
    said = changes(before.block, after)
    extra = [line for line in said if "no extra set -> an extra set for the left leg" in line]
    days = {line.partition(":")[0] for line in extra}
    fewer = [re.fullmatch(r"(.*): .* (\d+) -> (\d+) sets", line) for line in said if line not in extra]
    assert extra and all(one and one[1] in days and int(one[2]) - int(one[3]) == 1 for one in fewer), said
    assert len(fewer) <= len(days)


@pytest.mark.parametrize("word", ["same", "extra-set"])
def test_a_request_that_no_test_bears_out_is_told(word: str) -> None:
    result, problem = estimate_and_problem(inputs("in-season", {"weaker_leg": word}))
    assert not problem.weaker_legs
    assert ("no-weaker-leg" in [finding.code for finding in result.findings]) == (word == "extra-set")


def test_work_on_both_legs_gives_way_where_it_would_leave_no_extra_set() -> None:
    """The youth's calf work is otherwise on both legs: as good by its bands, and no place for the set asked for."""
    tests = [
        {"kind": "touch", "date": "2025-09-03", "take_off": "two-leg", "run_up": False, "trials": ["2.55 m", "2.56 m"]},
        {"kind": "heel-raise", "date": "2025-09-01", "form": "strict", "left": 12, "right": 26},
    ]
    plain, asked = (solve_for(inputs("youth", {"tests": tests, "weaker_leg": word})) for word in ("same", "extra-set"))
    assert plain.block.proof.status == asked.block.proof.status == "optimal"
    assert not any("no one-leg work" in caution for caution in asked.block.cautions)
    sets = [item.extra_set for session in asked.block.sessions for item in session.items]
    assert "left" in sets


def test_no_one_leg_work_at_all_is_told_in_the_block() -> None:
    demo = _solved("same")
    due = estimate_and_problem(_given("extra-set"))[1]
    bare = _without_calf_work(demo)
    told = [
        breach for breach in audit(bare, due) if breach.rule == "both-sides" and "no one-leg work" in breach.sentence
    ]
    assert [breach.hard for breach in told] == [False]


def _without_calf_work(demo: Demo) -> Block:
    weeks = []
    for week in demo.block.weeks:
        sessions = [
            s.model_copy(update={"items": tuple(i for i in s.items if i.part != "calf")}) for s in week.sessions
        ]
        weeks.append(week.model_copy(update={"sessions": tuple(sessions)}))
    return demo.block.model_copy(update={"weeks": tuple(weeks)})
