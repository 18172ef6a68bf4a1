"""``jumpblock start``: a coach's own folder."""

from __future__ import annotations

from pathlib import Path

import click

from planner.cli.output import Command, result


@click.command("start", cls=Command)
@click.argument("directory", metavar="DIR", type=click.Path(path_type=Path))
def command(directory: Path) -> None:
    """Make a coach's folder with the library, the templates and the demo athletes.

    They are copies to edit: commands given an athlete's file inside DIR use the library and templates found there.
    """
    from planner.files.editor_lines import SCHEMA_FOLDER
    from planner.files.locate import LIBRARY, TEMPLATES, packaged

    copies = {name: packaged(name) for name in (LIBRARY, TEMPLATES)}
    _refuse_overwriting(directory, [*copies, SCHEMA_FOLDER])
    _copy(directory, copies)
    result(_what_next(directory))


def _refuse_overwriting(directory: Path, names: list[str]) -> None:
    from planner.domain.findings import Finding, UserError

    def refusal(path: Path, message: str, hint: str) -> Finding:
        return Finding(path.as_posix(), 0, 0, "already-there", message, hint)

    if directory.exists() and not directory.is_dir():
        raise UserError([refusal(directory, "this is a file, not a folder", "name another folder")])
    there = [directory / name for name in names if (directory / name).exists() or (directory / name).is_symlink()]
    if there:
        message = "this is already there, and what you wrote in it is not overwritten"
        raise UserError([refusal(path, message, "name another folder, or move it away first") for path in there])


def _copy(directory: Path, copies: dict[str, Path]) -> None:
    """Copy beside the goal first and move into place at the end, so that no half-filled folder is left behind."""
    import shutil
    import tempfile

    from planner.domain.findings import Finding, UserError
    from planner.files.editor_lines import SCHEMA_FOLDER, add_editor_lines, write_schemas

    made = None if directory.exists() else next(p for p in (directory, *directory.parents) if p.parent.exists())
    try:
        directory.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=directory, prefix=".start-") as temporary:
            for name, source in copies.items():
                # File contents only: an installed copy may be read-only, a coach's is to be edited.
                shutil.copytree(source, Path(temporary) / name, copy_function=shutil.copyfile)
            write_schemas(Path(temporary) / SCHEMA_FOLDER)
            for name in copies:
                add_editor_lines(Path(temporary) / name, Path(temporary) / SCHEMA_FOLDER)
            for name in [*copies, SCHEMA_FOLDER]:
                (Path(temporary) / name).rename(directory / name)
    except OSError as error:
        if made is not None:
            shutil.rmtree(made, ignore_errors=True)
        message = f"the folder cannot be filled: {error.strerror or 'the system refused'}"
        raise UserError([Finding(directory.as_posix(), 0, 0, "cannot-write", message, "check the folder")]) from error


def _what_next(directory: Path) -> str:
    import shlex

    folder = shlex.quote(directory.as_posix())
    demo = f"{folder}/templates/athletes/adult-one-leg-jumper.yaml"
    return f"""\
{directory.as_posix()} is yours to edit:
  exercise_library/     the movements, one file a family
  templates/athletes/   three invented athletes; copy one and put your athlete's figures in
  templates/blocks/     the shapes of a block: weeks, budgets, waves
  templates/limits/     the limits that blocks share: growth, joint stress, youth, session shapes
  templates/benchmarks/ what a target asks of each quality
  templates/cards/      the words and sizes of the cards
  schemas/              what a YAML editor needs to complete and check these files as you type

Next:
  jumpblock check {folder}
  jumpblock gap {demo}
  jumpblock plan {demo} -o {folder}/block.yaml
  jumpblock cards {folder}/block.yaml -o {folder}/cards.pdf
"""
