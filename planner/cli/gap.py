"""``jumpblock gap``: the force gap of one athlete, and what it asks of the block."""

from __future__ import annotations

import click

from planner.cli.output import Command, note, result, show_findings, to_json


@click.command("gap", cls=Command)
@click.argument("athlete", type=click.Path())
@click.option("--full", is_flag=True, help="Add other contact times, where each ± comes from, and the sources.")
@click.option("--json", "as_json", is_flag=True, help="Print the gap as data.")
@click.option("--library", type=click.Path(), help="Folder of movements [default: near ATHLETE, else the shipped one].")
@click.option("--templates", type=click.Path(), help="Folder of templates and benchmarks [default: likewise].")
def command(athlete: str, full: bool, as_json: bool, library: str | None, templates: str | None) -> None:
    """Show the force gap between the test and the target.

    Reads the file ATHLETE and prints take-off speed and ground force now and at the target, the five qualities, and how
    they tilt the training.
    """
    from planner.jobs.left_out import left_out_of_tests
    from planner.jobs.placing import placed
    from planner.jobs.sources import Wanted, read_sources
    from planner.report.gap_text import gap_json, gap_text

    sources = read_sources(Wanted(athlete, library=library, templates=templates))
    sources.require()
    for line in sources.choices():
        note(line)
    estimate = sources.estimate()
    show_findings([*sources.findings, *left_out_of_tests(sources.athlete)])
    if as_json:
        show_findings(placed(estimate.findings, sources.athlete))
        result(to_json(gap_json(estimate.gap)))
        return
    note("")
    closed, base_sets = sources.closed_jumps(estimate), sources.usual_sets()
    result(gap_text(estimate, sources.inputs.athlete, full=full, base_sets=base_sets, closed=closed))
