"""Sections one below the other on as many pages as they need; what belongs together stays together."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from reportlab.pdfgen.canvas import Canvas

from planner.cards.card_text import draw_line
from planner.cards.grid import POINTS_PER_m
from planner.cards.marks import Drawable, height_of
from planner.cards.paper import Paper, Rectangle
from planner.domain.card_layout import CardLayout

_PAGE_LINE = 12.0  # points kept free for the page number
SPACE = 9.0


@dataclass
class Page:
    """A page of sections, each with its left and top edge."""

    frame: Rectangle
    sections: list[tuple[float, float, Drawable]] = field(default_factory=list)

    @property
    def room(self) -> float:
        """Points left below the lowest section; less than 0 where one runs off the foot of the page."""
        return min((top - section.height for _, top, section in self.sections), default=self.frame.top) - self.frame.y

    @property
    def overflows(self) -> bool:
        return self.room < -0.1

    def draw(self, canvas: Canvas) -> None:
        for x, top, section in self.sections:
            section.draw(canvas, x, top)

    def draw_foot(self, canvas: Canvas, left: str, number: str) -> None:
        """The line below the page: what it is of on the left, its number on the right."""
        width = draw_line(canvas, self.frame.right, self.frame.y - 11, number, size=7, align="right")
        draw_line(canvas, self.frame.x, self.frame.y - 11, left, size=7, at_most=self.frame.width - width - 12)


def page_frame(paper: Paper, layout: CardLayout) -> Rectangle:
    """The area inside the margins of a page without cards, keeping the line of the page number free."""
    margin = layout.measures.margin * POINTS_PER_m
    # A full page is read at a desk or on a wall: a wider margin looks better and leaves room to punch holes.
    if paper.cards_a_sheet == 2:
        margin *= 1.5
    whole = Rectangle(0, 0, *paper.page).inset(margin)
    return Rectangle(whole.x, whole.y + _PAGE_LINE, whole.width, whole.height - _PAGE_LINE)


def flow(
    groups: Iterable[list[Drawable]],
    frame: Rectangle,
    *,
    space: float = SPACE,
    title: Drawable | None = None,
    lefts: Sequence[float] = (),
) -> list[Page]:
    """Lay out groups without splitting any over two pages. A group taller than a page starts one and overflows it.

    ``title``: above the columns of the first page. ``lefts``: the left edges of the columns, if there are several.
    """
    pages = [Page(frame, [] if title is None else [(frame.x, frame.top, title)])]
    first = top = frame.top - (0.0 if title is None else title.height + space)
    lefts, column = lefts or (frame.x,), 0
    for group in groups:
        if top - height_of(group) < frame.y and top < first:
            column += 1
            if column == len(lefts):
                pages.append(Page(frame))
                column, first = 0, frame.top
            top = first
        for section in group:
            pages[-1].sections.append((lefts[column], top, section))
            top -= section.height
        top -= space
    return pages
