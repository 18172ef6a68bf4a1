"""``jumpblock progress``: what was done of a block, and what it says."""

from __future__ import annotations

import click

from planner.cli.output import Command, result, show_findings, to_json


@click.command("progress", cls=Command)
@click.argument("block", type=click.Path())
@click.option("--log", "log_file", metavar="LOG", type=click.Path(), help="The log [default: BLOCK-log.yaml].")
@click.option("--json", "as_json", is_flag=True, help="Print all figures as JSON.")
def command(block: str, log_file: str | None, as_json: bool) -> None:
    """Say what was done of BLOCK: planned and done, maxima, jump days, pain, and the loads of the next session.

    All of it is from the log next to the block; how it is read is in templates/follow-up/standard.yaml.
    """
    from planner.jobs.follow_block import follow_block
    from planner.report.progress_data import progress_data
    from planner.report.progress_text import progress_text

    followed = follow_block(block, log_file)
    show_findings(followed.warnings)
    result(to_json(progress_data(followed)) if as_json else progress_text(followed))
