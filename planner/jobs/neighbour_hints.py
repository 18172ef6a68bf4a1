"""What would join a movement to its easier and harder neighbours, after a change to the library."""

from __future__ import annotations

from collections.abc import Sequence

from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.terms import LEVELS
from planner.files.edit_library import LibraryChange


def neighbour_hints(change: LibraryChange, movement_id: str, added: bool) -> Sequence[str]:
    """Neighbours that do not lead back, each with the command that makes them.

    ``added``: the movement is new; where it names no neighbour, the one hint is the command that names one.
    """
    library = change.loaded.value
    movement = library.get(movement_id) if library is not None else None
    if library is None or movement is None:
        return []
    if added and movement.easier is None and movement.harder is None:
        return _first_neighbour(movement, library)
    found = []
    for own, back in (("easier", "harder"), ("harder", "easier")):
        other = getattr(movement, own)
        beyond = getattr(library[other], back) if other is not None else None
        if other is None or beyond == movement_id:
            continue
        found.append(
            f"'{other}' has {beyond or 'nothing'} as its {back}; to point it here: "
            f"jumpblock library edit {other} {back}={movement_id}"
        )
        if beyond is not None and getattr(movement, back) is None:
            found.append(f"and on from here: jumpblock library edit {movement_id} {back}={beyond}")
    return found


def _first_neighbour(movement: Movement, library: Library) -> Sequence[str]:
    """How to put a movement into a chain, with the nearest of its family that is no harder as the example."""
    family = [
        other
        for other in library
        if other.id != movement.id
        and library.families[other.id] == library.families[movement.id]
        and LEVELS.index(other.level) <= LEVELS.index(movement.level)
    ]
    if not family:
        return []
    nearest = max(family, key=lambda other: (LEVELS.index(other.level), other.harder is None, other.id))
    command = f"jumpblock library edit {movement.id} easier={nearest.id}"
    return [f"It is not in a chain yet. To name an easier or harder neighbour, for example: {command}"]
