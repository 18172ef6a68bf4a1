"""The overview: who, what for, the gap, the weeks at a glance, the work per week, the proof and the cautions."""

from __future__ import annotations

from dataclasses import dataclass, field

from reportlab.pdfgen.canvas import Canvas

from planner.cards.calendar_grid import CalendarGrid
from planner.cards.dose_charts import chart_rows
from planner.cards.gap_section import GapSection, QualitiesTable
from planner.cards.grid import POINTS_PER_m
from planner.cards.marks import Drawable
from planner.cards.overview_text import Heading, Title, closing_sections
from planner.cards.paper import Frame, Paper
from planner.domain.block import Block
from planner.domain.card_layout import CardLayout

_PAGE_LINE = 12.0  # points kept free for the page number
SPACE = 9.0


@dataclass
class OverviewPage:
    """A page of sections, each with the top edge it is drawn from."""

    size: tuple[float, float]
    frame: Frame
    sections: list[tuple[float, Drawable]] = field(default_factory=list)

    def draw(self, canvas: Canvas) -> None:
        for top, section in self.sections:
            section.draw(canvas, self.frame.x, top)


def overview_pages(block: Block, layout: CardLayout, paper: Paper) -> list[OverviewPage]:
    """Lay the overview out on as many pages as it takes: two of A4 or letter, more of the small sizes.

    A heading stays with what follows it, and no section is split.
    """
    frame = _frame(paper, layout)
    pages = [OverviewPage(paper.page, frame)]
    top = frame.top
    for group in _groups(block, layout, frame.width):
        height = sum(section.height for section in group) + SPACE
        if top - height < frame.y and pages[-1].sections:
            pages.append(OverviewPage(paper.page, frame))
            top = frame.top
        for section in group:
            pages[-1].sections.append((top, section))
            top -= section.height
        top -= SPACE
    return pages


def _frame(paper: Paper, layout: CardLayout) -> Frame:
    margin = layout.measures.margin * POINTS_PER_m
    # A full page is read at a desk: a wider margin looks better, and the coach can file it.
    if paper.cards_a_sheet == 2:
        margin *= 1.5
    whole = Frame(0, 0, *paper.page).inset(margin)
    return Frame(whole.x, whole.y + _PAGE_LINE, whole.width, whole.height - _PAGE_LINE)


def _groups(block: Block, layout: CardLayout, width: float) -> list[list[Drawable]]:
    """Sections that stay together on a page, in order."""
    words = layout.overview
    charts = chart_rows(block, layout, width)
    return [
        [Title(block, layout, width)],
        [Heading(words.force_gap, width), GapSection(block, layout, width)],
        [Heading(words.qualities, width), QualitiesTable(block, layout, width)],
        [Heading(words.calendar, width), CalendarGrid(block, layout, width)],
        [Heading(words.dose, width, words.how_to_read), charts[0]],
        *([row] for row in charts[1:]),
        *closing_sections(block, layout, width),
    ]
