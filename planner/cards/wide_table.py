"""Tables on landscape pages: the first column and the heads bold, cells of several lines, the type as large as fits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.card_text import Run, TextBlock, Unbroken, draw_line, new_canvas
from planner.cards.fonts import Face, width_of
from planner.cards.glyphs import refuse_undrawable
from planner.cards.paper import Rectangle, paper_of
from planner.cards.picture_pages import Picture

_MARGIN, _HEAD, _FOOT = 28.0, 56.0, 14.0  # points
_SIZES = (10.0, 9.0, 8.0, 7.2, 6.5)  # smaller type cannot be read from a wall
_PAD = 2.5


@dataclass(frozen=True)
class WideTable:
    """``subtitle``: one line or two. ``shares``: of the width, a column each. ``rows`` have a text for each head."""

    title: str
    subtitle: str
    heads: Sequence[str]
    shares: Sequence[float]
    rows: Sequence[Sequence[str]]


@dataclass(frozen=True)
class _TableRow:
    cells: Sequence[TextBlock]

    @property
    def height(self) -> float:
        return max(cell.height for cell in self.cells) + 2 * _PAD


@dataclass(frozen=True)
class WidePicture:
    """A page of its own; ``picture`` is as wide as the page."""

    title: str
    subtitle: str
    picture: Picture


def draw_tables(tables: Sequence[WideTable], *, paper: str, pictures: Sequence[WidePicture] = ()) -> bytes:
    """A page for each table, more where its rows do not fit. UserError for a character that the font lacks."""
    for table in tables:
        cells = (text for row in table.rows for text in row)
        refuse_undrawable([table.title, *table.subtitle.split("\n"), *table.heads, *cells])
    height, width = sorted(paper_of(paper).sheet)
    buffer = BytesIO()
    title = tables[0].title if tables else pictures[0].title
    canvas = new_canvas(buffer, (width, height), title)
    frame = Rectangle(0, 0, width, height).inset(_MARGIN)
    pages = [(table, rows) for table in tables for rows in _pages(table, frame)]
    for number, (table, rows) in enumerate(pages, start=1):
        _draw_page(canvas, table, rows, frame)
        _end_page(canvas, frame, f"page {number} of {len(pages) + len(pictures)}")
    for number, one in enumerate(pictures, start=len(pages) + 1):
        _draw_heads(canvas, one.title, one.subtitle, frame)
        with marks.origin(canvas, frame.x, frame.top - _HEAD - one.picture.height):
            one.picture.draw(canvas, frame.width)
        _end_page(canvas, frame, f"page {number} of {len(pages) + len(pictures)}")
    canvas.save()
    return buffer.getvalue()


def _end_page(canvas: Canvas, frame: Rectangle, foot: str) -> None:
    draw_line(canvas, frame.right, frame.y, foot, size=7, align="right")
    canvas.showPage()


def _draw_heads(canvas: Canvas, title: str, subtitle: str, frame: Rectangle) -> None:
    draw_line(canvas, frame.x, frame.top - 13, title, size=15, face="bold", at_most=frame.width)
    for at, line in enumerate(subtitle.split("\n")):
        draw_line(canvas, frame.x, frame.top - 25 - 10.5 * at, line, size=8.5, at_most=frame.width)


def _pages(table: WideTable, frame: Rectangle) -> list[list[_TableRow]]:
    """The rows in the largest type in which they fit one page; else in the smallest, on several."""
    room = frame.height - _HEAD - _FOOT
    rows: list[_TableRow] = []
    for size in _SIZES:
        rows = [_row(table, row, frame.width, size) for row in table.rows]
        if sum(row.height for row in rows) <= room:
            return [rows]
    pages: list[list[_TableRow]] = [[]]
    for row in rows:
        if pages[-1] and sum(one.height for one in pages[-1]) + row.height > room:
            pages.append([])
        pages[-1].append(row)
    return pages


def _row(table: WideTable, row: Sequence[str], width: float, size: float) -> _TableRow:
    cells = zip(row, table.shares, strict=True)
    return _TableRow(
        [
            TextBlock(_runs(text, "regular" if at else "bold"), size=size, width=share * width - 2 * _PAD)
            for at, (text, share) in enumerate(cells)
        ]
    )


def _runs(text: str, face: Face) -> list[Run]:
    """What a comma parts stays on one line: a name, or a figure with its unit."""
    *first, last = text.split(", ")
    return [(face, Unbroken(part)) for part in (*(f"{one}," for one in first), last)]


def _draw_page(canvas: Canvas, table: WideTable, rows: Sequence[_TableRow], frame: Rectangle) -> None:
    _draw_heads(canvas, table.title, table.subtitle, frame)
    top = frame.top - _HEAD
    lefts = [frame.x + frame.width * sum(table.shares[:at]) for at in range(len(table.shares))]
    rooms = [share * frame.width - 2 * _PAD for share in table.shares]
    wide = max(width_of(head, "bold", 1) / room for head, room in zip(table.heads, rooms, strict=True))
    size = min(9.5, 0.999 / wide)  # of all heads, so that the longest has room
    for left, head, room in zip(lefts, table.heads, rooms, strict=True):
        draw_line(canvas, left + _PAD, top + 4, head, size=size, face="bold", at_most=room)
    marks.rule(canvas, frame.x, top, frame.width, marks.THICK)
    for row in rows:
        for left, cell in zip(lefts, row.cells, strict=True):
            cell.draw(canvas, left + _PAD, top - _PAD)
        top -= row.height
        marks.rule(canvas, frame.x, top, frame.width, marks.HAIR)
    for left in lefts[1:]:
        marks.upright(canvas, left, top, frame.top - _HEAD - top, marks.HAIR)
