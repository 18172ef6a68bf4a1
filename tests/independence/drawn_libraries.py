"""Libraries drawn from the shipped one: small ones, now and then with other tags or levels than it has."""

from __future__ import annotations

import random
from dataclasses import replace

from planner.domain.base import Tag
from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.terms import JOINTS, LIFT_QUALITIES, PATTERNS, Joint, Quality

MORE = (0, 0, 10, 30)  # movements beside those
MISSING_PATTERN = 0.06  # libraries that have nothing for one pattern
RETAGGED = 0.2  # libraries in which some movements are not as shipped


def drawn_library(draw: random.Random, whole: Library, *, sound: bool = False) -> Library:
    """Something plain for every place of a session, and some others; of those not ``sound`` some lack a pattern or
    have other tags.

    A place is a part, its patterns and what it trains first: of each one movement for anybody and one for some.
    """
    places: dict[tuple[object, ...], list[str]] = {}
    for movement in whole:
        plain = movement.level == "novice" and not movement.equipment and not movement.requires
        first = tuple(quality for quality, tag in sorted(movement.qualities.items()) if tag == 3)
        takes_off = (movement.take_off, movement.legs) if movement.part in ("approach-jump", "skill") else None
        places.setdefault((movement.part, movement.patterns, first, plain, takes_off), []).append(movement.id)
    kept = {name for place in sorted(places, key=str) for name in draw.sample(places[place], 1)}
    kept |= set(draw.sample(sorted(set(whole.movements) - kept), draw.choice(MORE)))
    if sound:
        return with_movements(whole, {name: whole[name] for name in whole.movements if name in kept})
    missing = draw.choice(PATTERNS) if draw.random() < MISSING_PATTERN else None
    found = {name: whole[name] for name in whole.movements if name in kept and missing not in whole[name].patterns}
    if draw.random() < RETAGGED:
        found = {name: _retagged(draw, movement) for name, movement in found.items()}
    return with_movements(whole, found)


def with_movements(library: Library, movements: dict[str, Movement]) -> Library:
    families = {name: family for name, family in library.families.items() if name in movements}
    return replace(library, movements=movements, families=families)


def without_first_tags(library: Library, quality: Quality) -> Library:
    """No movement trains this quality first of all: tag 3 becomes 2."""
    found = {}
    for movement in library:
        tag = movement.qualities.get(quality, 0)
        changed = {"qualities": {**movement.qualities, quality: 2}}
        found[movement.id] = movement.model_copy(update=changed) if tag == 3 else movement
    return with_movements(library, found)


def opened_drops(library: Library) -> Library:
    """Drop jumps that a novice's level and tier would allow: only the rule about drops keeps them out."""
    found = {}
    for movement in library:
        jump = movement.jump
        if jump is not None and jump.drop is not None and jump.rebound:
            low = jump.model_copy(update={"tier": "low"})
            movement = movement.model_copy(update={"jump": low, "level": "novice", "requires": (), "equipment": ()})
        found[movement.id] = movement
    return with_movements(library, found)


def _retagged(draw: random.Random, movement: Movement) -> Movement:
    """Now and then another level, a quality trained more or less, a joint stressed more or less."""
    changes: dict[str, object] = {}
    if draw.random() < 0.15:
        changes["level"] = draw.choice(["novice", "intermediate", "advanced"])
    if draw.random() < 0.1:
        joint: Joint = draw.choice(JOINTS)
        tag: Tag = draw.choice([1, 2, 3])
        changes["stress"] = {**movement.stress, joint: tag}
    if draw.random() < 0.1 and movement.kind in ("lift", "hold"):
        quality: Quality = draw.choice(LIFT_QUALITIES)
        changes["qualities"] = {**movement.qualities, quality: draw.choice([0, 1, 2, 3])}
    return movement.model_copy(update=changes) if changes else movement
