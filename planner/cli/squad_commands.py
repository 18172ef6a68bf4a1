"""``jumpblock squad plan``, ``slots`` and ``overview``: the blocks of a squad."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from planner.cli.completing import templates
from planner.cli.output import Command, deliver, note, result, show_findings
from planner.cli.values import DAY, PAPER

if TYPE_CHECKING:
    import datetime
    from collections.abc import Mapping
    from pathlib import Path

    from planner.domain.findings import Finding
    from planner.jobs.plan_squad import PlanOptions, Runner
    from planner.jobs.squad_overview import Column

OVERVIEW_COLUMNS = ("athlete", "group", "gap", "short", "week", "contacts", "sets", "sprints", "pain", "change")
_squad_file = click.argument("squad", type=click.Path())


@click.command("plan", cls=Command, short_help="Plan a block for each athlete.")
@_squad_file
@click.option("-o", "--output", metavar="FOLDER", type=click.Path(), help="Where the blocks go [default: the squad's].")
@click.option("--jobs", type=click.IntRange(min=1), help="Athletes planned at the same time [default: one a core].")
@click.option("--on", "scheduler", metavar="ADDRESS", help="A scheduler that runs on other machines: tcp://HOST:8786.")
@click.option("--only", multiple=True, metavar="NAME", help="Only this athlete; may be given again.")
@click.option(
    "--template",
    metavar="NAME",
    shell_complete=templates,
    help="Template by name or path [default: each athlete's, else eight-week].",
)
@click.option("--start", type=DAY, help="First day of all blocks [default: as plan chooses it for each].")
@click.option(
    "--budget",
    type=click.FloatRange(min=0, min_open=True),
    help="Seconds of a usual computer to search for each block.",
)
@click.option(
    "--after",
    metavar="FOLDER",
    type=click.Path(),
    help="Blocks that these follow: who has one there goes on from it. Give -o another folder.",
)
@click.option("--force", is_flag=True, help="Plan all anew, and replace blocks that were edited by hand or have a log.")
@click.option("--library", type=click.Path(), help="Folder of movements [default: near each athlete].")
@click.option("--templates", type=click.Path(), help="Folder of templates and benchmarks [default: likewise].")
@click.option("--json", "as_json", is_flag=True, help="Print the table as data.")
@click.pass_context
def plan(
    ctx: click.Context,
    /,
    squad: str,
    output: str | None,
    jobs: int | None,
    scheduler: str | None,
    only: tuple[str, ...],
    after: str | None,
    as_json: bool,
    **options: Any,
) -> None:
    """Plan a block for each athlete of SQUAD, each as `jumpblock plan` makes it.

    A refusal or a crash costs only its own athlete's block, and a second run plans only what is missing or has changed.
    A block that has a log is kept. Exit code 1 where any athlete has no block.
    """
    import shlex
    from pathlib import Path

    from planner.jobs.plan_squad import PlanOptions
    from planner.jobs.squad_files import read_squad

    found = read_squad(squad)
    folder, before = Path(output) if output else found.blocks, Path(after) if after else None
    if before is not None:
        _agree(before, folder, found.athletes)
    said = PlanOptions(only=only, after=before, **options)
    runner = None
    if scheduler is not None:
        from planner.jobs.on_cluster import on_cluster

        runner = on_cluster(scheduler)
    name, blocks = shlex.quote(squad), f" --blocks {shlex.quote(output)}" if output else ""
    follows = (
        f"slots {name}{blocks} -o wall.pdf --cards first-day.pdf" if found.squad.halls else f"overview {name}{blocks}"
    )
    follows = f"Next: jumpblock squad {follows}"
    plan_each(ctx, found.athletes, folder, said, jobs=jobs, runner=runner, as_json=as_json, follows=follows)


def _agree(before: Path, folder: Path, athletes: Mapping[str, str]) -> None:
    if not before.is_dir():
        raise click.UsageError(f"--after: there is no folder '{before}'")
    if before.resolve() == folder.resolve():
        raise click.UsageError("--after names the folder where these blocks would go: give -o another folder")
    if not any((before / f"{name}.yaml").is_file() for name in athletes):
        raise click.UsageError(f"--after: no block of this squad's athletes is in '{before}'; they are NAME.yaml there")


def plan_each(
    ctx: click.Context,
    athletes: Mapping[str, str],
    folder: Path,
    options: PlanOptions,
    *,
    jobs: int | None = None,
    runner: Runner | None = None,
    as_json: bool = False,
    follows: str = "",
) -> None:
    """A block for each athlete in the folder, and a table of them; exit code 1 where any has none.

    ``follows``: the next command, told where there is any block.
    """
    import os

    from planner.cli.output import Progress, to_json
    from planner.jobs.plan_squad import plan_squad
    from planner.report.squad_text import plan_table

    jobs = jobs or os.cpu_count() or 1
    try:
        with Progress() as progress:
            rows = plan_squad(athletes, folder, options, jobs=jobs, runner=runner, progress=progress)
    except KeyboardInterrupt:
        note("interrupted; the blocks that are done are kept, and the same command does the rest")
        ctx.exit(130)
    data = [row.data for row in rows]
    result(to_json({"athletes": data}) if as_json else plan_table(data))
    if follows and any("gap_N" in one for one in data):
        note(follows)
    if any(row.planned.why for row in rows):
        ctx.exit(1)


@click.command("slots", cls=Command, short_help="Who starts when in which hall.")
@_squad_file
@click.option("--blocks", metavar="FOLDER", type=click.Path(), help="Folder of the blocks [default: the squad's].")
@click.option("--from", "since", type=DAY, help="First day [default: the first day that anybody trains].")
@click.option("--days", type=click.IntRange(1, 60), default=7, help="How many days [default: 7].")
@click.option("-o", "--output", metavar="WALL.pdf", type=click.Path(), help="A wall sheet for each day and hall.")
@click.option(
    "--cards", metavar="CARDS.pdf", type=click.Path(), help="The first day's cards, in the order of starting."
)
@click.option(
    "--paper",
    type=PAPER,
    help="Paper [default: a4; of cards: the first athlete's].",
)
@click.option("--json", "as_json", is_flag=True, help="Print the start times as data.")
@click.pass_context
def slots(
    ctx: click.Context,
    /,
    squad: str,
    blocks: str | None,
    since: datetime.date | None,
    days: int,
    output: str | None,
    cards: str | None,
    paper: str | None,
    as_json: bool,
) -> None:
    """Who starts when in which hall, so that no station and no coach has too many in any five minutes.

    Wishes and groups are kept as well as can be, proved. Where that cannot be, it says what is over and when,
    and ends with exit code 1.
    """
    from pathlib import Path

    from planner.cli.output import Progress, to_json
    from planner.jobs.safe_output import pdf_output
    from planner.jobs.squad_blocks import first_day, read_blocks
    from planner.jobs.squad_files import read_squad
    from planner.jobs.squad_slots import day_data, squad_slots
    from planner.report.slots_text import slots_text

    wall_file, cards_file = (pdf_output(path) if path else None for path in (output, cards))
    found = read_squad(squad)
    folder = Path(blocks) if blocks else found.blocks
    with Progress() as progress:
        read_ = read_blocks(found, folder, progress)
        planned = squad_slots(found, read_, since or first_day(read_), days, progress)
    if wall_file is not None or cards_file is not None:
        from planner.jobs.squad_pages import day_cards, wall_sheets

        wall = wall_sheets(found, planned, paper or "a4") if wall_file else b""
        card_pages = day_cards(found, read_, planned[0], folder, paper) if cards_file else b""
        for file, content in ((wall_file, wall), (cards_file, card_pages)):
            if file is not None:
                deliver(content, file)
    show_findings(read_.told)
    data = [day_data(day) for day in planned]
    result(to_json({"days": data}) if as_json else slots_text(data))
    if not all(day.possible for day in planned):
        ctx.exit(1)


@click.command("overview", cls=Command, short_help="A row for each athlete: gap, week, pain.")
@_squad_file
@click.option("--blocks", metavar="FOLDER", type=click.Path(), help="Folder of the blocks [default: the squad's].")
@click.option("--date", type=DAY, help="Any day of the week to show [default: the first day that anybody trains].")
@click.option(
    "--sort",
    metavar="COLUMN",
    type=click.Choice(OVERVIEW_COLUMNS),
    default="athlete",
    help="Sorted by [default: athlete].",
)
@click.option("-o", "--output", metavar="FILE", type=click.Path(), help="A .pdf, .csv or .xlsx to write.")
@click.option("--paper", type=PAPER, default="a4", help="Paper of a PDF [default: a4].")
@click.option("--force", is_flag=True, help="Replace a file that is there.")
@click.option("--json", "as_json", is_flag=True, help="Print the rows as data.")
def overview(
    squad: str,
    blocks: str | None,
    date: datetime.date | None,
    sort: Column,
    output: str | None,
    paper: str,
    force: bool,
    as_json: bool,
) -> None:
    """A row for each athlete: gap with its error, what is short, contacts and sets of the week, pain.

    Where the block is over and tested again, the change of the target jump too; a PDF has a page of all changes.
    """
    from pathlib import Path

    from planner.cli.output import Progress, to_json
    from planner.jobs.safe_output import new_output
    from planner.jobs.squad_blocks import first_day, read_blocks
    from planner.jobs.squad_files import read_squad
    from planner.jobs.squad_overview import overview_file, overview_rows, overview_table
    from planner.report.squad_text import overview_text

    file = new_output(output, force=force) if output else None
    found = read_squad(squad)
    told: list[Finding] = []
    with Progress() as progress:
        read = read_blocks(found, Path(blocks) if blocks else None, progress)
        day = date or first_day(read)
        rows = overview_rows(found, read, day, sort, told.extend)
    show_findings([*read.told, *told])
    if file is not None:
        deliver(overview_file(found, rows, day, file.path, paper), file)
    table = overview_table(found, rows, day)
    result(
        to_json({"athletes": [row.data for row in rows]})
        if as_json
        else overview_text(table.subtitle, table.heads, table.rows)
    )
