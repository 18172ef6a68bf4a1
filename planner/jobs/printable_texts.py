"""What files put on cards and the card font cannot draw, told when the file is checked and not at the printer."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from planner.domain.athlete import Athlete
from planner.domain.block import Block
from planner.domain.card_layout import CardLayout
from planner.domain.findings import Finding
from planner.domain.movement_library import Library
from planner.files.document import Loaded
from planner.files.tree import Path

# Latin letters with their accents, and signs of our own words; the font has them all: a test holds that.
SURE = frozenset([*filter(str.isprintable, map(chr, range(0x17F))), *"–…−≤≥’"])


def unprintable_athlete(loaded: Loaded[Athlete]) -> list[Finding]:
    """The name and the reasons of what the coach allows: a block takes them over. A history is seldom printed."""
    athlete = loaded.require()
    placed: list[tuple[Path, str]] = [(("name",), athlete.name)]
    placed += [(("allow", at, "reason"), allowance.reason) for at, allowance in enumerate(athlete.allow)]
    return _unprintable(loaded, placed)


def unprintable_block(loaded: Loaded[Block]) -> list[Finding]:
    from planner.cards.glyphs import block_texts, is_history

    texts = (placed for placed in block_texts(loaded.require()) if not is_history(placed))
    return _unprintable(loaded, ((path, text) for path, _, text in texts))


def unprintable_layout(loaded: Loaded[Any], layout: CardLayout) -> list[Finding]:
    from planner.cards.glyphs import layout_texts

    return _unprintable(loaded, ((path, text) for path, _, text in layout_texts(layout)))


def unprintable_movements(loaded: Loaded[Library]) -> list[Finding]:
    """Names, cues and cautions; none where the library has errors of its own."""
    placed: list[tuple[Path, str]] = []
    for movement in loaded.value or ():
        placed.append(((movement.id, "name"), movement.name))
        for field, texts in (("cues", movement.cues), ("cautions", movement.cautions)):
            placed += [((movement.id, field, at), text) for at, text in enumerate(texts)]
    return _unprintable(loaded, placed)


def _unprintable(loaded: Loaded[Any], placed: Iterable[tuple[Path, str]]) -> list[Finding]:
    """A finding for each text that cannot be printed; one that recurs is named once."""
    doubtful: dict[str, Path] = {}
    for path, text in placed:
        if not SURE.issuperset(text):
            doubtful.setdefault(text, path)
    if not doubtful:
        return []
    from planner.cards.card_text import undrawable  # here, as few files need the fonts to be loaded
    from planner.cards.glyphs import HINT, NO_LETTER, not_in_font

    return [
        loaded.finding(path, NO_LETTER, not_in_font(bad), HINT, level="warning")
        for text, path in doubtful.items()
        if (bad := undrawable(text))
    ]
