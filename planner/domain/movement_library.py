"""The coach's library: every movement of a folder's files, the families, and the words for equipment."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from planner.domain.library_review import LibraryReview
from planner.domain.movement import Movement


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
        wanted = _plain(name)
        return [m.id for m in self if wanted in (m.id, *map(_plain, (m.name, *m.also)))]

    def get(self, movement_id: str) -> Movement | None:
        return self.movements.get(movement_id)


def _plain(name: str) -> str:
    return "-".join(re.split(r"[\s_-]+", name.strip().lower()))
