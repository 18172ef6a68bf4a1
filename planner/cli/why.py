"""``jumpblock why``: where a number of a block came from."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from planner.cli.output import Command, result

if TYPE_CHECKING:
    from planner.domain.block import Block
    from planner.problem.model import Problem


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
    from planner.cli.block_check import block_and_problem

    found, problem = block_and_problem(Path(block))
    if movement is not None:
        said = _movement(found, problem, movement)
    else:
        said = _session(found, problem, week or 1, session) if session else _week(found, problem, week or 1)
    result(_as_json(said).encode() if as_json else said.encode())


def _movement(block: Block, problem: Problem, movement_id: str) -> str:
    from planner.files.suggest import did_you_mean
    from planner.report.why import movement_text
    from planner.solve.explain import closed_by
    from planner.solve.preferences import movement_cost

    movement = problem.library.get(movement_id)
    if movement is None:
        hint = did_you_mean(movement_id, list(problem.library.movements))
        raise click.UsageError(f"'{movement_id}' is no movement of the library; {hint}")
    return movement_text(block, problem, movement, closed_by(problem, movement), movement_cost(problem, movement))


def _session(block: Block, problem: Problem, week: int, session: int) -> str:
    from planner.report.why import session_text
    from planner.solve.explain import explain_session

    story = explain_session(block, problem, week, session)
    if story is None:
        raise click.UsageError(f"the block has no session {session} in week {week}")
    return session_text(story, problem)


def _week(block: Block, problem: Problem, number: int) -> str:
    from planner.report.why import week_text
    from planner.solve.explain import tight_rows, week_chains

    week = next((w for w in block.weeks if w.number == number), None)
    if week is None:
        raise click.UsageError(f"the block has {len(block.weeks)} weeks; there is no week {number}")
    tight = [row for row in tight_rows(block, problem) if row.scope.startswith(f"w{number}/")]
    return week_text(week, week_chains(block, problem, number), tight, problem)


def _as_json(text: str) -> str:
    import json

    title, *lines = text.rstrip("\n").splitlines()
    return json.dumps({"title": title, "lines": lines}, ensure_ascii=False, indent=2) + "\n"
