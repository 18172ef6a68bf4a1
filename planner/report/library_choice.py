"""Choose movements by what a coach asks for: quality, joint, equipment, level, kind, legs and so on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.terms import LEVELS, Joint, Kind, Legs, Level, Part, Pattern, Quality, Tier

FULL = 3  # the tag of a movement that trains a quality in full


@dataclass(frozen=True)
class Choice:
    """What is asked for; None or empty asks nothing. ``quality`` and ``joint``: with a tag of at least ``tag``.

    ``has``: what the gym has; a movement that needs more is left out. ``needs``: the movement uses all of these.
    """

    quality: Quality | None = None
    joint: Joint | None = None
    tag: int = 1
    needs: tuple[str, ...] = ()
    has: frozenset[str] | None = None
    level: Level | None = None
    up_to: Level | None = None
    kind: Kind | None = None
    legs: Legs | None = None
    pattern: Pattern | None = None
    part: Part | None = None
    tier: Tier | None = None
    family: str | None = None
    words: tuple[str, ...] = ()


def chosen(library: Library, choice: Choice) -> list[Movement]:
    """The movements that fit, sorted by family and level."""
    fitting = [m for m in library if _fits(m, library.families[m.id], choice)]
    return sorted(fitting, key=lambda m: (library.families[m.id], LEVELS.index(m.level), m.id))


def _fits(m: Movement, family: str, choice: Choice) -> bool:
    wanted: list[tuple[object, object]] = [
        (choice.level, m.level),
        (choice.kind, m.kind),
        (choice.legs, m.legs),
        (choice.part, m.part),
        (choice.tier, m.jump.tier if m.jump else None),
        (choice.family, family),
    ]
    return (
        all(asked is None or asked == own for asked, own in wanted)
        and (choice.quality is None or m.qualities.get(choice.quality, 0) >= choice.tag)
        and (choice.joint is None or m.stress.get(choice.joint, 0) >= choice.tag)
        and (choice.pattern is None or choice.pattern in m.patterns)
        and (choice.up_to is None or LEVELS.index(m.level) <= LEVELS.index(choice.up_to))
        and set(choice.needs) <= set(m.equipment)
        and (choice.has is None or set(m.equipment) <= choice.has)
        and all(word.casefold() in " ".join((m.id, m.name, *m.also)).casefold() for word in choice.words)
    )


def in_full(movements: Iterable[Movement], quality: Quality) -> list[Movement]:
    """Those that train the quality in full, in the currency that counts it: half of each budget comes from them."""
    counted = ("sprint", "jump") if quality == "speed-exposure" else ("lift", "hold")
    return [m for m in movements if m.qualities.get(quality) == FULL and m.kind in counted]
