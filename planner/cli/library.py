"""``jumpblock library``: the coach's movements, to look through, to add to and to change."""

from __future__ import annotations

from typing import Any

import click

from planner.cli.completing import movements
from planner.cli.library_edit import add, edit, remove
from planner.cli.output import Command, Group, result, to_json
from planner.domain.terms import JOINTS, KINDS, LEVELS, PARTS, PATTERNS, QUALITIES, TIERS

SCHEMA_NAMES = (
    *("library", "athlete", "template", "limits", "benchmarks", "card-layout", "follow-up", "usual-gyms"),
    *("test-sheet", "squad", "squad-rules", "block", "log"),
)
_KINDS = f"KIND is one of {', '.join(SCHEMA_NAMES)} [default: library]."
_folder = click.option(
    "--library", type=click.Path(), help="Folder of movements [default: here or above, else the shipped one]."
)
_json = click.option("--json", "as_json", is_flag=True, help="Print it as data.")
_with = click.option(
    "--with", "kit", metavar="THINGS", help="What the gym has, such as barbell,rack,dumbbells; none for body weight."
)
_athlete = click.option("--athlete", type=click.Path(), help="An athlete's file: what that gym has.")


@click.group("library", cls=Group, short_help="Look through and change the movements.")
def command() -> None:
    """Look through the library, add a movement, change one, take one out.

    The library is the folder exercise_library of this folder or one above it, else the shipped one, which is not
    edited: `jumpblock start DIR` makes a copy of your own.
    """


@command.command("list", cls=Command, short_help="List movements.")
@click.argument("words", nargs=-1)
@click.option("--quality", type=click.Choice(QUALITIES), help="Trains this quality.")
@click.option("--joint", type=click.Choice(JOINTS), help="Loads this joint.")
@click.option("--tag", type=click.IntRange(1, 3), default=1, help="With a tag of at least this [default: 1].")
@click.option("--equipment", multiple=True, metavar="THING", help="Uses this; may be given again.")
@_with
@_athlete
@click.option("--level", type=click.Choice(LEVELS), help="Of this level.")
@click.option("--up-to", metavar="LEVEL", type=click.Choice(LEVELS), help="Of this level or below.")
@click.option("--kind", type=click.Choice(KINDS), help="Of this kind.")
@click.option("--legs", type=click.Choice(["both", "one", "alternate"]), help="How the legs are used.")
@click.option("--pattern", type=click.Choice(PATTERNS), help="Covers this pattern.")
@click.option("--part", type=click.Choice(PARTS), help="Done in this part of a session.")
@click.option("--tier", type=click.Choice(TIERS), help="Jumps of this tier.")
@click.option("--family", help="Of this family.")
@_folder
@_json
def list_movements(
    words: tuple[str, ...], library: str | None, as_json: bool, kit: str | None, athlete: str | None, **asked: Any
) -> None:
    """List movements; WORDS must be in the id, the name or a trade name, and every option must fit."""
    from planner.jobs.look_up_library import gym_kit, library_at, read_library, things_named
    from planner.report.library_choice import Choice, chosen
    from planner.report.library_text import list_json, list_text

    _one_gym(kit, athlete)
    known = read_library(library_at(library, athlete))
    things = things_named(asked.pop("equipment"), known)
    choice = Choice(words=words, needs=things, has=gym_kit(kit, athlete, known), **asked)
    found = chosen(known, choice)
    result(to_json(list_json(found, known)) if as_json else list_text(found, known))


@command.command("show", cls=Command, short_help="Show all of one movement.")
@click.argument("movement_id", metavar="ID|NAME", shell_complete=movements)
@click.option("--athlete", type=click.Path(), help="An athlete's file: lengths and loads in its units.")
@_folder
@_json
def show(movement_id: str, library: str | None, athlete: str | None, as_json: bool) -> None:
    """Show all of one movement: tags, dose, its chain, and what the templates make of it."""
    from planner.files.file_checker import known_templates
    from planner.jobs.look_up_library import library_at, movement_named, read_library, words_for
    from planner.report.library_text import movement_json, movement_text

    at = library_at(library, athlete)
    known = read_library(at)
    movement, templates = movement_named(movement_id, known, at), known_templates(at.path)
    if as_json:
        result(to_json(movement_json(movement, known, templates)))
        return
    words = words_for(athlete, known)
    told = known.read_by(words.length_unit, words.mass_unit)
    result(movement_text(told[movement.id], told, templates, words))


@command.command("cover", cls=Command, short_help="Show where the library is thin.")
@_with
@_athlete
@_folder
@_json
def cover_command(kit: str | None, athlete: str | None, library: str | None, as_json: bool) -> None:
    """Show where the library is thin, for typical gyms or one athlete's, and which joints are over-represented."""
    from planner.jobs.look_up_library import gym_kit, library_at, read_library
    from planner.report.library_cover import cover, cover_json, cover_text

    _one_gym(kit, athlete)
    known = read_library(library_at(library, athlete))
    own = gym_kit(kit, athlete, known)
    found = cover(known, None if own is None else {"this athlete's gym" if athlete else "these things": own})
    result(to_json(cover_json(found)) if as_json else cover_text(found, len(known)))


@command.command("schema", cls=Command, short_help="Print the schema of a kind of file.", epilog=_KINDS)
@click.argument("name", metavar="[KIND]", type=click.Choice(SCHEMA_NAMES), default="library")
def schema_command(name: str) -> None:
    """Print the JSON Schema of a kind of file, for an editor that completes and checks as you type."""
    from planner.files.schema import schema
    from planner.rules.own_limits import own_limits

    result(to_json(schema(name, own_limits())))


command.add_command(add)
command.add_command(edit)
command.add_command(remove)


def _one_gym(kit: str | None, athlete: str | None) -> None:
    if kit is not None and athlete is not None:
        raise click.UsageError("give --with or --athlete, not both")
