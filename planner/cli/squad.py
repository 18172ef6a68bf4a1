"""``jumpblock squad``: many athletes, from their spreadsheet to the sheet on the wall."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from planner.cli.output import Command, Group, deliver, note, result, show_findings
from planner.cli.squad_commands import overview, plan, slots

if TYPE_CHECKING:
    from planner.files.sheet_values import DateOrder

DATE_ORDERS = ("day-first", "month-first")
_battery = click.option(
    "--battery", metavar="NAME", help="Battery by name or path [default: standard, of templates/sheets]."
)


@click.group("squad", cls=Group, short_help="Many athletes: tests, blocks, start times.")
def command() -> None:
    """A squad: its spreadsheet of tests, its blocks, its start times and its wall sheet.

    The squad's file may be up to 1 MiB, a spreadsheet up to 20,000 rows.
    """


@command.command("sheet", cls=Command, short_help="Make a spreadsheet of tests to fill.")
@click.option(
    "-o", "--output", required=True, metavar="TESTS.xlsx", type=click.Path(), help="File to write; - is stdout."
)
@click.option("--csv", "as_csv", is_flag=True, help="As CSV, also where the file's name does not end in .csv.")
@click.option(
    "--test", "tests", multiple=True, metavar="ID", help="Only these tests of the battery; may be given again."
)
@_battery
@click.option("--force", is_flag=True, help="Replace a file that is there.")
def sheet(output: str, as_csv: bool, tests: tuple[str, ...], battery: str | None, force: bool) -> None:
    """Make a spreadsheet to fill, a row for each athlete.

    The columns are those of the battery, units in the headings, with lists and ranges of what a cell may hold. The grey
    example row is not read. Headings of your own go into templates/sheets.
    """
    from planner.jobs.new_squad_sheet import new_squad_sheet
    from planner.jobs.safe_output import STDOUT, new_output

    file = None if output == STDOUT else new_output(output, force=force)
    as_csv = as_csv or output.lower().endswith(".csv")
    deliver(new_squad_sheet(battery=battery, tests=tests, as_csv=as_csv), file)


@command.command("read", cls=Command, short_help="Make athletes' files from a spreadsheet.")
@click.argument("sheet", metavar="TESTS", type=click.Path())
@click.option("-o", "--output", "folder", required=True, metavar="FOLDER", type=click.Path(), help="Athletes' files.")
@click.option(
    "--squad",
    metavar="SQUAD",
    type=click.Path(),
    help="Days, gym and target of new athletes [default: squad.yaml in FOLDER or above it].",
)
@_battery
@click.option(
    "--dates", metavar="ORDER", type=click.Choice(DATE_ORDERS), help="Which comes first in days such as 2/3/2026."
)
@click.option("--skip-rows", is_flag=True, help="Leave out rows with findings, and list them.")
@click.option("--library", type=click.Path(), help="Folder of movements [default: near FOLDER, else the shipped one].")
@click.option("--json", "as_json", is_flag=True, help="Print what was made as data.")
def read(
    sheet: str,
    folder: str,
    squad: str | None,
    battery: str | None,
    dates: DateOrder | None,
    skip_rows: bool,
    library: str | None,
    as_json: bool,
) -> None:
    """Make athletes' files from a spreadsheet, or bring them up to date.

    TESTS (.xlsx or CSV) has a row for each athlete, or one for each trial. Comments and earlier tests of a file stay.
    Everything that is wrong is listed at once by its cell, and nothing is written then.
    """
    import shlex

    from planner.cli.output import findings_data, to_json
    from planner.jobs.read_squad_sheet import read_squad_sheet
    from planner.report.squad_text import sheet_outcome_text

    made = read_squad_sheet(
        sheet, folder, squad=squad, battery=battery, library=library, dates=dates, skip_rows=skip_rows
    )
    if as_json:
        found = {"made": made.made, "changed": made.changed, "same": made.same}
        result(to_json({**found, **findings_data(made.findings)}))
        return
    show_findings(made.findings)
    result(sheet_outcome_text(made.made, made.changed, made.same))
    listed = f"list {folder} under athletes in a squad's file, such as templates/squads/demo-squad.yaml, then "
    note(f"Next: {'' if made.squad else listed}jumpblock squad plan {shlex.quote(made.squad or 'SQUAD')}")


for one in (plan, slots, overview):
    command.add_command(one)
