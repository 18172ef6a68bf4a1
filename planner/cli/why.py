"""``jumpblock why``: where a number of a block came from."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from planner.cli.output import Command, result

if TYPE_CHECKING:
    from planner.domain.block import Block
    from planner.problem.model import Problem
    from planner.report.why_data import Data


@click.command("why", cls=Command)
@click.argument("block", type=click.Path())
@click.argument("movement", required=False)
@click.option("--week", type=click.IntRange(min=1), help="Week of the block.")
@click.option("--session", type=click.IntRange(min=1), help="Session of that week, counted from 1.")
@click.option("--json", "as_json", is_flag=True, help="Print it as JSON.")
def command(block: str, movement: str | None, week: int | None, session: int | None, as_json: bool) -> None:
    """Say why BLOCK holds what it holds: a session, a week, or one MOVEMENT of the library.

    From the test to the gap, the emphasis, the band and the chosen sets; which rules stand at their limit; what the
    next-best movement was and what it would have cost.
    """
    if session is not None and week is None:
        raise click.UsageError("--session needs --week")
    if movement is None and week is None:
        raise click.UsageError("name a MOVEMENT, or --week with or without --session")
    from planner.cli.output import to_json
    from planner.jobs.check_block import block_and_problem
    from planner.report.why import movement_text, session_text, week_text

    found, problem = block_and_problem(Path(block))
    if movement is not None:
        data, text = _movement(found, problem, movement), movement_text
    elif session is not None:
        data, text = _session(found, problem, week or 1, session), session_text
    else:
        data, text = _week(found, problem, week or 1), week_text
    result((to_json(data) if as_json else text(data)).encode())


def _movement(block: Block, problem: Problem, movement_id: str) -> Data:
    from planner.files.suggest import did_you_mean
    from planner.report.why_data import movement_data
    from planner.solve.explain import explain_movement, week_chains

    movement = problem.library.get(movement_id)
    if movement is None:
        hint = did_you_mean(movement_id, list(problem.library.movements))
        raise click.UsageError(f"'{movement_id}' is no movement of the library; {hint}")
    story = explain_movement(block, problem, movement)
    week = story.places[0][0].number if story.places else 1
    chains = [chain for chain in week_chains(block, problem, week) if movement.qualities.get(chain.line.quality)]
    return movement_data(story, chains, block, problem)


def _session(block: Block, problem: Problem, week: int, session: int) -> Data:
    from planner.report.why_data import session_data
    from planner.solve.explain import explain_session

    story = explain_session(block, problem, week, session)
    if story is None:
        raise click.UsageError(f"the block has no session {session} in week {week}")
    return session_data(story, block, problem)


def _week(block: Block, problem: Problem, number: int) -> Data:
    from planner.report.why_data import week_data
    from planner.solve.explain import tight_rows, week_chains

    week = next((w for w in block.weeks if w.number == number), None)
    if week is None:
        raise click.UsageError(f"the block has {len(block.weeks)} weeks; there is no week {number}")
    tight = [at for at in tight_rows(block, problem) if at.row.at.week == number]
    return week_data(week, week_chains(block, problem, number), tight, block, problem)
