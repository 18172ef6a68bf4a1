"""PDFs of pictures: a heading, then each picture with its sentence, on as many pages as they need."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Protocol

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.card_text import TextBlock, new_canvas
from planner.cards.flow import flow, page_frame
from planner.cards.glyphs import refuse_undrawable
from planner.cards.marks import Drawable
from planner.cards.overview_text import Paragraphs, SectionHeading
from planner.cards.paper import Rectangle, paper_of
from planner.domain.card_layout import CardLayout

_GAP = 18.0
_LINE_GAP = 4.0  # points below a text
_NARROWEST = 220.0  # points: the least width of a picture that shares its row


class Picture(Protocol):
    """Drawn up and right from the canvas's origin, ``height`` points high."""

    @property
    def height(self) -> float: ...

    def draw(self, canvas: Canvas, width: float) -> None: ...


@dataclass(frozen=True)
class Chapter:
    """What belongs together: a heading, its pictures, and one sentence on what they show."""

    heading: str
    pictures: Sequence[Picture]
    sentence: str


@dataclass(frozen=True)
class Report:
    """What begins on a page of its own."""

    title: str
    subtitle: str
    chapters: Sequence[Chapter]


class _PictureRow:
    """Pictures side by side, each of an equal share of the width."""

    def __init__(self, pictures: Sequence[Picture], columns: int, width: float) -> None:
        self._pictures = pictures
        self._width = (width - _GAP * (columns - 1)) / columns
        self.height = max(picture.height for picture in pictures) + 6

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        for picture in self._pictures:
            with marks.origin(canvas, x, top - picture.height):
                picture.draw(canvas, self._width)
            x += self._width + _GAP


def draw_reports(reports: Sequence[Report], layout: CardLayout, *, paper: str, foot: str) -> bytes:
    """The reports as a PDF, one after the other; ``foot``: at the foot of each page.

    UserError for an unknown paper, or a character of a text that the font lacks.
    """
    sheet = paper_of(paper)
    whole = page_frame(sheet, layout)
    pages = [page for report in reports for page in flow(_groups(report, whole), whole)]
    buffer = BytesIO()
    canvas = new_canvas(buffer, sheet.page, reports[0].title, layout.language)
    words = layout.words
    for number, page in enumerate(pages, start=1):
        page.draw(canvas)
        page.draw_foot(canvas, foot, f"{words.page} {number} {words.of} {len(pages)}")
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _groups(report: Report, frame: Rectangle) -> list[list[Drawable]]:
    told = [text for one in report.chapters for text in (one.heading, one.sentence)]
    refuse_undrawable([report.title, report.subtitle, *told])
    title = TextBlock(report.title, size=15, width=frame.width, face="bold")
    subtitle = TextBlock(report.subtitle, size=10, width=frame.width)
    groups: list[list[Drawable]] = [[Paragraphs([title, subtitle], _LINE_GAP)]]
    for chapter in report.chapters:
        columns = min(len(chapter.pictures), max(1, int((frame.width + _GAP) / (_NARROWEST + _GAP))))
        first, *rest = [
            _PictureRow(chapter.pictures[at : at + columns], columns, frame.width)
            for at in range(0, len(chapter.pictures), columns)
        ]
        groups.append([SectionHeading(chapter.heading, frame.width), first])
        groups += [[row] for row in rest]
        if chapter.sentence:
            groups[-1].append(Paragraphs([TextBlock(chapter.sentence, size=9.2, width=frame.width)], _LINE_GAP))
    return groups
