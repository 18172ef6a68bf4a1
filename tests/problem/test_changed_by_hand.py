"""What a coach changed of a finished block: what its lines of edits say and what its dates show, and its calendar then.

The in-season player trains on Monday and Wednesday; the last of his four weeks ends with the test.
"""

from __future__ import annotations

import datetime
from collections.abc import Sequence

import pytest

from planner.domain.block import Block, Edit, Revision
from planner.files.digest import plan_digest
from planner.problem.block_calendar import Piece, calendar_of
from planner.problem.by_hand import ByHand, all_edits, by_edits, by_hand_of
from tests.rules.edits import edited
from tests.rules.kept_blocks import kept_block, kept_problem
from tests.solve.demos import athlete, template

START = datetime.date(2025, 9, 8)
MONDAY, TUESDAY, WEDNESDAY, THURSDAY = (datetime.date(2025, 9, day) for day in (15, 16, 17, 18))  # of week 2


def block(*changes: dict[str, dict[str, object]], edits: Sequence[Edit] = ()) -> Block:
    """The kept block after what was done to it without a line, and with these lines of edits."""
    weeks = edited(kept_block("in-season"), kept_problem("in-season"), changes).weeks
    return Block.model_construct(weeks=weeks, edits=tuple(edits), revision=None, plan_sha256="of the block before")


def to(date: datetime.date, session: int = 1) -> dict[str, dict[str, object]]:
    """A session of week 2 on another day."""
    return {"change": {"week": 2, "session": session, "date": date}}


def moved(session: str, was: datetime.date) -> Edit:
    return Edit(session=session, what="move", date=was)


def test_a_block_as_it_was_solved_has_nothing_of_a_coachs() -> None:
    plain = block()
    assert by_hand_of(plain.model_copy(update={"plan_sha256": plan_digest(plain)})) is None
    assert by_hand_of(plain) == ByHand({})  # something was changed, but no session and no date
    line = block(to(TUESDAY), edits=[moved("w2s1", MONDAY)])
    solved_anew = line.model_copy(update={"plan_sha256": plan_digest(line)})
    assert by_hand_of(solved_anew) == ByHand({MONDAY: TUESDAY}, cuts=(2, 3))


@pytest.mark.parametrize(
    ("changed", "lines", "found"),
    [
        (to(TUESDAY), [moved("w2s1", MONDAY)], {MONDAY: TUESDAY}),
        # To Tuesday first, then on to Thursday: where it is now counts.
        (to(THURSDAY), [moved("w2s1", MONDAY), moved("w2s1", TUESDAY)], {MONDAY: THURSDAY}),
        (to(MONDAY), [moved("w2s1", MONDAY), moved("w2s1", TUESDAY)], {}),  # and back
    ],
)
def test_a_moved_session_counts_where_it_is_now(
    changed: dict[str, dict[str, object]], lines: list[Edit], found: dict[datetime.date, datetime.date]
) -> None:
    assert by_edits(block(changed), lines).moved == found


@pytest.mark.parametrize(("session", "cuts"), [("w1s1", (2,)), ("w2s1", (2, 3)), ("w3s2", (3, 4)), ("w4s1", (4,))])
@pytest.mark.parametrize("what", ["swap", "sets"])
def test_a_week_with_movements_of_its_own_is_cut_off_before_and_after(
    what: str, session: str, cuts: tuple[int, ...]
) -> None:
    line = Edit.model_validate({"session": session, "what": what, "movement": "back-squat"})
    assert by_edits(block(), [line]) == ByHand({}, cuts=cuts)


def test_a_session_taken_out_leaves_its_day_free_and_cuts_nothing() -> None:
    line = Edit(session="w2s1", what="drop", date=MONDAY)
    assert by_edits(block(), [line]) == ByHand({}, dropped=frozenset({MONDAY}))


def test_dates_show_a_session_that_was_moved_or_taken_out_without_a_line() -> None:
    assert all_edits(block(to(TUESDAY))) == (moved("w2s1", MONDAY),)
    gone = block({"remove": {"week": 2, "session": 1}})
    assert all_edits(gone) == (Edit(session="", what="drop", date=MONDAY),)
    assert all_edits(block(to(TUESDAY), edits=[moved("w2s1", MONDAY)])) == (moved("w2s1", MONDAY),)  # told once


def test_dates_show_nothing_where_the_usual_day_is_taken_or_the_week_is_empty() -> None:
    both = block(to(WEDNESDAY), {"change": {"week": 2, "session": 2, "date": MONDAY}})  # they changed places
    empty = block({"remove": {"week": 2, "session": 2}}, {"remove": {"week": 2, "session": 1}})
    assert all_edits(both) == all_edits(empty) == ()


def test_what_was_before_the_first_day_of_a_revision_is_not_shown_as_a_change() -> None:
    for first_day, shown in ((START, (moved("w2s1", MONDAY),)), (MONDAY + datetime.timedelta(days=7), ())):
        revision = Revision.model_construct(first_day=first_day)
        assert all_edits(block(to(TUESDAY)).model_copy(update={"revision": revision})) == shown


def test_the_calendar_follows_what_a_coach_changed() -> None:
    """Week 2 has its Monday session on Tuesday and none on Wednesday; its phase is cut before and after it, once."""
    changed = ByHand({MONDAY: TUESDAY}, dropped=frozenset({WEDNESDAY}), cuts=(2, 3))
    for later in ((), (Piece(2),)):
        days = calendar_of(
            athlete("in-season-player"), template("in-season-four-week"), START, later=later, by_hand=changed
        )
        assert days.dates[2, 1] == TUESDAY and days.dates[3, 1] == MONDAY + datetime.timedelta(days=7)
        assert days.away == {(2, 2)}
        assert [phase.weeks for phase in days.phases] == [(1,), (2,), (3,), (4,)]
        assert [days.slot_on(2, date) for date in (MONDAY, TUESDAY, WEDNESDAY, THURSDAY)] == [1, 1, 2, None]
        assert days.slot_on(5, MONDAY) is None
