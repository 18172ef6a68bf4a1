"""A block's PDF: the overview and the sheets, then one or more cards a session. The same block gives the same bytes."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Literal, get_args

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.battery_sheet import battery_pages
from planner.cards.card_text import clean, new_canvas
from planner.cards.flow import Page
from planner.cards.glyphs import missing_glyphs
from planner.cards.movement_sheet import movement_pages
from planner.cards.overview import overview_pages
from planner.cards.paper import Paper, paper_of
from planner.cards.session_card import Card, cards_of
from planner.cards.source import NoFile, Source
from planner.domain.block import HISTORY, Block, Week
from planner.domain.card_layout import CardLayout
from planner.domain.findings import Finding, UserError
from planner.prescription.session_words import dated

SheetName = Literal["overview", "movements", "tests", "cards"]
SHEETS: tuple[SheetName, ...] = get_args(SheetName)
Sheet = list[Card]  # one side of paper with one or two cards; each week starts on a new one
_MADE, _MADE_LAYOUT = NoFile("block"), NoFile("card layout")


@dataclass(frozen=True)
class BookmarkedPages:
    """Pages without cards, with their bookmark."""

    name: SheetName
    title: str
    pages: list[Page]


def draw_cards(
    block: Block,
    *,
    paper: str,
    layout: CardLayout,
    week: int | None = None,
    session: int | None = None,
    since: datetime.date | None = None,
    sheets: Sequence[SheetName] = (),
    source: Source = _MADE,
    layout_source: Source = _MADE_LAYOUT,
    edited: bool = False,
    history: bool = False,
) -> bytes:
    """Draw a block as a PDF and return its bytes.

    ``paper`` is a4, letter (two cards a sheet), a5 or half-letter (one card). ``week`` or ``session`` (both count
    from 1) limit the PDF to their cards, ``since`` to those from that day on, ``sheets`` to the named sheets.
    ``source`` and ``layout_source``: the files that block and layout were read from, so that findings name lines.
    ``edited``: the block was edited by hand after it was solved, so the overview claims no proof.
    ``history``: the overview says what the athlete's joints have been through; left out, since it hangs on a wall.
    Raises UserError for an unknown paper, a week or session that the block does not have, a character without a
    glyph, or a text longer than a card or page.
    """
    sheet_of = paper_of(paper)
    wanted = tuple(sheets) or (SHEETS if (week, session, since) == (None, None, None) else ("cards",))
    history = history and "overview" in wanted
    findings = missing_glyphs(block, layout, source, layout_source, history=history)
    if findings:
        raise UserError(findings)
    shown = block if history else _without_history(block)
    chapters = [
        _chapter(name, shown, layout, sheet_of, edited) for name in SHEETS if name in wanted and name != "cards"
    ]
    for chapter in chapters:
        if any(page.overflows for page in chapter.pages):
            raise UserError([_too_long_a_text(chapter, source)])
    chosen = _chosen(block, week, session, since, source) if "cards" in wanted else []
    cards = _sheets(block, layout, sheet_of, chosen, source)
    buffer = BytesIO()
    canvas = _canvas(buffer, block, layout, sheet_of)
    _draw(canvas, chapters, cards, sheet_of, layout, block.for_athlete.name)
    canvas.save()
    return buffer.getvalue()


def _without_history(block: Block) -> Block:
    kept = tuple(caution for caution in block.cautions if not caution.startswith(HISTORY))
    return block.model_copy(update={"cautions": kept})


def _chapter(name: SheetName, block: Block, layout: CardLayout, paper: Paper, edited: bool) -> BookmarkedPages:
    if name == "overview":
        return BookmarkedPages(name, layout.overview.block, overview_pages(block, layout, paper, edited=edited))
    if name == "movements":
        return BookmarkedPages(name, layout.sheets.movements, movement_pages(block, layout, paper))
    return BookmarkedPages(name, layout.sheets.tests, battery_pages(block, layout, paper))


def _too_long_a_text(chapter: BookmarkedPages, source: Source) -> Finding:
    message = f"{chapter.title}: a text is longer than a page of this paper"
    return _nowhere(source, "page-text-too-long", message, "shorten it, or take a larger paper")


def _canvas(buffer: BytesIO, block: Block, layout: CardLayout, paper: Paper) -> Canvas:
    canvas = new_canvas(buffer, paper.sheet, f"{layout.overview.block}: {block.for_athlete.name}", layout.language)
    canvas.setSubject(clean(f"{layout.overview.target}: {block.for_athlete.target}"))
    canvas.showOutline()
    return canvas


def _chosen(
    block: Block, week: int | None, session: int | None, since: datetime.date | None, source: Source
) -> list[tuple[Week, list[int]]]:
    """The weeks to print, each with the places of its sessions (from 0)."""
    weeks = [one for one in block.weeks if week is None or one.number == week]
    if not weeks:
        numbers = f"{block.weeks[0].number} to {block.weeks[-1].number}"
        raise UserError([_nowhere(source, "no-week", f"the block has no week {week}", f"its weeks are {numbers}")])
    chosen = [
        (one, [place for place in range(len(one.sessions)) if session is None or place + 1 == session]) for one in weeks
    ]
    if session is not None and not any(places for _, places in chosen):
        most = max(len(one.sessions) for one in weeks)
        where = f"week {week}" if week is not None else "the block"
        message = f"{where} has no session {session}"
        raise UserError([_nowhere(source, "no-session", message, f"its sessions are 1 to {most}")])
    coming = [(one, [at for at in places if since is None or one.sessions[at].date >= since]) for one, places in chosen]
    if not any(places for _, places in coming):
        last = block.weeks[-1].sessions[-1].date
        hint = f"the last is on {last}"
        raise UserError([_nowhere(source, "no-session", f"the block has no session from {since} on", hint)])
    return coming


def _nowhere(source: Source, code: str, message: str, hint: str) -> Finding:
    """A finding without a line: what is not in the block has none."""
    return Finding(source.path, 0, 0, code, message, hint)


def _sheets(
    block: Block, layout: CardLayout, paper: Paper, chosen: list[tuple[Week, list[int]]], source: Source
) -> list[Sheet]:
    """Each week on its own sheets, unless weeks that share one save paper: three cards a week leave no half empty."""
    weeks = [
        [cards_of(block, one, one.sessions[place], layout, paper.card(0), source) for place in places]
        for one, places in chosen
    ]
    apart = [sheet for sessions in weeks for sheet in _on_sheets(sessions, paper.cards_a_sheet)]
    shared = _on_sheets([session for sessions in weeks for session in sessions], paper.cards_a_sheet)
    return shared if len(shared) < len(apart) else apart


def _on_sheets(sessions: list[list[Card]], cards_a_sheet: int) -> list[Sheet]:
    """Cards in order. A session's cards share a sheet unless that would take an extra sheet."""
    cards = [card for session in sessions for card in session]
    close = [cards[at : at + cards_a_sheet] for at in range(0, len(cards), cards_a_sheet)]
    together: list[Sheet] = []
    for session in sessions:
        if together and len(together[-1]) + len(session) <= cards_a_sheet:
            together[-1].extend(session)
        else:
            together += [session[at : at + cards_a_sheet] for at in range(0, len(session), cards_a_sheet)]
    return together if len(together) <= len(close) else close


