"""What was done stays as it was printed and enters the rows as constants; nothing that happened asks for no change."""

from __future__ import annotations

import dataclasses
import datetime

import pytest

from planner.audit import audit
from planner.domain.block import Block, PastItem, PastSession
from planner.domain.training_log import OtherWork
from planner.files.digest import is_as_solved
from planner.files.dump import block_to_yaml
from planner.problem.model import Problem
from planner.rules.as_done import as_done
from planner.rules.registry import gather_rows
from planner.solve.make_block import refuse_broken
from planner.solve.variable_ranges import variable_ranges
from tests.revise.rest import SECOND_WEDNESDAY, THIRD_MONDAY, Rest, problem_of, rest_of, told_block
from tests.solve.demos import solved

MISSED = PastSession(session="w2s1", missed="ill")


def _hard(block: Block, problem: Problem) -> list[str]:
    return [breach.sentence for breach in audit(block, problem) if breach.hard]


def _sessions(block: Block) -> list[str]:
    """Each session as it is written in the file."""
    text = block_to_yaml(block)
    return [f"      - id: {part}" for part in text.split("      - id: ")[1:]]


@pytest.mark.parametrize("first_day", [SECOND_WEDNESDAY, THIRD_MONDAY], ids=["within a week", "at its start"])
def test_where_all_went_as_planned_nothing_changes_and_that_is_proved(first_day) -> None:
    rest = rest_of(first_day)
    assert [stage.status for stage in rest.solution.proof.stages] == ["optimal", "optimal"]
    assert [stage.objective for stage in rest.solution.proof.stages] == [0, 0]
    assert rest.new.weeks == rest.told.weeks
    assert rest.changes == []
    assert is_as_solved(rest.new)


@pytest.fixture(scope="module")
def missed() -> Rest:
    return rest_of(SECOND_WEDNESDAY, MISSED)


def test_what_was_before_the_first_day_is_the_same_text(missed) -> None:
    gone = [s.id for s in missed.told.sessions if s.date < SECOND_WEDNESDAY]
    before, after = _sessions(missed.told), _sessions(missed.new)
    assert gone and before[: len(gone) - 1] == after[: len(gone) - 1]
    assert missed.new.weeks[0] == missed.told.weeks[0]


def test_a_missed_session_is_not_made_up(missed) -> None:
    def sets(block: Block) -> int:
        return sum(i.sets for w in block.weeks[1:2] for s in w.sessions for i in s.items if s.date >= SECOND_WEDNESDAY)

    assert sets(missed.new) <= sets(missed.told)


def test_the_audit_counts_the_past_as_done_and_agrees(missed) -> None:
    assert _hard(missed.new, missed.solution.problem) == []
    refuse_broken(missed.new, missed.solution.problem)
    first, second = as_done(missed.new, missed.solution.problem).weeks[1].sessions
    assert {item.sets for item in first.items} == {0} and second == missed.new.weeks[1].sessions[1]


def test_a_session_to_come_is_still_judged(missed) -> None:
    """The rules are not silent about the rest: sets far over the wave are found in it, and not in the past."""
    for week, found in ((0, False), (2, True)):
        one = missed.new.weeks[week].sessions[0]
        lift = next(item for item in one.items if item.part == "main-lift")
        more = tuple(i.model_copy(update={"sets": 20}) if i is lift else i for i in one.items)
        session = one.model_copy(update={"items": more})
        changed = missed.new.weeks[week].model_copy(
            update={"sessions": (session, *missed.new.weeks[week].sessions[1:])}
        )
        weeks = tuple(changed if w.number == changed.number else w for w in missed.new.weeks)
        breaches = audit(missed.new.model_copy(update={"weeks": weeks}), missed.solution.problem)
        assert any(breach.rule == "continuity" for breach in breaches) == found


def test_rows_have_what_was_done_as_constants() -> None:
    problem = problem_of(told_block(THIRD_MONDAY, MISSED))
    assert problem.past
    assert not {key for row in gather_rows(problem) for _, key in row.terms} & set(problem.past)
    ranges = variable_ranges(problem)
    assert {ranges[key] for key in problem.past} == {(value, value) for value in problem.past.values()}
    assert min(row.at.week for row in gather_rows(problem) if row.at.week is not None) == 3


