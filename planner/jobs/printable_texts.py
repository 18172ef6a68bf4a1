"""What files put on cards and the card font cannot draw, told when the file is checked and not at the printer."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from planner.domain.athlete import Athlete
from planner.domain.findings import Finding
from planner.domain.movement_library import Library
from planner.files.document import Loaded
from planner.files.tree import Path

SURE = 0x17F  # below it are Latin letters with their accents, which the font has: a test holds that


def unprintable_athlete(loaded: Loaded[Athlete]) -> list[Finding]:
    return _unprintable(loaded, [(("name",), loaded.require().name)])


def unprintable_movements(loaded: Loaded[Library]) -> list[Finding]:
    """Names, cues and cautions; none where the library has errors of its own."""
    placed: list[tuple[Path, str]] = []
    for movement in loaded.value or ():
        placed.append(((movement.id, "name"), movement.name))
        for field, texts in (("cues", movement.cues), ("cautions", movement.cautions)):
            placed += [((movement.id, field, at), text) for at, text in enumerate(texts)]
    return _unprintable(loaded, placed)


def _unprintable(loaded: Loaded[Any], placed: Iterable[tuple[Path, str]]) -> list[Finding]:
    doubtful = [
        (path, text) for path, text in placed if not text.isprintable() or max(map(ord, text), default=0) >= SURE
    ]
    if not doubtful:
        return []
    from planner.cards.card_text import undrawable  # here, as few files need the fonts to be loaded
    from planner.cards.glyphs import HINT, all_named

    return [
        loaded.finding(path, "no-glyph", f"the card font has no glyph for {all_named(bad)}", HINT, level="warning")
        for path, text in doubtful
        if (bad := undrawable(text))
    ]
