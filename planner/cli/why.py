"""``jumpblock why``: where a number of a block came from."""

from __future__ import annotations

from pathlib import Path

import click

from planner.cli.completing import movements
from planner.cli.output import Command, result, show_findings, to_json


@click.command("why", cls=Command, short_help="Say why a block holds what it holds.")
@click.argument("block", type=click.Path())
@click.argument("movement", required=False, shell_complete=movements)
@click.option("--week", type=click.IntRange(min=1), help="Week of the block.")
@click.option("--session", type=click.IntRange(min=1), help="Session of that week, counted from 1.")
@click.option("--json", "as_json", is_flag=True, help="Print it as JSON.")
def command(block: str, movement: str | None, week: int | None, session: int | None, as_json: bool) -> None:
    """Say why BLOCK holds what it holds: all of it, a week, a session, or one MOVEMENT of the library.

    From the test to the gap, the emphasis, the weekly range and the chosen sets; which rules are at their limit; what
    the second choice was and why. With BLOCK alone, the story of the whole block.
    """
    if session is not None and week is None:
        raise click.UsageError("--session needs --week")
    from planner.jobs.explain_block import NotInBlock, explain_block

    try:
        data, text = explain_block(Path(block), movement, week, session, show_findings)
    except NotInBlock as error:
        raise click.UsageError(str(error)) from None
    result((to_json(data) if as_json else text).encode())
