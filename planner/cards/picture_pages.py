"""PDFs of pictures: a heading, then each picture with its sentence, on as many pages as they need."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Protocol

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.card_text import TextBlock, draw_line, new_canvas, undrawable
from planner.cards.flow import flow, page_frame
from planner.cards.glyphs import HINT, NO_LETTER, not_in_font
from planner.cards.marks import Drawable
from planner.cards.overview_text import SectionHeading
from planner.cards.paper import Rectangle, paper_of
from planner.domain.card_layout import CardLayout
from planner.domain.findings import Finding, UserError

_GAP = 18.0
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


class _Text:
    def __init__(self, text: str, width: float, size: float = 9.2, face: str = "regular") -> None:
        self._block = TextBlock(text, size=size, width=width, face=face)  # type: ignore[arg-type]
        self.height = self._block.height + 4

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        self._block.draw(canvas, x, top)


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
        frame = page.frame
        page.draw(canvas)
        said = f"{words.page} {number} {words.of} {len(pages)}"
        width = draw_line(canvas, frame.right, frame.y - 11, said, size=7, align="right")
        draw_line(canvas, frame.x, frame.y - 11, foot, size=7, at_most=frame.width - width - 12)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _groups(report: Report, frame: Rectangle) -> list[list[Drawable]]:
    told = [text for one in report.chapters for text in (one.heading, one.sentence)]
    _refuse_undrawable([report.title, report.subtitle, *told])
    title, subtitle = _Text(report.title, frame.width, 15, "bold"), _Text(report.subtitle, frame.width, 10)
    groups: list[list[Drawable]] = [[title, subtitle]]
    for chapter in report.chapters:
        columns = min(len(chapter.pictures), max(1, int((frame.width + _GAP) / (_NARROWEST + _GAP))))
        first, *rest = [
            _PictureRow(chapter.pictures[at : at + columns], columns, frame.width)
            for at in range(0, len(chapter.pictures), columns)
        ]
        groups.append([SectionHeading(chapter.heading, frame.width), first])
        groups += [[row] for row in rest]
        if chapter.sentence:
            groups[-1].append(_Text(chapter.sentence, frame.width))
    return groups


def _refuse_undrawable(texts: Sequence[str]) -> None:
    bad = [character for text in texts for character in undrawable(text)]
    if bad:
        raise UserError([Finding("", 0, 0, NO_LETTER, not_in_font(list(dict.fromkeys(bad))), HINT)])
