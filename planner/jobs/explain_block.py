"""Why a block holds what it holds: the whole, a session, a week, or one movement of the library. Asks the solver."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from planner.domain.block import Block
from planner.domain.findings import Finding
from planner.files.suggest import movement_hint
from planner.jobs.check_block import block_and_problem
from planner.problem.model import Problem
from planner.report.why_data import Data, block_data, movement_data, session_data, week_data
from planner.report.why_text import block_text, movement_text, session_text, week_text
from planner.solve.explain import explain_movement, explain_session, tight_rows, week_chains
from planner.solve.past import with_past


class NotInBlock(LookupError):
    """What is asked about is not in the block or its library; the message says what is."""


def explain_block(
    path: Path,
    movement: str | None,
    week: int | None,
    session: int | None,
    tell: Callable[[list[Finding]], None] = lambda findings: None,
) -> tuple[Data, str]:
    """The reasons as data and as text: of ``movement``, of a ``session`` (from 1) of ``week``, of a week, of the block.

    ``tell`` gets what has changed since the block was made. Raises UserError where it does not fit its
    files, NotInBlock where it has no such movement, week or session.
    """
    block, problem, findings = block_and_problem(path)
    tell(findings)
    if movement is None and block.revision is not None and _is_to_come(block, problem, week or 1, session):
        problem = with_past(problem, block)  # what is over is explained as it was planned
    if movement is not None:
        data, text = _why_movement(block, problem, movement), movement_text
    elif session is not None:
        data, text = _why_session(block, problem, week or 1, session), session_text
    elif week is not None:
        data, text = _why_week(block, problem, week), week_text
    else:
        data, text = block_data(block, tight_rows(block, problem), problem), block_text
    return data, text(data)


def _is_to_come(block: Block, problem: Problem, number: int, session: int | None) -> bool:
    sessions = [s for week in block.weeks if week.number == number for s in week.sessions]
    asked = sessions if session is None else sessions[session - 1 : session]
    return bool(asked) and asked[0].date >= problem.first_day


def _why_movement(block: Block, problem: Problem, movement_id: str) -> Data:
    movement = problem.library.get(movement_id)
    if movement is None:
        hint = movement_hint(movement_id, problem.library)
        raise NotInBlock(f"'{movement_id}' is not in the library" + (f"; {hint}" if hint else ""))
    story = explain_movement(block, problem, movement)
    week = story.places[0][0].number if story.places else 1
    chains = [chain for chain in week_chains(block, problem, week) if movement.qualities.get(chain.line.quality)]
    return movement_data(story, chains, block, problem)


def _why_session(block: Block, problem: Problem, week: int, session: int) -> Data:
    story = explain_session(block, problem, week, session)
    if story is None:
        raise NotInBlock(f"the block has no session {session} in week {week}")
    return session_data(story, block, problem)


def _why_week(block: Block, problem: Problem, number: int) -> Data:
    week = next((week for week in block.weeks if week.number == number), None)
    if week is None:
        raise NotInBlock(f"the block has {len(block.weeks)} weeks; there is no week {number}")
    tight = [at for at in tight_rows(block, problem) if at.row.at.week == number]
    return week_data(week, week_chains(block, problem, number), tight, block, problem)
