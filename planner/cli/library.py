"""``jumpblock library``: the coach's movements, to look through, to add to and to change."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from planner.cli.library_edit import add, edit
from planner.cli.output import Command, result, to_json
from planner.domain.terms import JOINTS, KINDS, LEVELS, PARTS, PATTERNS, QUALITIES, TIERS

if TYPE_CHECKING:
    from planner.domain.library import Library
    from planner.files.document import Loaded
    from planner.files.locate import Located

SCHEMA_NAMES = ("library", "athlete", "template", "benchmarks", "card-layout", "block")
_folder = click.option(
    "--library", type=click.Path(), help="Folder of movements [default: here or above, else the shipped one]."
)
_json = click.option("--json", "as_json", is_flag=True, help="Print it as data.")
_with = click.option(
    "--with", "kit", metavar="THINGS", help="What the gym has, such as barbell,rack,dumbbells; none for body weight."
)
_athlete = click.option("--athlete", type=click.Path(), help="An athlete's file: what that gym has.")


@click.group("library")
def command() -> None:
    """Look through the library, add a movement, change one.

    The library is the folder exercise_library of this folder or one above it, else the shipped one, which is not
    edited: `jumpblock start DIR` makes a copy of your own.
    """


@command.command("list", cls=Command)
@click.argument("words", nargs=-1)
@click.option("--quality", type=click.Choice(QUALITIES), help="Trains this quality.")
@click.option("--joint", type=click.Choice(JOINTS), help="Loads this joint.")
@click.option("--tag", type=click.IntRange(1, 3), default=1, help="With a tag of at least this [default: 1].")
@click.option("--equipment", multiple=True, metavar="THING", help="Uses this; may be given again.")
@_with
@_athlete
@click.option("--level", type=click.Choice(LEVELS), help="Of this level.")
@click.option("--up-to", type=click.Choice(LEVELS), help="Of this level or below.")
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
    """List movements; WORDS must stand in the name or the id, and every option must fit."""
    from planner.report.library_choice import Choice, chosen
    from planner.report.library_text import list_json, list_text

    known = read_library(locate(library, athlete)).require()
    things = _known_things(asked.pop("equipment"), known)
    choice = Choice(words=words, needs=things, has=_kit(kit, athlete, known), **asked)
    found = chosen(known, choice)
    result(to_json(list_json(found, known)) if as_json else list_text(found, known))


@command.command("show", cls=Command)
@click.argument("movement_id", metavar="ID")
@_folder
@_json
def show(movement_id: str, library: str | None, as_json: bool) -> None:
    """Show all of one movement: tags, dose, its chain, and what the templates make of it."""
    from planner.domain.findings import Finding, UserError
    from planner.files.check import known_templates
    from planner.files.suggest import did_you_mean
    from planner.report.library_text import movement_json, movement_text

    at = locate(library)
    known = read_library(at).require()
    movement = known.get(movement_id)
    if movement is None:
        hint = did_you_mean(movement_id, known.movements) or "jumpblock library list shows them all"
        message = f"the library {at.display} has no movement '{movement_id}'"
        raise UserError([Finding("", 0, 0, "unknown-movement", message, hint)])
    templates = known_templates(at.path)
    if as_json:
        result(to_json(movement_json(movement, known, templates)))
    else:
        result(movement_text(movement, known, templates))


@command.command("cover", cls=Command)
@_with
@_athlete
@_folder
@_json
def cover_command(kit: str | None, athlete: str | None, library: str | None, as_json: bool) -> None:
    """Show where the library is thin, for gyms as they are met or one athlete's, and which joints it leans on."""
    from planner.report.library_cover import cover, cover_json, cover_text

    known = read_library(locate(library, athlete)).require()
    own = _kit(kit, athlete, known)
    found = cover(known, None if own is None else {"this athlete's gym" if athlete else "these things": own})
    result(to_json(cover_json(found)) if as_json else cover_text(found, known, len(known)))


@command.command("schema", cls=Command)
@click.argument("name", type=click.Choice(SCHEMA_NAMES), default="library")
def schema_command(name: str) -> None:
    """Print the JSON Schema of a kind of file, for an editor that completes and checks as you type."""
    from planner.files.schema import schema

    result(to_json(schema(name)))


command.add_command(add)
command.add_command(edit)


def locate(library: str | None, athlete: str | None = None) -> Located:
    """The library asked for, else the one near the athlete's file, else near the working folder, else the shipped."""
    from planner.files.locate import locate_library

    return locate_library(library, athlete if athlete is not None else Path.cwd())


def read_library(at: Located) -> Loaded[Library]:
    from planner.files.load import load_library

    return load_library(at.path, at.display)


def _known_things(words: tuple[str, ...], library: Library) -> tuple[str, ...]:
    from planner.domain.findings import Finding, UserError
    from planner.files.suggest import did_you_mean

    things = tuple(thing.strip() for word in words for thing in word.split(",") if thing.strip())
    unknown = [
        Finding(
            "",
            0,
            0,
            "unknown-equipment",
            f"'{thing}' is not a known equipment",
            "--with none lists what needs nothing" if thing == "none" else did_you_mean(thing, library.equipment, 30),
        )
        for thing in things
        if thing not in library.equipment
    ]
    if unknown:
        raise UserError(unknown)
    return things


def _kit(kit: str | None, athlete: str | None, library: Library) -> frozenset[str] | None:
    """What the gym has: as listed, or as the athlete's file has it; None where nothing is said."""
    if kit is not None and athlete is not None:
        raise click.UsageError("give --with or --athlete, not both")
    if kit is not None:
        return frozenset(() if kit.strip() == "none" else _known_things((kit,), library))
    if athlete is None:
        return None
    from planner.files.load import load_athlete
    from planner.report.library_choice import kit_of

    return kit_of(load_athlete(athlete, library=library).require())
