"""The cards of one day of a squad, in the order of starting, each with its time and stations at the top."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO

from planner.cards import marks
from planner.cards.card_text import clean, draw_line, new_canvas
from planner.cards.glyphs import missing_glyphs
from planner.cards.grid import grid_on
from planner.cards.paper import paper_of
from planner.cards.session_card import Card, cards_of
from planner.cards.source import Source
from planner.domain.block import Block, Session, Week
from planner.domain.card_layout import CardLayout
from planner.domain.findings import UserError

_SIZE = 7.6


@dataclass(frozen=True)
class DayCard:
    """``when``: the line at the top, such as 16:30 Gym, rack 16:50. ``source``: the block's file."""

    block: Block
    week: Week
    session: Session
    when: str
    source: Source


def draw_day_cards(cards: Sequence[DayCard], layout: CardLayout, *, paper: str, title: str) -> bytes:
    """Cards close together on their sheets, in the order given. UserError as ``draw_cards`` raises it."""
    sheet_of = paper_of(paper)
    drawn: list[tuple[Card, str]] = []
    for one in cards:
        if findings := missing_glyphs(one.block, layout, one.source, one.source):
            raise UserError(findings)
        own = cards_of(one.block, one.week, one.session, layout, sheet_of.card(0), one.source)
        drawn += [(card, one.when) for card in own]
    buffer = BytesIO()
    canvas = new_canvas(buffer, sheet_of.sheet, title, layout.language)
    places = sheet_of.cards_a_sheet
    pages = [drawn[at : at + places] for at in range(0, len(drawn), places)]
    for number, page in enumerate(pages, start=1):
        canvas.setPageSize(sheet_of.sheet)
        for place, (card, when) in enumerate(page):
            frame = sheet_of.card(place)
            if card.number == 1:
                key = f"{card.block.id}-{card.session.id}"
                canvas.bookmarkPage(key)
                canvas.addOutlineEntry(clean(f"{when[:5]} {card.block.for_athlete.name}"), key, 0)
            card.draw(canvas, frame, f"{layout.words.page} {number} {layout.words.of} {len(pages)}")
            inner = grid_on(frame, layout.measures).frame
            baseline = inner.top + (frame.top - inner.top) * 0.35
            draw_line(canvas, inner.x, baseline, when, size=_SIZE, face="semibold", at_most=inner.width)
        if places == 2:
            marks.cut_line(canvas, sheet_of.sheet)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()
