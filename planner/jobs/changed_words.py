"""Names, cues and cautions that changed in the library after a block was planned: a card prints the block's own."""

from __future__ import annotations

from pathlib import Path

from planner.domain.block import Block, Item
from planner.domain.block_parts import PACKAGED_PREFIX
from planner.domain.findings import Finding
from planner.domain.movement_library import Library
from planner.files.document import Loaded
from planner.files.load import load_library
from planner.files.locate import shown
from planner.jobs.block_references import follow

_MOST_NAMED = 3


def changed_words(loaded: Loaded[Block], folder: Path) -> list[Finding]:
    """A warning that names the movements; nothing where the library is the packaged one, or cannot be read."""
    block = loaded.require()
    place = follow(block.library.path, folder)
    if block.library.path.startswith(PACKAGED_PREFIX) or not place.is_dir():
        return []
    library = load_library(place, shown(place))
    if library.value is None or library.sha256 == block.library.sha256:
        return []
    now = library.value.read_by(block.for_athlete.length_unit, block.for_athlete.mass_unit)
    items = [item for session in block.sessions for item in session.items]
    others = list(dict.fromkeys(item.name for item in items if _says_otherwise(item, now)))
    if not others:
        return []
    more = f" and {len(others) - _MOST_NAMED} more" if len(others) > _MOST_NAMED else ""
    named = f"{'; '.join(others[:_MOST_NAMED])}{more}"
    message = f"the library's words have changed since this block was made, for {named}; the block's are printed"
    hint = "to print the new words: jumpblock plan again, or jumpblock revise for a block in use"
    return [loaded.finding(("library", "sha256"), "other-words", message, hint, level="warning")]


def _says_otherwise(item: Item, library: Library) -> bool:
    movement = library.get(item.movement)
    return movement is not None and (item.name, item.cues, item.cautions) != (
        movement.name,
        movement.cues,
        movement.cautions,
    )
