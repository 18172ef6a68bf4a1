"""``jumpblock library add``, ``edit`` and ``remove``: changes that keep every other byte of a coach's file."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from planner.cli.completing import movements
from planner.cli.output import Command, note, result, show_findings
from planner.cli.terminal_questions import ask, at_terminal

if TYPE_CHECKING:
    from planner.files.edit_library import LibraryChange
    from planner.files.new_movement import Wish

_folder = click.option("--library", type=click.Path(), help="Folder of movements [default: here or above].")
_dry_run = click.option("--dry-run", is_flag=True, help="Show the change, write nothing.")


@click.command("edit", cls=Command, short_help="Change fields of one movement.")
@click.argument("movement_id", metavar="ID|NAME", shell_complete=movements)
@click.argument("fields", metavar="FIELD=VALUE...", nargs=-1, required=True)
@_folder
@_dry_run
def edit(movement_id: str, fields: tuple[str, ...], library: str | None, dry_run: bool) -> None:
    """Change fields of one movement; the rest of its file stays as it is, byte for byte.

    \b
    level=advanced            a word or a number
    stress.patellar-knee=2    one tag of a table
    dose.rest="90 s"          the same
    equipment=barbell,rack    a list of words
    cues="Drive up" cues="Land soft"
                              a list of sentences, each again
    cues.2="Land soft"        one entry of a list
    harder=                   nothing: the field is taken out
    """
    from planner.files.edit_fields import read_assignments
    from planner.files.edit_library import change_movement
    from planner.jobs.look_up_library import id_named, own_library

    at = own_library(library)
    movement_id = id_named(movement_id, at)
    change = change_movement(at, movement_id, read_assignments(fields))
    now = next((field.partition("=")[2] for field in fields if field.startswith("id=")), movement_id)
    _finish(change, now, dry_run)
    if now != movement_id and not dry_run:
        note(f"The movement is '{now}' from now on; change '{movement_id}' in athletes' files (tests, pins, bans) too.")


@click.command("add", cls=Command, short_help="Add a movement.")
@click.argument("words", metavar="[ID] [FIELD=VALUE...]", nargs=-1)
@click.option("--like", metavar="ID|NAME", shell_complete=movements, help="Start from a copy of this movement.")
@click.option("--name", help="Name on the card [default: made from ID].")
@click.option("--family", help="Family it belongs to; a new one makes a new file [default: that of --like].")
@_folder
@_dry_run
def add(
    words: tuple[str, ...], like: str | None, name: str | None, family: str | None, library: str | None, dry_run: bool
) -> None:
    """Add a movement: answer the questions on a terminal, or give it all here.

    \b
    jumpblock library add      asks, one thing after the other
    jumpblock library add box-hop --like box-jump \\
        level=advanced cues="Land soft"

    Fields are written as in `library edit`. The whole library is checked before anything is written.
    """
    from planner.files.edit_fields import read_assignments
    from planner.files.new_movement import Wish, place
    from planner.jobs.ask_for_movement import complete_by_asking
    from planner.jobs.look_up_library import id_named, own_library, read_library

    at = own_library(library)
    ids = [word for word in words if "=" not in word]
    if len(ids) > 1:
        raise click.UsageError(f"one ID, please: {' or '.join(ids)}; put values with spaces in quotes")
    fields = read_assignments([word for word in words if "=" in word])
    like = None if like is None else id_named(like, at)
    wish = Wish(ids[0] if ids else None, like, name, family, tuple(fields))
    asked = wish.needs_asking() and at_terminal()
    if asked:
        known = read_library(at)
        note("Enter keeps what is in brackets; a - takes an optional field out; Ctrl-C leaves without writing.")
        wish = complete_by_asking(wish, known, at, ask)
    if wish.id is None:
        raise click.UsageError("name the new movement's ID (or run this on a terminal to be asked)")
    _finish(place(wish, at), wish.id, dry_run, added=True, asked=wish if asked else None)


@click.command("remove", cls=Command, short_help="Take a movement out of its file.")
@click.argument("movement_id", metavar="ID|NAME", shell_complete=movements)
@click.option("--anyway", is_flag=True, help="Take it out although files of this folder name it.")
@_folder
@_dry_run
def remove(movement_id: str, anyway: bool, library: str | None, dry_run: bool) -> None:
    """Take a movement out of its file; the rest of the file stays as it is, byte for byte.

    Nothing is written while a file next to the library names it: an athlete's tests, pins and bans, benchmarks, blocks,
    logs. Another movement's easier, harder or requires is changed first, with `library edit`.
    """
    from dataclasses import replace

    from planner.domain.findings import UserError
    from planner.files.edit_library import remove_movement
    from planner.files.mentions import mentions, with_ban_note
    from planner.jobs.look_up_library import id_named, own_library

    at = own_library(library)
    movement_id = id_named(movement_id, at)
    change = remove_movement(at, movement_id)
    hanging = mentions(movement_id, at.path.absolute().parent)
    if hanging and not anyway:
        raise UserError(with_ban_note(hanging, movement_id))
    show_findings([replace(finding, level="warning") for finding in hanging])
    _finish(change, movement_id, dry_run, removed=True)


def _finish(
    change: LibraryChange,
    movement_id: str,
    dry_run: bool,
    *,
    added: bool = False,
    removed: bool = False,
    asked: Wish | None = None,
) -> None:
    """Show the change, write it unless it is a trial, and say what it leads to. ``asked``: what the answers made."""
    if asked is not None and change.new_errors:
        from planner.jobs.ask_for_movement import as_command

        result(change.diff())
        note(f"To change an answer without giving all of them again:\n  {as_command(asked)}")
    if change.new_errors:
        change.write()  # raises with the findings
    if not change.diff():
        note(f"{change.shown} already says so; nothing changes")
        return
    result(change.diff())
    show_findings(change.new_findings)
    if dry_run:
        note("nothing was written (--dry-run)")
        return
    if asked is not None:
        click.confirm("Write it?", default=True, abort=True, err=True)
    change.write()
    if removed:
        note(f"Written: {change.shown}; '{movement_id}' is taken out")
        return
    _say_next(change, movement_id, added)


def _say_next(change: LibraryChange, movement_id: str, added: bool) -> None:
    from planner.files.edit_library import line_of
    from planner.jobs.neighbour_hints import neighbour_hints

    count = len(change.new_findings)
    verdict = "no new finding" if not count else f"{count} new finding{'s' if count > 1 else ''}, above"
    note(f"Written: {change.shown}:{line_of(change, movement_id)}; the library was checked: {verdict}")
    for line in neighbour_hints(change, movement_id, added):
        note(line)
    note(f"Next: jumpblock library show {movement_id}")
    if added:
        note(
            "The next plan may choose it; to be sure of it, write in an athlete's file: "
            f"pins: [{{movement: {movement_id}}}]"
        )
