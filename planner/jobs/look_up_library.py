"""What a coach asks of a library by name: the library itself, a movement, things of a gym."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from planner.domain.findings import Finding, UserError
from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.estimate.words import Words, words_of
from planner.files.load import load_athlete, load_library
from planner.files.locate import Located, locate_library
from planner.files.suggest import did_you_mean, movement_hint


def library_at(library: str | None, athlete: str | None = None) -> Located:
    """The library asked for, else the one near the athlete's file, else near the working folder, else the shipped."""
    return locate_library(library, athlete if athlete is not None else Path.cwd())


def own_library(library: str | None) -> Located:
    """The coach's own library. Raises UserError where there is only the shipped one."""
    at = library_at(library)
    if at.is_packaged:
        message = "there is no library of your own here, and the shipped one cannot be edited"
        hint = "make one with jumpblock start DIR and run this inside it, or name its folder with --library"
        raise UserError([Finding("", 0, 0, "no-library", message, hint)])
    return at


def read_library(at: Located) -> Library:
    """Raises UserError with every finding where the library has an error."""
    return load_library(at.path, at.display).require()


def movement_named(movement_id: str, library: Library, at: Located) -> Movement:
    """The movement of this id, or the only one of this name. Raises UserError, with what comes near, otherwise."""
    called = library.called(movement_id)
    movement = library.get(called[0] if len(called) == 1 else movement_id)
    if movement is None:
        hint = movement_hint(movement_id, library) or "jumpblock library list shows them all"
        message = f"the library {at.display} has no movement '{movement_id}'"
        raise UserError([Finding("", 0, 0, "unknown-movement", message, hint)])
    return movement


def id_named(name: str, at: Located) -> str:
    """The id of the movement of this id or name; the name itself in a library with errors, which may be edited too."""
    library = load_library(at.path, at.display).value
    return name if library is None else movement_named(name, library, at).id


def things_named(words: Iterable[str], library: Library) -> tuple[str, ...]:
    """Equipment by its ids, several in a word with commas between. Raises UserError for each that is unknown."""
    things = tuple(thing.strip() for word in words for thing in word.split(",") if thing.strip())
    unknown = [_unknown_thing(thing, library) for thing in things if thing not in library.equipment]
    if unknown:
        raise UserError(unknown)
    return things


def _unknown_thing(thing: str, library: Library) -> Finding:
    nothing = "--with none lists what needs nothing" if thing == "none" else None
    hint = nothing or did_you_mean(thing, library.equipment, 30)
    return Finding("", 0, 0, "unknown-equipment", f"the library has no equipment called '{thing}'", hint)


def words_for(athlete: str | None, library: Library) -> Words:
    """The units that the athlete's file is written in; metric ones without an athlete, as the library is written."""
    return Words() if athlete is None else words_of(load_athlete(athlete, library=library).require())


def gym_kit(kit: str | None, athlete: str | None, library: Library) -> frozenset[str] | None:
    """What the gym has: as listed, else as the athlete's file has it; None where neither is given."""
    if kit is not None:
        return frozenset(() if kit.strip() == "none" else things_named((kit,), library))
    return None if athlete is None else load_athlete(athlete, library=library).require().equipment.kit
