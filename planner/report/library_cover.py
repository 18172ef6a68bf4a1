"""Where a library is thin and where it leans on one joint, for typical gyms and for one athlete's."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from planner.domain.library_review import JointShare, LeastCover
from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.terms import JOINTS, LEVELS, QUALITIES, Joint, Level, Quality
from planner.files.load import review_of
from planner.report.library_choice import in_full
from planner.report.terminal import fit, table


@dataclass(frozen=True)
class CoverCell:
    """What trains a quality in full up to a level with one kit; ``thin``: less than the review asks for."""

    quality: Quality
    level: Level
    kit: str
    movements: tuple[str, ...]
    families: int
    thin: bool


@dataclass(frozen=True)
class JointLine:
    """How often a joint is tagged 1, 2 and 3, and its share of all points; ``heavy``: above what the review allows."""

    joint: Joint
    counts: tuple[int, ...]
    share: float
    heavy: bool


@dataclass(frozen=True)
class Cover:
    kits: tuple[str, ...]
    asked: LeastCover
    cells: tuple[CoverCell, ...]
    joints: Mapping[str, tuple[JointLine, ...]]  # by kit

    @property
    def thin(self) -> list[CoverCell]:
        return [cell for cell in self.cells if cell.thin]


def cover(library: Library, more_kits: Mapping[str, frozenset[str]] | None = None) -> Cover:
    """Every cell of quality, level and kit, for the kits of the library's review and ``more_kits``.

    Movements that require a tested lift first do not count.
    """
    review = review_of(library)
    kits: dict[str, frozenset[str] | None] = {
        gym.name: None if gym.has is None else frozenset(gym.has) for gym in review.gyms
    }
    kits |= more_kits or {}
    cells = tuple(
        _cell(library, quality, level, name, kit, review.cover)
        for quality in QUALITIES
        for level in LEVELS
        for name, kit in kits.items()
    )
    joints = {name: _joints(_at_hand(library, kit), review.joints) for name, kit in kits.items()}
    return Cover(tuple(kits), review.cover, cells, joints)


def _at_hand(library: Library, kit: frozenset[str] | None) -> list[Movement]:
    return [m for m in library if kit is None or set(m.equipment) <= kit]


def _cell(
    library: Library, quality: Quality, level: Level, name: str, kit: frozenset[str] | None, asked: LeastCover
) -> CoverCell:
    up_to = LEVELS.index(level)
    open_to = [m for m in _at_hand(library, kit) if LEVELS.index(m.level) <= up_to and not m.requires]
    found = in_full(open_to, quality)
    families = len({library.families[m.id] for m in found})
    thin = len(found) < asked.least_movements or families < asked.least_families
    return CoverCell(quality, level, name, tuple(m.id for m in found), families, thin)


def _joints(movements: Sequence[Movement], asked: JointShare) -> tuple[JointLine, ...]:
    tags = {joint: Counter(m.stress.get(joint, 0) for m in movements) for joint in JOINTS}
    points = {joint: sum(weight * tags[joint][tag] for tag, weight in enumerate(asked.weights, 1)) for joint in JOINTS}
    shares = {joint: own / (sum(points.values()) or 1) for joint, own in points.items()}
    return tuple(
        JointLine(joint, tuple(tags[joint][tag] for tag in (1, 2, 3)), share, share > asked.largest_share)
        for joint, share in shares.items()
    )


def cover_text(found: Cover, movements: int) -> str:
    """The table, the thin cells in words, and the joints."""
    lines = [
        f"{movements} movements. Those that train a quality in full (tag 3), up to each level, by what the gym has:",
        "",
    ]
    rows = [["", *found.kits]]
    for quality in QUALITIES:
        for level in LEVELS:
            row = [cell for cell in found.cells if (cell.quality, cell.level) == (quality, level)]
            rows.append([f"{quality}, {level}", *map(_count, row)])
    lines += [table(rows)]
    lines += ["", *_thin_lines(found), ""]
    for kit in found.kits:
        lines += [f"Joints, {kit}: how many movements are tagged 1, 2, 3, and the joint's share of all stress points"]
        for line in found.joints[kit]:
            heavy = "  over-represented" if line.heavy else ""
            lines.append(f"  {line.joint:<18}{'  '.join(f'{n:>4}' for n in line.counts)}   {line.share:>4.0%}{heavy}")
    lines += [
        "",
        "What counts as thin or over-represented is set in the library's review.yaml, else in the shipped one.",
    ]
    return fit("\n".join(lines) + "\n")


def _count(cell: CoverCell) -> str:
    return f"{len(cell.movements)} in {cell.families}{' thin' if cell.thin else ''}"


def _thin_lines(found: Cover) -> list[str]:
    movements, families = found.asked.least_movements, found.asked.least_families
    if not found.thin:
        return [f"No cell is thin: each has {movements} movements or more, of {families} families or more."]
    lines = [f"Thin (fewer than {movements} movements or {families} families, shown as movements in families):"]
    for cell in found.thin:
        there = ", ".join(cell.movements) or "nothing"
        lines.append(f"  {cell.quality}, {cell.level}, {cell.kit}: {there}")
    return lines


def cover_json(found: Cover) -> dict[str, Any]:
    return {
        "kits": list(found.kits),
        "cells": [asdict(cell) for cell in found.cells],
        "joints": [
            {
                "kit": kit,
                "joint": line.joint,
                "tagged": {str(tag): count for tag, count in enumerate(line.counts, 1)},
                "share": round(line.share, 4),
                "over_represented": line.heavy,
            }
            for kit, lines in found.joints.items()
            for line in lines
        ],
    }
