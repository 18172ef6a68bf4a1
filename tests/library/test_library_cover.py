"""Whatever the level and the gym, the library has a movement for everything a week must train."""

from __future__ import annotations

import pytest

from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.terms import LEVELS, LIFT_QUALITIES, PATTERNS, QUALITIES, TIERS, Level, Part, Pattern, Quality

# Kits as they are met; None stands for a gym that has everything.
KITS: dict[str, frozenset[str] | None] = {
    "full gym": None,
    "dumbbells and bands": frozenset({"dumbbells", "bands"}),
    "body weight": frozenset(),
}
# Families of a part that a session may want at once: a session takes one movement of a family.
FAMILIES_WANTED: dict[Part, int] = {
    "landing": 3,
    "skill": 2,
    "approach-jump": 1,
    "sprint": 1,
    "jump": 2,
    "main-lift": 2,
    "one-leg": 2,
    "hamstring": 1,
    "calf": 2,
    "trunk": 2,
}
LEAST_OF_A_TIER = 5

cases = pytest.mark.parametrize("kit", KITS)
levels = pytest.mark.parametrize("level", LEVELS)


def usable(library: Library, level: Level, kit: str) -> list[Movement]:
    """Movements up to ``level`` that the kit allows, without those that ask for a tested squat first."""
    has = KITS[kit]
    return [
        m
        for m in library
        if LEVELS.index(m.level) <= LEVELS.index(level) and not m.requires and (has is None or set(m.equipment) <= has)
    ]


@cases
@levels
@pytest.mark.parametrize("pattern", PATTERNS)
def test_every_pattern_is_served(library: Library, level: Level, kit: str, pattern: Pattern) -> None:
    assert [m.id for m in usable(library, level, kit) if pattern in m.patterns]


@cases
@levels
@pytest.mark.parametrize("quality", QUALITIES)
def test_every_quality_is_trained_in_full(library: Library, level: Level, kit: str, quality: Quality) -> None:
    """Half of each budget comes from movements tagged 3, so each gym and level needs some."""
    in_full = [m for m in usable(library, level, kit) if m.qualities.get(quality) == 3]
    if quality == "speed-exposure":
        in_full = [m for m in in_full if m.kind in ("sprint", "jump")]
    else:
        in_full = [m for m in in_full if m.kind in ("lift", "hold")]
    assert in_full


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("quality", LIFT_QUALITIES)
def test_a_full_gym_has_lifts_of_the_level_itself(library: Library, level: Level, quality: Quality) -> None:
    assert [m.id for m in library if m.level == level and m.kind == "lift" and m.qualities.get(quality) == 3]


@cases
@levels
@pytest.mark.parametrize("part", FAMILIES_WANTED)
def test_sessions_find_enough_families(library: Library, level: Level, kit: str, part: Part) -> None:
    families = {library.families[m.id] for m in usable(library, level, kit) if m.part == part}
    assert len(families) >= FAMILIES_WANTED[part]


@cases
@levels
@pytest.mark.parametrize("legs", ["one", "both"])
def test_approach_jumps_for_both_take_offs(library: Library, level: Level, kit: str, legs: str) -> None:
    assert [m.id for m in usable(library, level, kit) if "approach" in m.patterns and m.legs == legs]


@pytest.mark.parametrize("tier", TIERS)
@pytest.mark.parametrize("legs", ["both", "one"])
def test_each_tier_has_two_leg_and_one_leg_jumps(library: Library, tier: str, legs: str) -> None:
    jumps = [m.id for m in library if m.kind == "jump" and m.jump and m.jump.tier == tier and m.legs == legs]
    assert len(jumps) >= LEAST_OF_A_TIER


@pytest.mark.parametrize(
    ("scheme", "pattern", "level"),
    [
        ("accommodating-lift", "squat", "intermediate"),
        ("accommodating-lift", "hinge", "intermediate"),
        ("partial-lift", "squat", "advanced"),
    ],
)
def test_special_lifts_open_at_their_level(library: Library, scheme: str, pattern: Pattern, level: Level) -> None:
    found = [m.level for m in library if m.dose.scheme == scheme and pattern in m.patterns]
    assert min(found, key=LEVELS.index) == level


def test_novices_meet_nothing_that_their_limits_forbid(library: Library) -> None:
    """No high tier, no rebound from a drop, no tendon or joint tag of 3: novice ceilings allow none."""
    novice = [m for m in library if m.level == "novice"]
    assert [m.id for m in novice if m.jump and (m.jump.tier == "high" or m.jump.rebound)] == []
    assert [m.id for m in novice if 3 in m.stress.values()] == []


def test_depth_jumps_and_partial_squats_ask_for_a_strong_squat(library: Library) -> None:
    """1.5 x body mass: for jumps, reviews of the NSCA position; for partial depth, common practice, no source."""
    deep = [m for m in library if m.jump and m.jump.drop and m.jump.rebound and m.level == "advanced"]
    partial = [m for m in library if m.dose.scheme == "partial-lift"]
    assert deep and partial
    assert [m.id for m in deep + partial if "back-squat >= 1.5 body mass" not in m.requires] == []
