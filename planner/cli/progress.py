"""``jumpblock progress``: what was done of a block, and what it says."""

from __future__ import annotations

from typing import Any

import click

from planner.cli.many import file_in, is_many, one_by_one
from planner.cli.output import Command, deliver, show_findings
from planner.cli.values import PAPER


@click.command("progress", cls=Command, short_help="Say what was done and what it shows.")
@click.argument("blocks", metavar="BLOCK|DIR...", nargs=-1, required=True, type=click.Path())
@click.option("--log", "log_file", metavar="LOG", type=click.Path(), help="The log [default: BLOCK-log.yaml].")
@click.option(
    "-o", "--output", metavar="REPORT.pdf", type=click.Path(), help="Draw it as a PDF of pictures instead; - is stdout."
)
@click.option("--paper", type=PAPER, help="Paper of the PDF [default: the athlete's].")
@click.option("--json", "as_json", is_flag=True, help="Print all figures as JSON.")
@click.pass_context
def command(
    ctx: click.Context,
    blocks: tuple[str, ...],
    log_file: str | None,
    output: str | None,
    paper: str | None,
    as_json: bool,
) -> None:
    """Say what was done of BLOCK: planned and done, maxima, jump days, pain, and the loads of the next session.

    All of it is from the log next to the block; how it is read is in templates/follow-up/standard.yaml. Several blocks,
    or folders of them, are shown one after the other; -o is then a folder.
    """
    if paper is not None and output is None:
        raise click.UsageError("--paper is for the PDF: add -o REPORT.pdf")
    many = is_many(blocks)
    if log_file is not None and many:
        raise click.UsageError("give --log with one block only; with several, each log is read next to its block")

    def told(block: str) -> Any:
        to = file_in(output, block, ".pdf") if output is not None and many else output
        return _progress(block, log_file, to, paper, as_json)

    one_by_one(ctx, blocks, "block", told, as_json=as_json, into=output)


def _progress(block: str, log_file: str | None, output: str | None, paper: str | None, as_json: bool) -> Any:
    """Text or data; None where a PDF was written."""
    from planner.jobs.follow_block import follow_block
    from planner.jobs.safe_output import STDOUT, pdf_output
    from planner.report.progress_data import progress_data
    from planner.report.progress_text import progress_text

    file = None if output in (None, STDOUT) else pdf_output(str(output))
    followed = follow_block(block, log_file)
    show_findings(followed.warnings)
    if output is not None:
        from planner.jobs.print_block import layout_near
        from planner.jobs.progress_report import progress_report

        deliver(progress_report(followed, layout_near(block), paper), file)
        return None
    return progress_data(followed) if as_json else progress_text(followed)
