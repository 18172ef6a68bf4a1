"""Who shares a rack: up to a number of athletes, with loads near one another."""

from __future__ import annotations

from collections.abc import Sequence

_ROUNDING_kg = 1e-6


def racks_opened(loads_kg: Sequence[float], share: int, spread_kg: float) -> list[float]:
    """The lightest load of each rack, for the fewest racks: it opens one, and the next join it while they may."""
    opened: list[float] = []
    room = 0
    for load in sorted(loads_kg):
        if room and load - opened[-1] <= spread_kg + _ROUNDING_kg:
            room -= 1
            continue
        opened.append(load)
        room = share - 1
    return opened
