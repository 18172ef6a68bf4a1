"""``jumpblock revise``: the rest of a running block planned anew, with as few changes as can be."""

from __future__ import annotations

import datetime
import shlex
from pathlib import Path
from typing import TYPE_CHECKING

import click

from planner.cli.output import Command, Progress, note, result, show_findings, to_json
from planner.cli.values import DAY

if TYPE_CHECKING:
    from planner.domain.block import Block
    from planner.domain.findings import Finding
    from planner.jobs.safe_output import Output


@click.command("revise", cls=Command, short_help="Plan the rest of a running block anew.")
@click.argument("block", type=click.Path())
@click.option(
    "--from",
    "first_day",
    type=DAY,
    help="First day to plan anew [default: the day after the last entry of the log].",
)
@click.option("--athlete", type=click.Path(), help="The athlete's file [default: the block's own, as it is now].")
@click.option("--loads-only", is_flag=True, help="Keep all movements and sets; bring the loads up to date.")
@click.option(
    "--most-cards",
    type=click.IntRange(min=0),
    help="The most cards to print again for other movements or sets [default: as few as the rules allow].",
)
@click.option(
    "--budget", type=click.FloatRange(min=0, min_open=True), help="How long to search, in seconds of a usual computer."
)
@click.option("-o", "--output", metavar="NEW.yaml", type=click.Path(), help="File to write [default: stdout].")
@click.option("--force", is_flag=True, help="Replace a block that was edited by hand.")
@click.option("--json", "as_json", is_flag=True, help="Print the changes and the block as JSON.")
def command(
    block: str,
    first_day: datetime.date | None,
    athlete: str | None,
    loads_only: bool,
    most_cards: int | None,
    budget: float | None,
    output: str | None,
    force: bool,
    as_json: bool,
) -> None:
    """Plan the rest of BLOCK anew after missed sessions, pain, new tests or other days.

    What was done stays as it is, by the log next to the block. The rest misses as little as the past allows, and
    among such blocks it is the one with the fewest changes, which are listed with their reasons.

    From then on print from NEW.yaml and log to it: the log so far is copied to NEW-log.yaml.
    """
    if loads_only and most_cards is not None:
        raise click.UsageError("give --loads-only or --most-cards, not both: --loads-only changes loads alone")
    from planner.jobs.revise_block import revise_block
    from planner.jobs.safe_output import STDOUT, block_output
    from planner.report.revise_text import revise_text

    file = None if output in (None, STDOUT) else block_output(str(output), force=force)
    with Progress() as progress:
        revised = revise_block(
            Path(block),
            Path(output or STDOUT).parent,
            first_day=first_day,
            athlete=Path(athlete) if athlete else None,
            loads_only=loads_only,
            most_cards=most_cards,
            budget=budget,
            tell=show_findings,
            progress=progress,
        )
    from planner.files.dump import block_to_yaml

    written = block_to_yaml(revised.new).encode("utf-8")
    left: list[Finding] = []
    if file is not None:
        left = _write_both(file, written, Path(block), revised.new)
    if as_json:
        from planner.report.revise_data import revise_data

        result(to_json(revise_data(revised.old, revised.new, revised.changes, revised.moved)))
    elif file is None:
        result(written)
    note(revise_text(revised.old, revised.new, revised.changes, revised.moved).rstrip())
    if file is not None and output is not None:
        note(f"Written: {output}")
        show_findings(left)
        _go_on(Path(block), Path(output), revised.new)


def _write_both(file: Output, written: bytes, old: Path, block: Block) -> list[Finding]:
    """The block and the log that goes with it, or neither."""
    from planner.jobs.carry_log import carry_log

    file.write(written)
    try:
        return carry_log(old, Path(file.path), block)
    except BaseException:
        file.take_back()
        raise


def _go_on(old: Path, new: Path, block: Block) -> None:
    """Which file to print from and to log to from now on."""
    name, pdf = shlex.quote(str(new)), shlex.quote(str(new.with_suffix(".pdf")))
    since = block.revision.first_day if block.revision is not None else block.weeks[0].start
    note(f"Next: jumpblock cards {name} --from {since} -o {pdf}")
    instead = "" if old == new else f", no longer to {old}"
    note(f"From now on print from {new} and log to it{instead}: jumpblock log {name}")
