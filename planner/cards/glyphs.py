"""Every text that will be drawn, with its place, so that what the card font cannot draw is found beforehand."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator

from pydantic import BaseModel

from planner.cards.source import Path, Source
from planner.domain.block import HISTORY, Block, Item, Session
from planner.domain.card_layout import CardLayout
from planner.domain.findings import Finding, UserError

Placed = tuple[Path, str, str]
NO_LETTER = "no-letter"
HINT = "write it in Latin, Greek or Cyrillic letters, as cards print no others"
_MOST_NAMED = 8  # characters in one finding


def block_texts(block: Block) -> Iterator[Placed]:
    """Path in the block, place in words, and text of everything that a coach's files put on a card."""
    who, gap = block.for_athlete, block.gap
    yield ("for_athlete", "name"), "athlete name", who.name
    yield ("for_athlete", "target"), "target", who.target
    for at, test in enumerate(who.tests):
        told = [("movement", test.movement or ""), *(("how", one) for one in test.how), ("result", test.result)]
        for key, text in told:
            yield ("for_athlete", "tests", at, key), f"test of {test.date}", text
    yield ("gap", "method"), "gap method", gap.method
    yield ("gap", "contact_time_from"), "contact time", gap.contact_time_from
    yield from _each_of(("gap", "story"), "gap", gap.story)
    yield from _each_of(("gap", "notes"), "gap", gap.notes)
    for at, line in enumerate(gap.qualities):
        yield ("gap", "qualities", at, "unit"), f"{line.quality} unit", line.unit
    yield ("gap", "next_test"), "next test", gap.next_test or ""
    yield from _each_of(("cautions",), "caution", block.cautions)
    for at, shortfall in enumerate(block.shortfalls):
        yield ("shortfalls", at, "sentence"), "shortfall", shortfall.sentence
    for at, week in enumerate(block.weeks):
        for number, session in enumerate(week.sessions):
            yield from _session_texts(("weeks", at, "sessions", number), week.number, number + 1, session)


def _session_texts(path: Path, week: int, number: int, session: Session) -> Iterator[Placed]:
    where = f"week {week}, session {number}"
    yield (*path, "why"), f"{where}: why", session.why
    yield (*path, "focus"), f"{where}: focus", session.focus
    yield (*path, "title"), f"{where}: title", session.title or ""
    for at, item in enumerate(session.items):
        yield from _item_texts((*path, "items", at), where, item)


def _item_texts(path: Path, where: str, item: Item) -> Iterator[Placed]:
    yield (*path, "name"), f"movement name ({where})", item.name
    of = f"of '{item.name[:60]}' ({where})"
    yield from _each_of((*path, "cues"), f"cue {of}", item.cues)
    yield from _each_of((*path, "cautions"), f"caution {of}", item.cautions)
    yield (*path, "note"), f"note {of}", item.note or ""


def _each_of(path: Path, place: str, texts: Iterable[str]) -> Iterator[Placed]:
    for at, text in enumerate(texts):
        yield (*path, at), place, text


def layout_texts(layout: CardLayout) -> Iterator[Placed]:
    """The fixed words, placed by the key a coach would look for in the layout file."""
    yield from _strings((), layout)


def _strings(path: Path, value: object) -> Iterator[Placed]:
    if isinstance(value, str):
        yield path, f"card layout, {'.'.join(step for step in path if isinstance(step, str))}", value
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            yield from _strings((*path, name), getattr(value, name))
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from _strings((*path, key), inner)
    elif isinstance(value, tuple):
        for at, inner in enumerate(value):
            yield from _strings((*path, at), inner)


def missing_glyphs(
    block: Block, layout: CardLayout, source: Source, layout_source: Source, *, history: bool = False
) -> list[Finding]:
    """One finding for each text that cannot be drawn, on its line; a text that recurs every week is named once.

    ``history``: whether what the joints have been through is printed too.
    """
    from planner.cards.card_text import undrawable  # here, as a check of a block only wants to know its texts

    seen: set[str] = set()
    findings = []
    own = (one for one in block_texts(block) if history or not is_history(one))
    for file, texts in ((source, own), (layout_source, layout_texts(layout))):
        for path, place, text in texts:
            if text not in seen and (bad := undrawable(text)):
                findings.append(file.finding(path, NO_LETTER, f"{place}: {not_in_font(bad)}", HINT))
            seen.add(text)
    return findings


def refuse_undrawable(texts: Iterable[str]) -> None:
    """UserError that names every character of the texts that cannot be drawn, each once."""
    from planner.cards.card_text import undrawable

    missing = list(dict.fromkeys(character for text in texts for character in undrawable(text)))
    if missing:
        raise UserError([Finding("", 0, 0, NO_LETTER, not_in_font(missing), HINT)])


def is_history(placed: Placed) -> bool:
    """Whether it says what a joint has been through, which is printed only when it is asked for."""
    path, _, text = placed
    return path[0] == "cautions" and text.startswith(HISTORY)


def not_in_font(characters: list[str]) -> str:
    """The characters as they are, or by name where nothing would show, with their codes."""
    named = ", ".join(map(_with_code, characters[:_MOST_NAMED])) + (" …" if len(characters) > _MOST_NAMED else "")
    return f"the card font has no letter or sign for {named}"


def _with_code(character: str) -> str:
    code = f"U+{ord(character):04X}"
    if character.isprintable() and not unicodedata.combining(character):
        return f"'{character}' ({code})"
    return f"{code} ({unicodedata.name(character, 'unnamed').lower()})"
