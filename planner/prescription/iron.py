"""What the gym's own iron makes of a load: the plates a side, the dumbbells; and which loads it makes at all."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from planner.domain.block import AthleteLine, Gym, Item
from planner.units import UNITS

MassUnit = Literal["kg", "lb"]
TOLERANCE_kg = 0.02  # loads in a block are sums of plates to the gram, pounds among them; the finest plate is 250 g
# The smallest step that plates and dumbbells are stamped with; none of the one unit is whole in the other's steps.
_STEP: dict[MassUnit, float] = {"kg": 0.25, "lb": 0.5}


@dataclass(frozen=True)
class Built:
    """A load as it is put together, in kg: on a bar with ``plates_kg`` on each side, or as one or two dumbbells."""

    load_kg: float
    bar_kg: float | None = None
    plates_kg: tuple[float, ...] = ()
    dumbbells_kg: tuple[float, ...] = ()

    @property
    def pieces(self) -> int:
        return len(self.plates_kg)


def build(item: Item, gym: Gym | None, load_kg: float) -> Built | None:
    """How the gym makes this load for the item; None where it does not, or where nothing is built (a stack, bands)."""
    close = [one for one in loads(item, gym) if abs(one.load_kg - load_kg) <= TOLERANCE_kg]
    return min(close, key=lambda one: abs(one.load_kg - load_kg), default=None)


def nearest(item: Item, gym: Gym | None, load_kg: float) -> Built | None:
    """The nearest load that the gym makes for the item, the lighter of two as near; None where it makes none."""
    return min(loads(item, gym), key=lambda one: (abs(one.load_kg - load_kg), one.load_kg), default=None)


def loads(item: Item, gym: Gym | None) -> tuple[Built, ...]:
    """Every load that the gym makes for the item, lightest first; empty where it is not built of bar or dumbbells."""
    if gym is None:
        return ()
    if item.implement == "barbell" and gym.bar_kg is not None:
        return _on_bar(gym.bar_kg, gym.plates_kg)
    if item.implement == "dumbbell":
        return tuple(Built(one, dumbbells_kg=(one,)) for one in sorted(gym.dumbbells_kg))
    if item.implement == "pair-of-dumbbells":
        return tuple(Built(2 * one, dumbbells_kg=(one, one)) for one in sorted(gym.dumbbells_kg))
    return ()


@lru_cache(maxsize=64)
def _on_bar(bar_kg: float, pairs_kg: tuple[float, ...]) -> tuple[Built, ...]:
    """Every sum of the pairs of plates, each with the fewest plates, and of those the one with the heaviest first."""
    best: dict[float, tuple[float, ...]] = {0.0: ()}
    for plate in sorted(pairs_kg, reverse=True):
        for total, plates in list(best.items()):
            with_it = (*plates, plate)
            key = round(total + plate, 5)
            there = best.get(key)
            if there is None or (len(with_it), [-one for one in with_it]) < (len(there), [-one for one in there]):
                best[key] = with_it
    return tuple(Built(bar_kg + 2 * sum(plates), bar_kg, plates) for _, plates in sorted(best.items()))


def stamped_in(athlete: AthleteLine) -> MassUnit:
    """The unit that bar, plates and dumbbells are stamped in: all whole steps of it, else the athlete's own."""
    gym = athlete.gym
    masses = [*gym.plates_kg, *gym.dumbbells_kg, *([gym.bar_kg] if gym.bar_kg else [])] if gym else []
    order: tuple[MassUnit, ...] = ("kg", "lb") if athlete.mass_unit == "kg" else ("lb", "kg")
    return next((unit for unit in order if _whole(masses, unit)), athlete.mass_unit)


def _whole(masses_kg: Iterable[float], unit: MassUnit) -> bool:
    steps = [mass / UNITS["mass"][unit] / _STEP[unit] for mass in masses_kg]
    return all(abs(step - round(step)) < 1e-3 for step in steps)
