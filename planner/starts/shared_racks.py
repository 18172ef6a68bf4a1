"""Who shares a rack: at most so many, with loads near one another."""

from __future__ import annotations

from collections.abc import Sequence

_ROUNDING_kg = 1e-6


def racks_needed(loads_kg: Sequence[float], share: int, spread_kg: float) -> int:
    """The fewest racks for these loads: the lightest opens one, and the next lightest join it while they may."""
    racks, first, room = 0, 0.0, 0
    for load in sorted(loads_kg):
        if room and load - first <= spread_kg + _ROUNDING_kg:
            room -= 1
            continue
        racks, first, room = racks + 1, load, share - 1
    return racks
