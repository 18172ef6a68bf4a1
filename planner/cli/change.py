"""``jumpblock change``: a coach's own change of a session, with its sums, loads and notes redone."""

from __future__ import annotations

from pathlib import Path

import click

from planner.cli.completing import sessions
from planner.cli.output import Command, findings_data, note, result, show_findings, to_json

DAY_WORDS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


@click.command("change", cls=Command, short_help="Change a session of a block by hand.")
@click.argument("block", type=click.Path())
@click.argument("session", required=False, shell_complete=sessions)
@click.option("--swap", metavar="OLD=NEW", help="Another movement in the place of one, by their ids.")
@click.option("--sets", metavar="ITEM=SETS", help="Other sets of an item, by its number on the card.")
@click.option("--move", metavar="DAY", type=click.Choice(DAY_WORDS), help="Another weekday of its week.")
@click.option("--drop", is_flag=True, help="Take the session out.")
@click.option("--weeks", metavar="FROM-TO", help="In these weeks, on the same weekday [default: this session alone].")
@click.option("--redo", is_flag=True, help="Change nothing; redo the sums after an edit in the file.")
@click.option("-o", "--output", metavar="NEW.yaml", type=click.Path(), help="File to write [default: BLOCK itself].")
@click.option("--force", is_flag=True, help="Write even where comments in the file are lost.")
@click.option("--json", "as_json", is_flag=True, help="Print what the change breaks and the block as JSON.")
def command(
    block: str,
    session: str | None,
    swap: str | None,
    sets: str | None,
    move: str | None,
    drop: bool,
    weeks: str | None,
    redo: bool,
    output: str | None,
    force: bool,
    as_json: bool,
) -> None:
    """Change SESSION of BLOCK, such as w3s2, by hand.

    Contacts, minutes, loads, cues and weekly sums follow; nothing else changes. Rules that the change breaks are
    listed, and the change is made all the same. The block then counts as edited by a coach: its proof no longer holds.
    """
    asked = _asked(session, swap, sets, move, drop, weeks, redo)
    from planner.files.dump import block_as_data, block_to_yaml
    from planner.jobs.change_block import AskedChange, change_block, loses_comments
    from planner.jobs.safe_output import STDOUT, block_output

    path = output or block
    file = None if path == STDOUT else block_output(path, force=force or path == block)
    done = change_block(Path(block), AskedChange(**asked) if asked else None)  # type: ignore[arg-type]
    if path == block and not force and loses_comments(Path(block), done.old):
        lost = f"{block} has comments or a layout of its own, which would be lost"
        raise click.UsageError(f"{lost}: write another file with -o NEW, or give --force")
    written = block_to_yaml(done.new).encode("utf-8")
    if file is not None:
        file.write(written)
    if as_json:
        result(to_json({**findings_data(done.broken), "block": block_as_data(done.new)}))
    elif file is None:
        result(written)
    show_findings([*done.told, *done.broken])
    note(
        "No rule is broken by the change."
        if not done.broken
        else "The change is made; the lines above say what it breaks."
    )
    if file is not None:
        note(f"Written: {path}")


def _asked(
    session: str | None, swap: str | None, sets: str | None, move: str | None, drop: bool, weeks: str | None, redo: bool
) -> dict[str, object] | None:
    """The options as one change; None for --redo. Raises UsageError where they ask for none or for two."""
    given = [name for name, value in (("--swap", swap), ("--sets", sets), ("--move", move), ("--drop", drop)) if value]
    if redo:
        if given or session:
            raise click.UsageError("--redo changes nothing by itself: leave the session and the other options out")
        return None
    if session is None or len(given) != 1:
        raise click.UsageError("name a SESSION and one of --swap, --sets, --move and --drop; or --redo alone")
    asked: dict[str, object] = {"session": session, "move": move, "drop": drop}
    if swap is not None:
        asked["swap"] = _pair(swap, "=", "--swap", "back-squat=front-squat")
    if sets is not None:
        asked["sets"] = _numbers(sets, "=", "--sets", "6=4")
    if weeks is not None:
        asked["weeks"] = _numbers(weeks if "-" in weeks else f"{weeks}-{weeks}", "-", "--weeks", "3-4")
    return asked


def _pair(text: str, between: str, option: str, example: str) -> tuple[str, str]:
    first, found, second = text.partition(between)
    if not (first.strip() and found and second.strip()):
        raise click.UsageError(f"{option} takes two words, such as {example}")
    return first.strip(), second.strip()


def _numbers(text: str, between: str, option: str, example: str) -> tuple[int, int]:
    first, second = _pair(text, between, option, example)
    if not (first.isdecimal() and second.isdecimal()):
        raise click.UsageError(f"{option} takes two numbers, such as {example}")
    return int(first), int(second)
