"""The overview: who, what for, the gap, the weeks at a glance, the work per week, the proof and the cautions."""

from __future__ import annotations

from planner.cards.calendar_grid import calendar_grids
from planner.cards.dose_charts import CHART_HEIGHTS, chart_rows
from planner.cards.flow import Page, flow, page_frame
from planner.cards.gap_section import GapSection, QualitiesTable
from planner.cards.marks import Drawable
from planner.cards.overview_text import SectionHeading, closing_sections, title
from planner.cards.paper import Paper, Rectangle
from planner.domain.block import Block
from planner.domain.card_layout import CardLayout

_FREE = 1 / 6  # of the first page's height may stay free; below it the page looks full


def overview_pages(block: Block, layout: CardLayout, paper: Paper, *, edited: bool) -> list[Page]:
    """Two pages of A4 or letter, more of the small sizes. A heading stays with the section below it.

    Charts are lower only where that saves a page. Proof and cautions come before the weeks where that saves one, or
    where the first page would not be full.
    """
    frame = page_frame(paper, layout)
    ways = [
        (lower, flow(_groups(block, layout, frame, height, edited, early=early), frame))
        for lower, height in enumerate(CHART_HEIGHTS)
        for early in (False, True)
    ]
    return min(ways, key=lambda way: (len(way[1]), way[0], max(way[1][0].room, frame.height * _FREE)))[1]


def _groups(
    block: Block, layout: CardLayout, frame: Rectangle, chart_height: float, edited: bool, *, early: bool
) -> list[list[Drawable]]:
    """Groups of sections that stay together on a page, in order; ``early``: proof and cautions before the weeks."""
    words, width = layout.overview, frame.width
    calendar = SectionHeading(words.calendar, width)
    weeks: list[list[Drawable]] = [
        [grid] for grid in calendar_grids(block, layout, width, frame.height - calendar.height)
    ]
    charts = chart_rows(block, layout, width, chart_height)
    gap: list[list[Drawable]] = [
        [title(block, layout, width)],
        [SectionHeading(words.force_gap, width), GapSection(block, layout, width)],
        [SectionHeading(words.qualities, width), QualitiesTable(block, layout, width)],
    ]
    plan: list[list[Drawable]] = [
        [calendar, *weeks[0]],
        *weeks[1:],
        [SectionHeading(words.dose, width, words.how_to_read), charts[0]],
        *([row] for row in charts[1:]),
    ]
    closing = closing_sections(block, layout, width, edited=edited)
    return [*gap, *closing, *plan] if early else [*gap, *plan, *closing]
