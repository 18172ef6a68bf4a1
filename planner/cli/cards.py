"""``jumpblock cards``: a block on paper."""

from __future__ import annotations

import datetime
import shlex
from typing import TYPE_CHECKING

import click

from planner.cli.many import file_in, is_many, one_by_one
from planner.cli.output import Command, note, show_findings
from planner.cli.values import DAY, PAPER

if TYPE_CHECKING:
    from planner.cards.pdf_file import SheetName

SHEET_NAMES = ("overview", "movements", "tests", "cards")


@click.command("cards", cls=Command, short_help="Print a block: overview and cards.")
@click.argument("blocks", metavar="BLOCK|DIR...", nargs=-1, required=True, type=click.Path())
@click.option(
    "-o", "--output", required=True, metavar="CARDS.pdf", type=click.Path(), help="The file to write; - is stdout."
)
@click.option("--week", type=click.IntRange(min=1), help="Only this week's cards.")
@click.option(
    "--from",
    "since",
    type=DAY,
    help="Only sessions from this day on, with the loads that the log advises.",
)
@click.option(
    "--log", "log_file", metavar="LOG", type=click.Path(), help="The log for --from [default: BLOCK-log.yaml]."
)
@click.option("--session", type=click.IntRange(min=1), help="Only this session of the week.")
@click.option(
    "--sheet",
    "sheets",
    type=click.Choice(SHEET_NAMES),
    multiple=True,
    help="Only this kind of page; may be given more than once [default: all].",
)
@click.option(
    "--history",
    is_flag=True,
    help="Print the joints' history too [default: left out, since the overview may hang on a wall].",
)
@click.option("--paper", type=PAPER, help="Paper [default: the athlete's].")
@click.option(
    "--templates", type=click.Path(), help="Folder with cards/standard.yaml [default: near BLOCK, else shipped]."
)
@click.pass_context
def command(
    ctx: click.Context,
    blocks: tuple[str, ...],
    output: str,
    week: int | None,
    since: datetime.date | None,
    log_file: str | None,
    session: int | None,
    sheets: tuple[SheetName, ...],
    history: bool,
    paper: str | None,
    templates: str | None,
) -> None:
    """Print BLOCK: an overview, its movements with their cues for a wall, a test sheet, and a card for each session.

    --from prints what is still to come, each lift with what was left last time and the load to take; the block's file
    stays as it is. Of several blocks, or folders of them, -o is a folder.
    """
    from planner.jobs import print_block
    from planner.jobs.safe_output import STDOUT, pdf_output

    if log_file is not None and is_many(blocks):
        raise click.UsageError("give --log with one block only; with several, each log is read next to its block")
    if log_file is not None and since is None:
        raise click.UsageError("--log needs --from: only coming sessions have advice")

    def printed(block: str) -> bytes | None:
        to = file_in(output, block, ".pdf") if is_many(blocks) else output
        file = None if to == STDOUT else pdf_output(to)
        drawn = print_block.cards(
            block,
            templates,
            paper=paper,
            week=week,
            session=session,
            since=since,
            log=log_file,
            sheets=sheets,
            history=history,
            tell=show_findings,
        )
        if file is None:
            return drawn
        file.write(drawn)
        note(f"Written: {to}")
        if not is_many(blocks):
            note(f"Next, after each session: jumpblock log {shlex.quote(block)}")
        return None

    one_by_one(ctx, blocks, "block", printed, into=output)
