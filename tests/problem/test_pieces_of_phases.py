"""A phase may be cut at a week, and the weekly routine may change from a week on: rows, audit and solver follow."""

from __future__ import annotations

import datetime

import pytest

from planner.audit import audit
from planner.domain.block import Block
from planner.estimate.strength import chart_of
from planner.problem.block_calendar import Piece
from planner.problem.build import build_problem
from planner.problem.from_files import estimate_from
from planner.problem.model import Problem
from planner.rules.new_hinges import NewHinges
from planner.rules.not_new_together import NotNewTogether
from planner.rules.registry import gather_rows
from planner.solve.bands import solve_bands
from planner.solve.extract import extract_weeks
from planner.solve.from_block import block_values, off_routine
from planner.solve.shortfalls import units_missed
from tests.rules.kept_blocks import block_of, kept_block
from tests.solve.demos import inputs

CUT_WEEK = 3
BUDGET = 20.0  # deterministic time; two days a week for four weeks take a tenth of it


def _planned(*later: Piece) -> Problem:
    """The in-season player's four weeks, cut where asked."""
    given = inputs("in-season")
    result = estimate_from(given)
    return build_problem(
        athlete=given.athlete,
        library=given.library,
        template=given.template,
        tilts=result.emphasis.tilts,
        strong_and_sure=result.emphasis.strong_and_sure,
        weaker_legs=result.weaker_legs,
        one_rm_kg={key: estimate.value for key, estimate in result.one_rm_kg.items()},
        load_table=chart_of(given.benchmarks.strength),
        later=later,
    )


def _other_days() -> Piece:
    """The same sessions a day later in the week from the cut on."""
    training = inputs("in-season").athlete.training
    moved = {"mon": "tue", "wed": "thu"}
    days = tuple(day.model_copy(update={"day": moved[day.day]}) for day in training.days)
    return Piece(CUT_WEEK, training.model_copy(update={"days": days}))


def _block(planned: Problem) -> Block:
    found = solve_bands(planned, BUDGET)
    return block_of(extract_weeks(found.problem, found.values))


def test_no_piece_no_change() -> None:
    whole = _planned()
    assert [phase.id for phase in whole.phases] == [phase.name for phase in whole.phases]
    assert whole.routines == [(1, 2)]


def test_a_cut_phase_chooses_anew_and_keeps_its_name_on_paper() -> None:
    whole, cut = _planned(), _planned(Piece(CUT_WEEK))
    assert len(cut.phases) == len(whole.phases) + 1
    assert [cut.phase_name(week) for week in cut.weeks] == [whole.phase_name(week) for week in whole.weeks]
    assert cut.phase_of(CUT_WEEK) != cut.phase_of(CUT_WEEK - 1)
    assert [cut.role(week) for week in cut.weeks] == [whole.role(week) for week in whole.weeks]
    assert len(cut.choices) > len(whole.choices)
    assert cut.dates == whole.dates


@pytest.mark.parametrize("piece", [Piece(CUT_WEEK), _other_days()], ids=["a cut", "other days from there on"])
def test_a_block_of_pieces_is_found_and_its_audit_agrees(piece: Piece) -> None:
    planned = _planned(piece)
    block = _block(planned)
    assert [breach.sentence for breach in audit(block, planned) if breach.hard and breach.rule != "figures"] == []
    values = block_values(block, planned)
    hard = [row for row in gather_rows(planned) if not row.price]
    # A day may be called hard though its work is not, so days are read back from the block.
    assert [row.name for row in hard if units_missed(row, values)] == []


def test_from_the_week_of_another_routine_on_the_days_are_others() -> None:
    planned = _planned(_other_days())
    block = _block(planned)
    days = [{f"{session.date:%a}" for session in week.sessions} for week in block.weeks]
    assert days[CUT_WEEK - 2] <= {"Mon", "Wed"} and days[CUT_WEEK - 1] <= {"Tue", "Thu"}
    assert planned.routines == [(1, 2), (3, 4)]
    assert off_routine(block, planned) == []


def test_sessions_on_a_weekday_of_no_routine_are_named() -> None:
    planned, block = _planned(_other_days()), kept_block("in-season")
    moved = [session.id for week in block.weeks[CUT_WEEK - 1 :] for session in week.sessions]
    assert [session.id for session in off_routine(block, planned)] == moved
    assert off_routine(block, _planned()) == []


def test_a_session_moved_to_a_free_weekday_breaks_a_rule() -> None:
    planned, block = _planned(), kept_block("in-season")
    first = block.weeks[0]
    moved = first.sessions[0].model_copy(update={"date": first.sessions[0].date + datetime.timedelta(days=1)})
    week = first.model_copy(update={"sessions": (moved, *first.sessions[1:])})
    breaches = audit(block_of((week, *block.weeks[1:])), planned)
    assert any(breach.at.session == moved.id and "not a free training day" in breach.sentence for breach in breaches)
    assert planned.slot_on(1, moved.date) is None


def test_what_must_not_begin_in_one_phase_does_not_begin_in_two_of_its_pieces() -> None:
    """Eccentric hamstring work in one piece, flying sprints in the next: they are new in the same phase."""
    cut = _planned(Piece(CUT_WEEK))
    pieces = [phase.id for phase in cut.phases if phase.name == cut.phase_name(CUT_WEEK)]
    rows = [row for row in gather_rows(cut) if row.rule == NotNewTogether.id]
    joined = {tuple(key.at.phase for weight, key in row.terms if weight > 0) for row in rows}
    assert len(pieces) == 2
    assert {(pieces[0], pieces[1]), (pieces[1], pieces[0])} <= joined


def test_what_an_earlier_piece_of_the_phase_had_is_not_new_in_the_next() -> None:
    """From the cut on, the one-leg hinge is on the day of the bar hinge; both were done before, on days apart."""
    block, weeks = kept_block("in-season"), []
    for week in block.weeks:
        first, second, *rest = week.sessions
        moved = tuple(item for item in first.items if item.movement == "one-leg-hinge" and week.number == CUT_WEEK)
        stays = tuple(item for item in first.items if item not in moved)
        first = first.model_copy(update={"items": stays})
        second = second.model_copy(update={"items": (*second.items, *moved)})
        weeks.append(week.model_copy(update={"sessions": (first, second, *rest)}))
    found = [
        [breach.rule for breach in audit(block_of(tuple(weeks)), planned) if breach.rule == NewHinges.id]
        for planned in (_planned(Piece(CUT_WEEK)), _planned())
    ]
    assert found == [[], [NewHinges.id]]
