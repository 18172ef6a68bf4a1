"""``jumpblock start``: a coach's own folder."""

from __future__ import annotations

from pathlib import Path

import click

from planner.cli.output import Command, result


@click.command("start", cls=Command, short_help="Make a coach's folder to edit.")
@click.argument("directory", metavar="DIR", type=click.Path(path_type=Path))
def command(directory: Path) -> None:
    """Make a coach's folder with the library, the templates and the demo athletes.

    They are copies to edit: commands given an athlete's file inside DIR use the library and templates found there.
    """
    from planner.jobs.start_folder import start_folder
    from planner.report.terminal import fit

    start_folder(directory)
    result(fit(_what_next(directory)))


def _what_next(directory: Path) -> str:
    import shlex

    folder = shlex.quote(directory.as_posix())
    demo = f"{folder}/templates/athletes/adult-one-leg-jumper.yaml"
    return f"""\
{directory.as_posix()} is yours to edit:
  exercise_library/     the movements, one file a family
  templates/athletes/   three invented athletes; copy one and put your athlete's figures in
  templates/blocks/     the shapes of a block: weeks, sets, planned progressions
  templates/limits/     the limits that blocks share: growth, joint stress, youth, session shapes
  templates/gyms/       usual gyms that jumpblock new begins with
  templates/benchmarks/ what a target asks of each quality
  templates/cards/      the words and sizes of the cards
  templates/sheets/     the tests of a test day, and what headings of a spreadsheet mean
  templates/squads/     a squad of 24 with its spreadsheet, and what holds for every squad
  schemas/              what a YAML editor needs to complete and check these files as you type

Next, an athlete of your own:
  cd {folder}
  jumpblock new ana.yaml
or first an invented one, from here:
  jumpblock gap {demo}
  jumpblock plan {demo} -o {folder}/block.yaml
  jumpblock cards {folder}/block.yaml -o {folder}/cards.pdf
"""
