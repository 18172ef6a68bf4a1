"""``jumpblock calendar``: a block in the athlete's own calendar."""

from __future__ import annotations

import click

from planner.cli.output import Command, deliver, show_findings


@click.command("calendar", cls=Command, short_help="Write a block's sessions as a calendar.")
@click.argument("block", type=click.Path())
@click.option(
    "-o", "--output", required=True, metavar="BLOCK.ics", type=click.Path(), help="The file to write; - is stdout."
)
@click.option(
    "--templates", type=click.Path(), help="Folder with cards/standard.yaml [default: near BLOCK, else shipped]."
)
def command(block: str, output: str, templates: str | None) -> None:
    """Write the sessions of BLOCK as a calendar file that phones and computers read.

    Each session is an all-day event, or is at the time that the athlete's file gives its weekday (time: "17:30" under
    training). Importing it again after a change of the block updates the events without duplicating them.
    """
    from planner.jobs import print_block
    from planner.jobs.safe_output import STDOUT, calendar_output

    file = None if output == STDOUT else calendar_output(output)
    deliver(print_block.calendar(block, templates, show_findings), file)
