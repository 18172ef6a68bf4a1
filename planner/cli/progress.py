"""``jumpblock progress``: what was done of a block, and what it says."""

from __future__ import annotations

import click

from planner.cli.cards import PAPER_NAMES
from planner.cli.output import Command, note, result, show_findings, to_json


@click.command("progress", cls=Command)
@click.argument("block", type=click.Path())
@click.option("--log", "log_file", metavar="LOG", type=click.Path(), help="The log [default: BLOCK-log.yaml].")
@click.option(
    "-o", "--output", metavar="REPORT.pdf", type=click.Path(), help="Draw it as a PDF of pictures instead; - is stdout."
)
@click.option("--paper", type=click.Choice(PAPER_NAMES), help="Paper of the PDF [default: the athlete's].")
@click.option("--json", "as_json", is_flag=True, help="Print all figures as JSON.")
def command(block: str, log_file: str | None, output: str | None, paper: str | None, as_json: bool) -> None:
    """Say what was done of BLOCK: planned and done, maxima, jump days, pain, and the loads of the next session.

    All of it is from the log next to the block; how it is read is in templates/follow-up/standard.yaml.
    """
    from planner.jobs.follow_block import follow_block
    from planner.jobs.safe_output import STDOUT, pdf_output
    from planner.report.progress_data import progress_data
    from planner.report.progress_text import progress_text

    if paper is not None and output is None:
        raise click.UsageError("--paper is of the PDF; add -o REPORT.pdf")
    file = None if output in (None, STDOUT) else pdf_output(str(output))
    followed = follow_block(block, log_file)
    show_findings(followed.warnings)
    if output is not None:
        from planner.jobs.print_block import layout_near
        from planner.jobs.progress_report import progress_report

        drawn = progress_report(followed, layout_near(block), paper)
        if file is None:
            result(drawn)
            return
        file.write(drawn)
        note(f"written: {output}")
        return
    result(to_json(progress_data(followed)) if as_json else progress_text(followed))
