"""``jumpblock gap``: the force gap of an athlete, and what it asks of the block."""

from __future__ import annotations

import shlex
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from planner.cli.many import is_many, one_by_one
from planner.cli.output import Command, note, show_findings

if TYPE_CHECKING:
    from planner.domain.findings import Finding


@click.command("gap", cls=Command, short_help="Show the force gap from test to target.")
@click.argument("athletes", metavar="ATHLETE|DIR...", nargs=-1, required=True, type=click.Path())
@click.option("--full", is_flag=True, help="Add other contact times, where each ± comes from, and the sources.")
@click.option("--json", "as_json", is_flag=True, help="Print the gap as data.")
@click.option("--library", type=click.Path(), help="Folder of movements [default: near ATHLETE, else the shipped one].")
@click.option("--templates", type=click.Path(), help="Folder of templates and benchmarks [default: likewise].")
@click.pass_context
def command(
    ctx: click.Context, athletes: tuple[str, ...], full: bool, as_json: bool, library: str | None, templates: str | None
) -> None:
    """Show the force gap between the test and the target.

    Reads the file ATHLETE and prints take-off speed and ground force now and at the target, the five qualities, and how
    they tilt the training. Several files, or folders of them, are shown one after the other.
    """
    sore: list[Finding] = []
    one_by_one(
        ctx, athletes, "athlete", lambda path: _gap(path, full, as_json, library, templates, sore), as_json=as_json
    )
    if not is_many(athletes) and not as_json and not sore:
        path = Path(athletes[0])
        block = path.with_name(f"{path.stem}-block.yaml")
        if not block.exists():  # else a block that is trained now would be planned over
            note(f"Next: jumpblock plan {shlex.quote(str(path))} -o {shlex.quote(str(block))}")


def _gap(
    athlete: str, full: bool, as_json: bool, library: str | None, templates: str | None, sore: list[Finding]
) -> Any:
    """``sore`` gets the pain that no block is planned over."""
    from planner.jobs.changed_athlete import too_sore
    from planner.jobs.left_out import left_out_of_tests, tells_no_quality
    from planner.jobs.placing import placed
    from planner.jobs.sources import Wanted, read_sources
    from planner.report.gap_text import gap_json, gap_text

    sources = read_sources(Wanted(athlete, library=library, templates=templates))
    sources.require()
    for line in sources.choices():
        note(line)
    estimate = sources.estimate()
    no_quality = tells_no_quality(sources.athlete, sources.inputs.library, sources.inputs.benchmarks)
    pain = too_sore(sources.athlete)
    sore += pain
    show_findings([*sources.findings, *left_out_of_tests(sources.athlete), *no_quality, *pain])
    if as_json:
        show_findings(placed(estimate.findings, sources.athlete))
        return gap_json(estimate.gap)
    note("")
    closed, base_sets = sources.closed_jumps(estimate), sources.usual_sets()
    return gap_text(estimate, sources.inputs.athlete, full=full, base_sets=base_sets, closed=closed)