def _draw(
    canvas: Canvas, chapters: list[BookmarkedPages], sheets: list[Sheet], paper: Paper, layout: CardLayout, who: str
) -> None:
    words, printed = layout.words, 0
    total = sum(len(chapter.pages) for chapter in chapters) + len(sheets)
    for chapter in chapters:
        for place, page in enumerate(chapter.pages):
            printed += 1
            canvas.setPageSize(paper.page)
            if place == 0:
                _bookmark(canvas, chapter.name, chapter.title, 0)
            page.draw(canvas)
            # Pages get separated on a wall or in a folder, so each names its athlete.
            page.draw_foot(canvas, f"{who} · {chapter.title}", f"{words.page} {printed} {words.of} {total}")
            canvas.showPage()
    marked_week = 0
    for number, sheet in enumerate(sheets, start=printed + 1):
        canvas.setPageSize(paper.sheet)
        for place, card in enumerate(sheet):
            marked_week = _mark_session(canvas, card, marked_week)
            card.draw(canvas, paper.card(place), f"{words.page} {number} {words.of} {total}")
        if paper.cards_a_sheet == 2:
            marks.cut_line(canvas, paper.sheet)
        canvas.showPage()


def _mark_session(canvas: Canvas, card: Card, marked_week: int) -> int:
    """Bookmark a session, and its week before the week's first session; return the week marked last."""
    if card.number > 1:
        return marked_week
    words, week, session = card.layout.words, card.week, card.session
    if week.number != marked_week:
        _bookmark(canvas, f"week-{week.number}", f"{words.week} {week.number}: {card.layout.roles[week.role]}", 0)
    number = week.sessions.index(session) + 1
    title = f"{words.session} {number}: {dated(session, card.block.for_athlete, card.layout)}"
    _bookmark(canvas, f"week-{week.number}-session-{number}", title, 1)
    return week.number


def _bookmark(canvas: Canvas, key: str, title: str, level: int) -> None:
    canvas.bookmarkPage(key)
    canvas.addOutlineEntry(clean(title), key, level, closed=level == 0)
