"""``jumpblock plan``: an athlete's file becomes a block."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from planner.cli.completing import templates
from planner.cli.many import is_many
from planner.cli.output import Command, Progress, note, result, show_findings
from planner.cli.values import DAY

if TYPE_CHECKING:
    from planner.domain.block import Block
    from planner.jobs.sources import Sources


@click.command("plan", cls=Command, short_help="Plan a block for an athlete.")
@click.argument("athletes", metavar="ATHLETE|DIR...", nargs=-1, required=True, type=click.Path())
@click.option(
    "--template",
    metavar="NAME",
    shell_complete=templates,
    help="Template by name or path [default: the athlete's, else eight-week].",
)
@click.option(
    "--start",
    type=DAY,
    help="First day of the block [default: the first training day after the latest test].",
)
@click.option(
    "--after",
    metavar="BLOCK",
    type=click.Path(),
    help="The block that was trained before: go on from what was done of it, by its log and the retest.",
)
@click.option("--near", metavar="BLOCK", type=click.Path(), help="Change as little as possible from this block.")
@click.option(
    "--budget", type=click.FloatRange(min=0, min_open=True), help="How long to search, in seconds of a usual computer."
)
@click.option("-o", "--output", metavar="BLOCK.yaml", type=click.Path(), help="File to write [default: stdout].")
@click.option("--force", is_flag=True, help="Replace a block that was edited by hand.")
@click.option("--json", "as_json", is_flag=True, help="Print the block as JSON, also where -o writes a file.")
@click.option("--library", type=click.Path(), help="Folder of movements [default: near ATHLETE, else the shipped one].")
@click.option("--templates", type=click.Path(), help="Folder of templates and benchmarks [default: likewise].")
@click.pass_context
def command(
    ctx: click.Context,
    athletes: tuple[str, ...],
    template: str | None,
    start: datetime.date | None,
    after: str | None,
    near: str | None,
    budget: float | None,
    output: str | None,
    force: bool,
    as_json: bool,
    library: str | None,
    templates: str | None,
) -> None:
    """Plan a block for the athlete's file ATHLETE.

    Every hard rule holds in it, and the solver proves how near a block can come to what the template aims at. The same
    files give the same block, byte for byte. Of several files, or folders of them, -o is a folder; a process for each
    core plans them, and a second run does only what has changed.
    """
    if is_many(athletes):
        if output is None or Path(output).suffix or after is not None or near is not None:
            raise click.UsageError("several athletes need -o FOLDER, and neither --after nor --near")
        from planner.cli.squad_commands import plan_each
        from planner.jobs.many_files import by_stem, files_named
        from planner.jobs.plan_squad import PlanOptions

        said = PlanOptions(template, start, budget, library, templates, force)
        plan_each(ctx, by_stem(files_named(athletes, "athlete")), Path(output), said, as_json=as_json)
        return
    (athlete,) = athletes
    from planner.files.load import load_block
    from planner.jobs.safe_output import STDOUT, planned_output
    from planner.jobs.sources import Wanted, read_sources
    from planner.rules.registry import all_rules

    file = None if output in (None, STDOUT) else planned_output(str(output), force=force)
    sources = read_sources(Wanted(athlete, template, library, templates), rule_ids=[rule.id for rule in all_rules()])
    old = load_block(near).require() if near else None
    sources.require()
    for line in sources.choices():
        note(line)
    folder = Path(output or STDOUT).parent
    follows, before = None, None
    if after is not None:
        from planner.jobs.take_over import next_block

        follows = next_block(after, sources, folder, start)
        show_findings(list(follows.warnings))
        start, before = follows.start, follows.before
    from planner.jobs.plan_block import plan_block  # the solver, only once there is something to solve

    with Progress() as progress:
        block = plan_block(
            sources, folder, start=start, near=old, before=before, budget=budget, tell=show_findings, progress=progress
        )
    if file is not None:
        file.write(_written(block, str(output)))
    if file is None or as_json:
        result(_written(block, ".json" if as_json else ".yaml"))
    if old is not None:
        _say_changes(old, block)
    if follows is not None:
        from planner.report.next_block_text import next_block_text

        note("")
        note(next_block_text(follows, block, sources.inputs.athlete).rstrip())
    _say(block, sources, output if file is not None else None)


def _say_changes(old: Block, new: Block) -> None:
    from planner.report.changes import changes

    found = changes(old, new)
    note("")
    note("Changes from the block in use:" if found else "Nothing changes from the block in use.")
    for line in found:
        note(f"  {line}")


def _written(block: Block, path: str) -> bytes:
    from planner.files.dump import block_to_json, block_to_yaml

    return (block_to_json(block) if path.endswith(".json") else block_to_yaml(block)).encode("utf-8")


def _say(block: Block, sources: Sources, output: str | None) -> None:
    import shlex

    from planner.report.plan_text import plan_text

    note("")
    note(plan_text(block, len(sources.inputs.library.movements)).rstrip())
    if output is None:
        note("Next: keep it with -o BLOCK.yaml, then print it with jumpblock cards.")
        return
    cards = Path(output).with_suffix(".pdf").as_posix()
    note(f"Written: {output}")
    note(f"Next: jumpblock cards {shlex.quote(output)} -o {shlex.quote(cards)}")