def test_where_no_rest_keeps_every_rule_those_that_count_the_past_give_way_at_a_price() -> None:
    """Growth compares a week to come with one that was: its rows count in thousandths, so a thousandth costs 1."""
    problem = problem_of(told_block(THIRD_MONDAY, MISSED))
    gives = {row.key: row.price for row in gather_rows(dataclasses.replace(problem, past_gives=True))}
    plain = {row.key: row.price for row in gather_rows(problem)}
    growth = {key for key in plain if key[0] == "growth" and key[1].week == 3}
    assert growth and {gives[key] for key in growth} == {1} and {plain[key] for key in growth} == {0}
    of_the_rest = {key for key in plain if key[0] in ("session-minutes", "continuity")}
    assert of_the_rest and {gives[key] for key in of_the_rest} == {0}


def test_sets_of_the_past_are_those_done() -> None:
    lift = next(i for i in solved("in-season").block.weeks[1].sessions[0].items if i.part == "main-lift")
    told = told_block(THIRD_MONDAY, PastSession(session="w2s1", items=(PastItem(item=lift.id, sets=1),)))
    problem = problem_of(told)
    keys = [key for key in problem.past if key.kind == "sets" and key.at.movement == lift.movement]
    done = {key.at.week: problem.past[key] for key in keys if key.at.slot == 1}
    assert done[2] == 1 and done[1] == lift.sets


def test_landings_that_were_done_count_in_whole_sets_of_the_plan_and_those_of_another_movement_as_they_were() -> None:
    """A set that was begun counts whole, as the rows count it: six landings of eight."""
    pogos = next(i for s in solved("in-season").block.weeks[0].sessions for i in s.items if i.tier and i.sets > 1)
    session, a_set = pogos.id.rpartition("i")[0], pogos.contacts // pogos.sets
    problem = problem_of(told_block(THIRD_MONDAY))
    for done, wanted in (
        (PastItem(item=pogos.id, sets=2, contacts=a_set + 1), (2, 2 * a_set)),
        (PastItem(item=pogos.id, sets=2, contacts=a_set), (1, a_set)),
        (PastItem(item=pogos.id, movement="pogo", sets=3, contacts=21), (3, 21)),
    ):
        told = told_block(THIRD_MONDAY, PastSession(session=session, items=(done,)))
        found = next(i for s in as_done(told, problem).weeks[0].sessions for i in s.items if i.id == pogos.id)
        assert (found.sets, found.contacts) == wanted


def test_a_block_planned_as_a_whole_has_no_line_of_a_revision() -> None:
    assert "revision" not in block_to_yaml(solved("in-season").block)


def test_other_work_that_was_done_loads_its_day_as_a_practice_does() -> None:
    """On the Tuesday before: its landings are of the week, and its stress is of the joints on the days around it."""
    told = told_block(SECOND_WEDNESDAY)
    tuesday = SECOND_WEDNESDAY - datetime.timedelta(days=1)
    work = OtherWork(date=tuesday, what="school match", minutes=70, contacts=60)
    assert told.revision is not None
    more = told.model_copy(update={"revision": told.revision.model_copy(update={"extra": (work,)})})
    plain, loaded = problem_of(told), problem_of(more)
    day = loaded.sport[tuesday]
    assert (day.contacts, day.minutes) == tuple(
        now + was for now, was in zip((60, 70), _sport(plain, tuesday), strict=True)
    )
    assert not day.match and loaded.sport_contacts()[2] == plain.sport_contacts()[2] + 60
    assert loaded.sport_units(tuesday, 2, "patellar-knee") > plain.sport_units(tuesday, 2, "patellar-knee")


def _sport(problem: Problem, date: datetime.date) -> tuple[int, int]:
    day = problem.sport.get(date)
    return (day.contacts, day.minutes) if day else (0, 0)
