"""Every text that will be drawn, with its place: what the card font cannot draw is a finding beforehand."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

from pydantic import BaseModel

from planner.cards.dates import title_of
from planner.cards.text import undrawable
from planner.domain.block import Block
from planner.domain.card_layout import CardLayout
from planner.domain.findings import Finding

Placed = tuple[str, str]


def block_texts(block: Block) -> Iterator[Placed]:
    """Place and text of all that a coach's files put on a card."""
    yield "athlete name", block.for_athlete.name
    yield "target", block.for_athlete.target
    for test in block.for_athlete.tests:
        for text in (test.movement or "", *test.how, test.result):
            yield f"test of {test.date}", text
    for place, sentences in (("gap", block.gap.story), ("gap", block.gap.notes), ("caution", block.cautions)):
        for sentence in sentences:
            yield place, sentence
    yield "gap method", block.gap.method
    yield "contact time", block.gap.contact_time_from
    for line in block.gap.qualities:
        yield f"{line.quality} unit", line.unit
    yield "next test", block.gap.next_test or ""
    for shortfall in block.shortfalls:
        yield "shortfall", shortfall.sentence
    for week in block.weeks:
        yield f"week {week.number} phase", week.phase
        for number, session in enumerate(week.sessions, start=1):
            where = f"week {week.number}, session {number}"
            yield f"{where}: why", session.why
            yield f"{where}: title", title_of(session)
            for item in session.items:
                yield f"movement name ({where})", item.name
                for kind, texts in (("cue", item.cues), ("caution", item.cautions), ("note", (item.note or "",))):
                    for text in texts:
                        yield f"{kind} of '{item.name[:60]}' ({where})", text


def layout_texts(layout: CardLayout) -> Iterator[Placed]:
    """Place and text of the fixed words, by the key a coach would look for in the layout file."""
    yield from _strings("", layout)


def _strings(place: str, value: object) -> Iterator[Placed]:
    if isinstance(value, str):
        yield f"card layout, {place}", value
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from _strings(f"{place}.{name}".lstrip("."), getattr(value, name))
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from _strings(f"{place}.{key}", inner)
    elif isinstance(value, tuple):
        for inner in value:
            yield from _strings(place, inner)


def missing_glyphs(block: Block, layout: CardLayout, source: str) -> list[Finding]:
    """One finding a text that cannot be drawn; a text that comes back in every week is named once."""
    seen: set[str] = set()
    findings = []
    for place, text in (*block_texts(block), *layout_texts(layout)):
        bad = undrawable(text) if text not in seen else []
        seen.add(text)
        if bad:
            named = ", ".join(_named(character) for character in bad[:8]) + (" …" if len(bad) > 8 else "")
            findings.append(
                Finding(
                    source,
                    0,
                    0,
                    "no-glyph",
                    f"{place}: the card font has no glyph for {named}",
                    "write it in Latin, Greek or Cyrillic letters",
                )
            )
    return findings


def _named(character: str) -> str:
    shown = f"'{character}' " if character.isprintable() and not unicodedata.combining(character) else ""
    return f"{shown}(U+{ord(character):04X} {unicodedata.name(character, 'unnamed').lower()})"
