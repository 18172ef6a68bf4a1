"""Training days that became others once or twice: what was done before stays on the days that it was done on."""

from __future__ import annotations

import datetime

import pytest

from planner.domain.athlete import Training
from planner.domain.block import Block, Routine
from planner.domain.terms import Day
from planner.problem.from_files import estimate_and_problem
from planner.problem.revised import free_from, routines_of, since_of
from planner.solve.from_block import off_routine
from planner.solve.past import with_past
from tests.revise.rest import SECOND_WEDNESDAY, START, THIRD_MONDAY, told_block
from tests.solve.demos import solved

A_DAY, A_WEEK = datetime.timedelta(days=1), datetime.timedelta(days=7)
TUESDAY_FRIDAY = Training.model_validate({"days": [{"day": "tue", "minutes": 75}, {"day": "fri", "minutes": 75}]})


def _revised_again(block: Block, first_day: datetime.date, training: Training) -> Block:
    assert block.revision is not None
    routines = routines_of(block, first_day, training)
    return block.model_copy(
        update={"revision": block.revision.model_copy(update={"first_day": first_day, "routines": routines})}
    )


def _a_day_later(block: Block, since: datetime.date) -> Block:
    """Mondays and Wednesdays become Tuesdays and, two days later, Fridays."""
    weeks = []
    for week in block.weeks:
        later = {0: 1, 2: 2}
        sessions = tuple(
            s if s.date < since else s.model_copy(update={"date": s.date + datetime.timedelta(later[s.date.weekday()])})
            for s in week.sessions
        )
        weeks.append(week.model_copy(update={"sessions": sessions}))
    return block.model_copy(update={"weeks": tuple(weeks)})


@pytest.mark.parametrize(
    ("first_day", "days", "free"),
    [
        (THIRD_MONDAY, ("mon", "wed"), THIRD_MONDAY),  # nothing of the week is gone
        (THIRD_MONDAY + A_DAY, ("mon", "wed"), THIRD_MONDAY + A_WEEK),  # the Monday session is
        (THIRD_MONDAY + A_DAY, ("wed", "fri"), THIRD_MONDAY),  # a Monday is, without a session
        (THIRD_MONDAY + 2 * A_DAY, ("tue", "fri"), THIRD_MONDAY + A_WEEK),
    ],
)
def test_other_training_days_hold_from_the_first_week_of_which_no_training_day_is_gone(
    first_day: datetime.date, days: tuple[Day, ...], free: datetime.date
) -> None:
    assert free_from(first_day, START, [Routine(since=START, days=days)]) == free


def test_a_training_day_without_a_session_in_what_is_left_is_still_a_training_day() -> None:
    """Only the last week is whole after the second revision, and it has no session on one of the days."""
    usual = solved("in-season").inputs.athlete.training
    told = told_block(THIRD_MONDAY)
    fourth = told.weeks[3].model_copy(update={"sessions": told.weeks[3].sessions[1:]})
    again = _revised_again(told.model_copy(update={"weeks": (*told.weeks[:3], fourth)}), THIRD_MONDAY + A_WEEK, usual)
    assert again.revision is not None
    assert {routine.days for routine in again.revision.routines} == {("mon", "wed")}


def test_days_that_became_others_twice_keep_every_session_that_was_done() -> None:
    told = told_block(SECOND_WEDNESDAY)
    assert told.revision is not None
    first = _revised_again(told, SECOND_WEDNESDAY, TUESDAY_FRIDAY)
    trained = _a_day_later(first, THIRD_MONDAY)
    usual = solved("in-season").inputs.athlete.training
    second = _revised_again(trained, THIRD_MONDAY + A_WEEK, usual)
    assert second.revision is not None
    assert [(str(one.since), one.days) for one in second.revision.routines] == [
        ("2025-09-08", ("mon", "wed")),
        ("2025-09-22", ("tue", "fri")),
        ("2025-09-29", ("mon", "wed")),
    ]
    problem = estimate_and_problem(solved("in-season").inputs, START, since=since_of(second))[1]
    past = {session.id for session in off_routine(trained, problem) if session.date < THIRD_MONDAY + A_WEEK}
    assert past == set()
    assert [len(problem.slots_of(week)) for week in problem.weeks] == [2, 2, 2, 2]


def _swapped_kinds(block: Block, since: datetime.date) -> Block:
    """From a day on, the two sessions of a week have each other's kind."""
    weeks = []
    for week in block.weeks:
        kinds = [session.focus for session in week.sessions]
        swapped = zip(week.sessions, reversed(kinds), strict=True)
        later = tuple(s.model_copy(update={"focus": kind}) if s.date >= since else s for s, kind in swapped)
        weeks.append(week.model_copy(update={"sessions": later}))
    return block.model_copy(update={"weeks": tuple(weeks)})


def test_days_that_stay_may_have_other_kinds_of_session_since_a_revision() -> None:
    """Weeks 1 and 2 have one kind a day, week 3 the other way round; each day of the past then has one kind."""
    usual = solved("in-season").inputs.athlete.training
    first = _swapped_kinds(told_block(SECOND_WEDNESDAY), THIRD_MONDAY)
    second = _revised_again(first, THIRD_MONDAY + A_WEEK, usual)
    problem = with_past(estimate_and_problem(solved("in-season").inputs, START, since=since_of(second))[1], second)
    kinds: dict[int | None, list[str | None]] = {}
    for key, held in problem.past_plan.items():
        if key.kind == "takes" and held:
            kinds.setdefault(key.at.slot, []).append(key.at.of)
    shapes = [session.focus for session in first.weeks[0].sessions]
    assert [kinds[slot] for slot in problem.slots_of(2)] == [[shape] for shape in shapes]
    assert [kinds[slot] for slot in problem.slots_of(3)] == [[shape] for shape in reversed(shapes)]
