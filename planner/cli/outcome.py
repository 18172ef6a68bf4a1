"""``jumpblock outcome``: what came of a block, by the retest and the log."""

from __future__ import annotations

import click

from planner.cli.output import Command, deliver, result, show_findings, to_json
from planner.cli.values import PAPER


@click.command("outcome", cls=Command, short_help="Say what came of a block.")
@click.argument("blocks", metavar="BLOCK [BLOCK...]", nargs=-1, required=True, type=click.Path())
@click.option("--athlete", metavar="ATHLETE", type=click.Path(), help="The file with the tests [default: the block's].")
@click.option("--log", "log_file", metavar="LOG", type=click.Path(), help="The log [default: BLOCK-log.yaml].")
@click.option(
    "-o", "--output", metavar="OUTCOME.pdf", type=click.Path(), help="Draw it as a PDF of a page a block; - is stdout."
)
@click.option("--paper", type=PAPER, help="Paper of the PDF [default: the athlete's].")
@click.option("--json", "as_json", is_flag=True, help="Print all figures as JSON.")
def command(
    blocks: tuple[str, ...],
    athlete: str | None,
    log_file: str | None,
    output: str | None,
    paper: str | None,
    as_json: bool,
) -> None:
    """Say what came of BLOCK: the change seen, what is to be believed of it, whether it is worth having, what next.

    Tests on or after the block's test day are held against those from before it; old tests stay in the athlete's
    file. Several blocks of one athlete also give the mean gain of a block. How a change is read is in
    templates/follow-up/standard.yaml.
    """
    from planner.jobs.outcome_of_block import outcomes_of, usual_gain
    from planner.jobs.safe_output import STDOUT, pdf_output
    from planner.report.outcome_data import outcome_data
    from planner.report.outcome_text import chain_text, outcome_text

    if log_file is not None and len(blocks) > 1:
        raise click.UsageError("give --log with one block only; with several, each log is read next to its block")
    if paper is not None and output is None:
        raise click.UsageError("--paper is for the PDF: add -o OUTCOME.pdf")
    file = None if output in (None, STDOUT) else pdf_output(str(output))
    found = outcomes_of(blocks, athlete, log_file)
    for one in found:
        show_findings(list(one.warnings))
    usual = usual_gain(found) if len(found) > 1 else None
    if output is not None:
        from planner.jobs.outcome_report import outcome_report
        from planner.jobs.print_block import layout_near

        deliver(outcome_report(found, usual, layout_near(blocks[0]), paper), file)
        return
    if as_json:
        result(to_json(outcome_data(found, usual)))
        return
    texts = [outcome_text(one) for one in found]
    result("\n".join([*texts, chain_text(found, usual)] if usual is not None else texts))
