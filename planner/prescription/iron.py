"""How to build a load from the gym's own iron (plates a side, dumbbells), and which loads are possible at all."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from planner.domain.block import AthleteLine, Gym, Item
from planner.units import UNITS

MassUnit = Literal["kg", "lb"]
TOLERANCE_kg = 0.02  # a block's loads are plate sums rounded to the gram, pounds included; the finest plate is 250 g
# The finest step stamped on plates and dumbbells. No kg plate is a whole number of lb steps, nor the other way round.
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
    """How to build this load for the item; None if the gym cannot, or if nothing is built (a weight stack, bands)."""
    close = [one for one in loads(item, gym) if abs(one.load_kg - load_kg) <= TOLERANCE_kg]
    return min(close, key=lambda one: abs(one.load_kg - load_kg), default=None)


def nearest(item: Item, gym: Gym | None, load_kg: float) -> Built | None:
    """The nearest load that the gym can build for the item, the lighter one on a tie; None if it can build none."""
    return min(loads(item, gym), key=lambda one: (abs(one.load_kg - load_kg), one.load_kg), default=None)


def loads(item: Item, gym: Gym | None) -> tuple[Built, ...]:
    """Every load that the gym can build for the item, lightest first; empty if it uses neither bar nor dumbbells."""
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
    """Every sum of the plate pairs, each built from the fewest plates; on a tie, the one with the heavier plates."""
    best: dict[float, tuple[float, ...]] = {0.0: ()}
    for plate in sorted(pairs_kg, reverse=True):
        for plates in list(best.values()):
            with_it = (*plates, plate)
            key = round(sum(with_it), 4)  # of the plates themselves: pounds rounded at each step would drift apart
            there = best.get(key)
            if there is None or (len(with_it), [-one for one in with_it]) < (len(there), [-one for one in there]):
                best[key] = with_it
    return tuple(Built(bar_kg + 2 * sum(plates), bar_kg, plates) for _, plates in sorted(best.items()))


def stamped_in(athlete: AthleteLine) -> MassUnit:
    """The unit that bar, plates and dumbbells are stamped in (all are whole steps of it), else the athlete's unit."""
    gym = athlete.gym
    masses = [*gym.plates_kg, *gym.dumbbells_kg, *([gym.bar_kg] if gym.bar_kg else [])] if gym else []
    order: tuple[MassUnit, ...] = ("kg", "lb") if athlete.mass_unit == "kg" else ("lb", "kg")
    return next((unit for unit in order if _whole(masses, unit)), athlete.mass_unit)


def _whole(masses_kg: Iterable[float], unit: MassUnit) -> bool:
    steps = [mass / UNITS["mass"][unit] / _STEP[unit] for mass in masses_kg]
    return all(abs(step - round(step)) < 1e-3 for step in steps)
