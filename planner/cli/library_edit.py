"""``jumpblock library add`` and ``edit``: changes that keep every other byte of a coach's file."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from planner.cli.output import Command, note, result, show_findings

if TYPE_CHECKING:
    from planner.domain.library import Library
    from planner.domain.movement import Movement
    from planner.files.edit_library import Change
    from planner.files.locate import Located
    from planner.files.new_movement import Wish

_folder = click.option("--library", type=click.Path(), help="Folder of movements [default: here or above].")
_dry_run = click.option("--dry-run", is_flag=True, help="Show the change, write nothing.")


@click.command("edit", cls=Command)
@click.argument("movement_id", metavar="ID")
@click.argument("fields", metavar="FIELD=VALUE...", nargs=-1, required=True)
@_folder
@_dry_run
def edit(movement_id: str, fields: tuple[str, ...], library: str | None, dry_run: bool) -> None:
    """Change fields of the movement ID; the rest of its file stays as it is, byte for byte.

    \b
    level=advanced            a word or a number
    stress.patellar-knee=2    one tag of a table; dose.rest="90 s" likewise
    equipment=barbell,rack    a list of words
    cues="Drive up" cues="Land soft"    a list of sentences, given again for each
    cues.2="Land soft"        one entry of a list
    harder=                   nothing behind it: the field is taken out
    """
    from planner.files.edit_fields import read_assignments
    from planner.files.edit_library import change_movement

    at = own_library(library)
    change = change_movement(at, movement_id, read_assignments(fields))
    _finish(change, movement_id, dry_run)


@click.command("add", cls=Command)
@click.argument("words", metavar="[ID] [FIELD=VALUE...]", nargs=-1)
@click.option("--like", metavar="ID", help="Start from a copy of this movement.")
@click.option("--name", help="Name on the card [default: made from ID].")
@click.option("--family", help="Family it belongs to; a new one makes a new file [default: that of --like].")
@_folder
@_dry_run
def add(
    words: tuple[str, ...],
    like: str | None,
    name: str | None,
    family: str | None,
    library: str | None,
    dry_run: bool,
) -> None:
    """Add a movement: answer the questions on a terminal, or say all of it here.

    \b
    jumpblock library add                       asks for one thing after the other
    jumpblock library add box-hop --like box-jump level=advanced cues="Land soft"

    Fields are written as in `library edit`. The whole library is checked before anything is written.
    """
    from planner.cli.library_guide import complete_by_asking
    from planner.files.edit_fields import read_assignments
    from planner.files.new_movement import Wish, place

    at = own_library(library)
    ids = [word for word in words if "=" not in word]
    if len(ids) > 1:
        raise click.UsageError(f"one ID, please: {' or '.join(ids)}; put values with spaces in quotes")
    fields = read_assignments([word for word in words if "=" in word])
    wish = Wish(ids[0] if ids else None, like, name, family, tuple(fields))
    if wish.needs_asking() and at_terminal():
        _add_by_asking(complete_by_asking(wish, at), at, dry_run)
        return
    if wish.id is None:
        raise click.UsageError("name the new movement's ID (or run this on a terminal to be asked)")
    _finish(place(wish, at), wish.id, dry_run, added=True)


def _add_by_asking(wish: Wish, at: Located, dry_run: bool) -> None:
    """Show what the answers make, and write it once the coach has seen it. Refused answers are told as a command."""
    from planner.cli.library_guide import as_command
    from planner.files.new_movement import place

    change = place(wish, at)
    result(change.diff())
    if change.new_errors:
        note(f"To change an answer without giving all of them again:\n  {as_command(wish)}")
        change.write()  # raises with the findings
    show_findings(change.new_findings)
    if dry_run:
        note("nothing was written (--dry-run)")
        return
    click.confirm("Write it?", default=True, abort=True, err=True)
    change.write()
    _say_next(change, str(wish.id), added=True)


def own_library(library: str | None) -> Located:
    """The coach's own library. Raises UserError where there is only the shipped one."""
    from planner.domain.findings import Finding, UserError
    from planner.files.locate import locate_library

    at = locate_library(library, Path.cwd())
    if at.is_packaged:
        message = "there is no library of your own here, and the shipped one is not edited"
        hint = "make one with jumpblock start DIR and run this inside it, or name its folder with --library"
        raise UserError([Finding("", 0, 0, "no-library", message, hint)])
    return at


def at_terminal() -> bool:
    return sys.stdin.isatty() and sys.stderr.isatty()


def _finish(change: Change, movement_id: str, dry_run: bool, added: bool = False) -> None:
    """Show the change, write it unless it is a trial, and say what it leads to."""
    if change.new_errors:
        change.write()  # raises with the findings
    if not change.diff():
        note(f"{change.shown}: that is how it stands already")
        return
    result(change.diff())
    show_findings(change.new_findings)
    if dry_run:
        note("nothing was written (--dry-run)")
        return
    change.write()
    _say_next(change, movement_id, added)


def _say_next(change: Change, movement_id: str, added: bool) -> None:
    from planner.files.edit_library import line_of

    count = len(change.new_findings)
    verdict = "no new finding" if not count else f"{count} new finding{'s' if count > 1 else ''}, above"
    note(f"Written: {change.shown}:{line_of(change, movement_id)}; the library was checked: {verdict}")
    for line in _links(change, movement_id, added):
        note(line)
    note(f"Next: jumpblock library show {movement_id}")
    if added:
        note(
            "The next plan may choose it; to be sure of it, write in an athlete's file: "
            f"pins: [{{movement: {movement_id}}}]"
        )


def _links(change: Change, movement_id: str, added: bool) -> Sequence[str]:
    """Neighbours that do not lead back, each with the command that would make them; for a new movement without any, the
    command that names one."""
    from planner.files.edit_library import load_changed

    library = load_changed(change).value
    movement = library.get(movement_id) if library is not None else None
    if library is None or movement is None:
        return []
    if added and movement.easier is None and movement.harder is None:
        return _first_neighbour(movement, library)
    found = []
    for own, back in (("easier", "harder"), ("harder", "easier")):
        other = getattr(movement, own)
        beyond = getattr(library[other], back) if other is not None else None
        if other is None or beyond == movement_id:
            continue
        found.append(
            f"'{other}' has {beyond or 'nothing'} as its {back}; to lead it here: "
            f"jumpblock library edit {other} {back}={movement_id}"
        )
        if beyond is not None and getattr(movement, back) is None:
            found.append(f"and on from here: jumpblock library edit {movement_id} {back}={beyond}")
    return found


def _first_neighbour(movement: Movement, library: Library) -> Sequence[str]:
    """How to put a movement into a chain, with the nearest of its family that is no harder as the example."""
    from planner.domain.terms import LEVELS

    family = [
        other
        for other in library
        if other.id != movement.id
        and library.families[other.id] == library.families[movement.id]
        and LEVELS.index(other.level) <= LEVELS.index(movement.level)
    ]
    if not family:
        return []
    nearest = max(family, key=lambda other: (LEVELS.index(other.level), other.harder is None, other.id))
    command = f"jumpblock library edit {movement.id} easier={nearest.id}"
    return [f"It stands in no chain yet; its easier or harder neighbour is named by, for example: {command}"]
