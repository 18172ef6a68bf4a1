"""Where a library is thin and where it leans on one joint, for gyms as they are met and for one athlete's."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from planner.domain.library import Library
from planner.domain.movement import Movement
from planner.domain.terms import JOINTS, LEVELS, QUALITIES, Joint, Level, Quality
from planner.report.library_choice import in_full

# Gyms as they are met; None: has everything the library names. Common practice, no source.
KITS: dict[str, frozenset[str] | None] = {
    "full gym": None,
    "dumbbells and bands": frozenset({"dumbbells", "bands"}),
    "body weight": frozenset(),
}
# Two families a week and one to change to between phases; a session takes one movement of a family. Common practice.
FEWEST_MOVEMENTS, FEWEST_FAMILIES = 3, 2
# Points of a tag, convex as in the joint-stress rules. A joint with more than this share of all is over-represented:
# half as much again as an even share of five.
POINTS = {0: 0, 1: 1, 2: 2, 3: 4}
LARGEST_SHARE = 0.3


@dataclass(frozen=True)
class Cell:
    """What trains a quality in full at a level (that level and below) in one kit."""

    quality: Quality
    level: Level
    kit: str
    movements: tuple[str, ...]
    families: int

    @property
    def thin(self) -> bool:
        return len(self.movements) < FEWEST_MOVEMENTS or self.families < FEWEST_FAMILIES


@dataclass(frozen=True)
class JointLine:
    """How often a joint is tagged 1, 2 and 3, and its share of all points; ``heavy``: more than it should be."""

    joint: Joint
    counts: tuple[int, int, int]
    share: float

    @property
    def heavy(self) -> bool:
        return self.share > LARGEST_SHARE


@dataclass(frozen=True)
class Cover:
    kits: tuple[str, ...]
    cells: tuple[Cell, ...]
    joints: Mapping[str, tuple[JointLine, ...]]  # by kit

    @property
    def thin(self) -> list[Cell]:
        return [cell for cell in self.cells if cell.thin]


def cover(library: Library, kits: Mapping[str, frozenset[str] | None] = KITS) -> Cover:
    """Every cell of quality, level and kit. Movements that ask for a tested lift first are not counted upon."""
    cells = tuple(
        _cell(library, quality, level, name, kit)
        for quality in QUALITIES
        for level in LEVELS
        for name, kit in kits.items()
    )
    return Cover(tuple(kits), cells, {name: _joints(_at_hand(library, kit)) for name, kit in kits.items()})


def _at_hand(library: Library, kit: frozenset[str] | None) -> list[Movement]:
    return [m for m in library if kit is None or set(m.equipment) <= kit]


def _cell(library: Library, quality: Quality, level: Level, name: str, kit: frozenset[str] | None) -> Cell:
    up_to = LEVELS.index(level)
    open_to = [m for m in _at_hand(library, kit) if LEVELS.index(m.level) <= up_to and not m.requires]
    found = in_full(open_to, quality)
    return Cell(quality, level, name, tuple(m.id for m in found), len({library.families[m.id] for m in found}))


def _joints(movements: Sequence[Movement]) -> tuple[JointLine, ...]:
    points = {joint: sum(POINTS[m.stress.get(joint, 0)] for m in movements) for joint in JOINTS}
    total = sum(points.values()) or 1
    return tuple(
        JointLine(
            joint,
            (_tagged(movements, joint, 1), _tagged(movements, joint, 2), _tagged(movements, joint, 3)),
            points[joint] / total,
        )
        for joint in JOINTS
    )


def _tagged(movements: Sequence[Movement], joint: Joint, tag: int) -> int:
    return sum(1 for m in movements if m.stress.get(joint, 0) == tag)


def cover_text(found: Cover, library: Library, movements: int) -> str:
    """The table, the thin cells in words, and the joints."""
    lines = [
        f"{movements} movements. Those that train a quality in full (tag 3), up to each level, by what the gym has:",
        "",
    ]
    head = "".join(f"{kit:>22}" for kit in found.kits)
    lines.append(f"{'':<34}{head}".rstrip())
    for quality in QUALITIES:
        for level in LEVELS:
            row = [cell for cell in found.cells if (cell.quality, cell.level) == (quality, level)]
            counts = "".join(f"{_count(cell):>22}" for cell in row)
            lines.append(f"{quality if level == LEVELS[0] else '':<20}{level:<14}{counts}".rstrip())
    lines += ["", *_thin_lines(found), ""]
    for kit in found.kits:
        lines += [f"Joints, {kit}: how many movements are tagged 1, 2, 3, and the joint's share of all stress points"]
        for line in found.joints[kit]:
            heavy = "  over-represented" if line.heavy else ""
            lines.append(f"  {line.joint:<18}{'  '.join(f'{n:>4}' for n in line.counts)}   {line.share:>4.0%}{heavy}")
    return "\n".join(lines) + "\n"


def _count(cell: Cell) -> str:
    return f"{len(cell.movements)} in {cell.families}{' thin' if cell.thin else ''}"


def _thin_lines(found: Cover) -> list[str]:
    if not found.thin:
        return [
            f"No cell is thin: each has {FEWEST_MOVEMENTS} movements or more, of {FEWEST_FAMILIES} families or more."
        ]
    lines = [
        f"Thin (fewer than {FEWEST_MOVEMENTS} movements or {FEWEST_FAMILIES} families, shown as movements in families):"
    ]
    for cell in found.thin:
        there = ", ".join(cell.movements) or "nothing"
        lines.append(f"  {cell.quality}, {cell.level}, {cell.kit}: {there}")
    return lines


def cover_json(found: Cover) -> dict[str, Any]:
    return {
        "kits": list(found.kits),
        "cells": [
            {
                "quality": cell.quality,
                "level": cell.level,
                "kit": cell.kit,
                "movements": list(cell.movements),
                "families": cell.families,
                "thin": cell.thin,
            }
            for cell in found.cells
        ],
        "joints": [
            {
                "kit": kit,
                "joint": line.joint,
                "tagged": {"1": line.counts[0], "2": line.counts[1], "3": line.counts[2]},
                "share": round(line.share, 4),
                "over_represented": line.heavy,
            }
            for kit, lines in found.joints.items()
            for line in lines
        ],
    }
