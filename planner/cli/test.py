"""``jumpblock test``: results of a test day go into the athlete's file."""

from __future__ import annotations

import datetime
from typing import TYPE_CHECKING

import click

from planner.cli.output import Command, note, result
from planner.cli.terminal_questions import ask, at_terminal
from planner.cli.values import DAY
from planner.domain.findings import UserError

if TYPE_CHECKING:
    from planner.jobs.battery_results import Battery


@click.command("test", cls=Command, short_help="Write a test day into the athlete's file.")
@click.argument("athlete", type=click.Path())
@click.option("--date", "day", type=DAY, help="The day of the tests; asked for on a terminal.")
@click.option(
    "--result",
    "results",
    nargs=2,
    multiple=True,
    metavar="TEST RESULT",
    help="A test by its number on the sheet, its kind or its lift, and what came of it; may be given more than once.",
)
@click.option("--body-mass", metavar="MASS", help="Body mass of the day, with its unit.")
@click.option(
    "--from",
    "sources",
    multiple=True,
    metavar="FILE",
    type=click.Path(),
    help="A spreadsheet of results (.csv, .xlsx), one row a trial; may be given more than once.",
)
@click.option("--show", is_flag=True, help="Print the tests of the sheet with their numbers and last results.")
@click.option("--today", type=DAY, help="Today, for what is asked on a terminal [default: this machine's date].")
@click.option("--dry-run", is_flag=True, help="Say what would be written, write nothing.")
def command(
    athlete: str,
    day: datetime.date | None,
    results: tuple[tuple[str, str], ...],
    body_mass: str | None,
    sources: tuple[str, ...],
    show: bool,
    today: datetime.date | None,
    dry_run: bool,
) -> None:
    """Write the results of a test day into the athlete's file ATHLETE, below the old tests, which stay.

    Answer the questions on a terminal, or give it all here. Each test is one that was taken before, in the order of the
    test sheet, and is written down as done in the same way; a new kind of test is written into the file by hand.

    \b
    jumpblock test ana.yaml           asks, as on the sheet
    jumpblock test ana.yaml --show    numbers, last results
    jumpblock test ana.yaml --date 2025-11-01 \\
        --result touch "3.14, 3.15, 3.13 m"
    jumpblock test ana.yaml --date 2025-11-04 \\
        --result back-squat "132.5 kg x 4; 2 left" \\
        --result "9 left" 27
    """
    from planner.jobs.battery_results import open_battery, results_from, shown
    from planner.report.terminal import fit

    battery = open_battery(athlete)
    if show:
        result(fit("\n".join(shown(battery)) + "\n"))
        return
    battery.body_mass = body_mass
    if sources:
        if results:
            raise click.UsageError("--from reads all results from its files: give no --result with it")
        for source in sources:
            results_from(source, battery, day)
    elif results or body_mass is not None:
        if day is None and results:
            raise click.UsageError("--result needs --date YEAR-MONTH-DAY: the day of the test")
        _by_options(battery, results, day)
    elif not at_terminal():
        raise click.UsageError("give a result, such as --date 2025-11-01 --result touch '3.14 m' (or --show)")
    else:
        _by_asking(battery, day, today or datetime.date.today())
    _finish(battery, dry_run)


def _by_options(battery: Battery, results: tuple[tuple[str, str], ...], day: datetime.date | None) -> None:
    from planner.domain.findings import Finding
    from planner.units import Unreadable

    found = []
    for word, text in results:
        try:
            battery.tell(battery.place(word), day or datetime.date.min, text)
        except Unreadable as error:
            found.append(Finding(f"--result {word}", 0, 0, "not-a-result", error.message, error.hint))
        except UserError as error:
            found += error.findings
    if found:
        raise UserError(found)


def _by_asking(battery: Battery, day: datetime.date | None, today: datetime.date) -> None:
    from planner.jobs.ask_for_tests import ask_for_tests

    note("Enter leaves a test out; Ctrl-C keeps what was answered and leaves.")
    try:
        ask_for_tests(battery, day, today, ask, note)
    except (click.Abort, KeyboardInterrupt, EOFError):
        if not battery.entries and battery.body_mass is None:
            raise
        note("\ninterrupted; what was answered is kept")


def _finish(battery: Battery, dry_run: bool) -> None:
    import shlex

    from planner.jobs.battery_results import written

    if not battery.entries and battery.body_mass is None:
        note("no result was given; nothing changes")
        return
    raw = battery.raw()
    for line in written(battery):
        note(line)
    if battery.body_mass is not None:
        note(f"body mass: {battery.body_mass}")
    if dry_run:
        note("nothing was written (--dry-run)")
        return
    battery.file.write(raw)
    note(f"Written: {battery.file.path}")
    note(f"Next: jumpblock gap {shlex.quote(battery.file.path)}, or after a block jumpblock outcome BLOCK")
