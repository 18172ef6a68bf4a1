"""The coach's library: every movement of a folder's files, the families, and the words for equipment."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from planner.domain.library_review import LibraryReview
from planner.domain.movement import Movement
from planner.units import as_read_by


@dataclass(frozen=True)
class Library:
    """Movements in the order of their ids, whatever the order of files.

    ``families``: the family of each movement id; ``equipment``: the name of each equipment id; ``places``: where each
    movement id (and ``equipment:ID``) is written, as ``path:line``; ``review``: what its folder asks of it as a whole,
    None where the folder does not say.
    """

    movements: Mapping[str, Movement]
    families: Mapping[str, str]
    equipment: Mapping[str, str]
    places: Mapping[str, str] = field(default_factory=dict)
    review: LibraryReview | None = None

    def __iter__(self) -> Iterator[Movement]:
        return iter(self.movements.values())

    def __len__(self) -> int:
        return len(self.movements)

    def __contains__(self, movement_id: object) -> bool:
        return movement_id in self.movements

    def __getitem__(self, movement_id: str) -> Movement:
        return self.movements[movement_id]

    def called(self, name: str) -> list[str]:
        """The ids of the movements that have this id, this name or, among others, this trade name, whatever its case
        and hyphens."""
        wanted = _as_id(name)
        return [m.id for m in self if wanted in (m.id, *map(_as_id, _all_names(m)))]

    def read_by(self, length: Literal["cm", "in"], mass: Literal["kg", "lb"]) -> Library:
        """The same movements with the figures of their names and sentences in a reader's units."""
        if (length, mass) == ("cm", "kg"):
            return self
        told = {one.id: _in_units_of(one, length, mass) for one in self}
        return replace(self, movements=told)

    @property
    def names_inside(self) -> dict[str, str]:
        """The name of each movement as it is written inside a sentence."""
        return {one.id: one.name_inside for one in self}

    def get(self, movement_id: str) -> Movement | None:
        return self.movements.get(movement_id)


def _all_names(movement: Movement) -> Iterator[str]:
    """As the library writes them, and as a card in inches prints them."""
    for name in (movement.name, *movement.also):
        yield from (name, as_read_by(name, "in", "lb"))


def _in_units_of(movement: Movement, length: Literal["cm", "in"], mass: Literal["kg", "lb"]) -> Movement:
    def told(texts: Iterable[str]) -> tuple[str, ...]:
        return tuple(as_read_by(text, length, mass) for text in texts)

    texts: dict[str, object] = {"name": as_read_by(movement.name, length, mass), "also": told(movement.also)}
    texts |= {"cues": told(movement.cues), "cautions": told(movement.cautions)}
    same = all(getattr(movement, field) == value for field, value in texts.items())
    return movement if same else movement.model_copy(update=texts)


def _as_id(name: str) -> str:
    return "-".join(re.split(r"[\s_-]+", name.strip().lower()))
