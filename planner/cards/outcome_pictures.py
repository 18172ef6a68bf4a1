"""Pictures of what came of a block: change strips on one axis, a season on one axis, a box of words. Black on white."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.axis import axis_over, draw_title
from planner.cards.card_text import TextBlock, draw_line

_AXIS, _TITLE, _ROW = 20.0, 14.0, 19.0  # points
_HATCH = 3.0  # points between two lines of a hatched band
_NAMES, _WORDS = 0.29, 0.2  # shares of the width, left and right of the strips
_PAD = 6.0


@dataclass(frozen=True)
class Strip:
    """A change in the unit of its picture. ``small``: up to there it is too small to matter; ``usual``: what such
    blocks bring. ``inner``, ``outer``: the narrower and wider interval of ``believed``. ``words``: right of it."""

    name: str
    words: str
    seen: float
    believed: float
    inner: tuple[float, float]
    outer: tuple[float, float]
    small: float
    usual: tuple[float, float]


@dataclass(frozen=True)
class Strips:
    """A row each on one axis: ring seen, dot and lines believed, box too small to matter, hatched what is usual.

    ``others``: strips of other pages that share the axis.
    """

    title: str
    unit: str
    strips: Sequence[Strip]
    others: Sequence[Strip] = ()

    @property
    def height(self) -> float:
        return _TITLE + _AXIS + _ROW * len(self.strips)

    def draw(self, canvas: Canvas, width: float) -> None:
        draw_title(canvas, self.title, self.unit, width, self.height)
        left, room = _NAMES * width, (1 - _NAMES - _WORDS) * width
        every = (*self.strips, *self.others)
        ends = [one for strip in every for one in (*strip.outer, *strip.usual, strip.seen, -strip.small)]
        axis = axis_over(ends, left, room)
        axis.draw_across(canvas, _AXIS, signed=True)
        x = axis.at
        marks.upright(canvas, x(0.0), _AXIS, _ROW * len(self.strips), marks.THIN, marks.DOTS)
        for place, strip in enumerate(self.strips):
            y = self.height - _TITLE - _ROW * (place + 0.5)
            draw_line(canvas, 0, y - 2.8, strip.name, size=8.4, at_most=left - 6)
            draw_line(canvas, left + room + 8, y - 2.8, strip.words, size=8.0, at_most=width - left - room - 8)
            _hatched(canvas, x(strip.usual[0]), y - 6, x(strip.usual[1]) - x(strip.usual[0]), 12)
            marks.box(canvas, x(-strip.small), y - 3.5, x(strip.small) - x(-strip.small), 7, marks.HAIR)
            marks.rule(canvas, x(strip.outer[0]), y, x(strip.outer[1]) - x(strip.outer[0]), marks.THICK)
            marks.block(canvas, x(strip.inner[0]), y - 1.6, x(strip.inner[1]) - x(strip.inner[0]), 3.2)
            marks.point(canvas, x(strip.seen), y, 2.6, filled=False)
            marks.point(canvas, x(strip.believed), y, 3.0, filled=True)


def _hatched(canvas: Canvas, x: float, y: float, width: float, height: float) -> None:
    canvas.saveState()
    path = canvas.beginPath()
    path.rect(x, y, width, height)
    canvas.clipPath(path, stroke=0, fill=0)
    canvas.setStrokeGray(0)
    canvas.setLineWidth(marks.HAIR)
    start = x - height
    while start < x + width:
        canvas.line(start, y, start + height, y + height)
        start += _HATCH
    canvas.restoreState()


@dataclass(frozen=True)
class Series:
    """Values of one thing by day, joined by a line in ``dash``; ``loose`` ones stand alone as rings."""

    name: str
    points: Sequence[tuple[datetime.date, float]]
    loose: Sequence[tuple[datetime.date, float]] = ()
    dash: marks.Dash | None = None


@dataclass(frozen=True)
class Season:
    """Several series on one axis of values and days; ``marked``: days drawn as uprights, each with a word."""

    title: str
    unit: str
    series: Sequence[Series]
    marked: Sequence[tuple[datetime.date, str]]
    height: float = 240.0

    def draw(self, canvas: Canvas, width: float) -> None:
        draw_title(canvas, self.title, self.unit, width, self.height)
        left, right, top = 30.0, width * (1 - _WORDS), self.height - _TITLE - 10
        values = [value for one in self.series for _, value in (*one.points, *one.loose)]
        days = [day for one in self.series for day, _ in (*one.points, *one.loose)] + [day for day, _ in self.marked]
        first, last = min(days), max(days)
        axis = axis_over(values, _AXIS, top - _AXIS)
        y = axis.at

        def x(day: datetime.date) -> float:
            return left + (day - first).days / max(1, (last - first).days) * (right - left)

        marks.rule(canvas, left, _AXIS, right - left)
        axis.draw_upwards(canvas, left)
        for day, word in self.marked:
            marks.upright(canvas, x(day), _AXIS - 3, top - _AXIS + 3, marks.HAIR, marks.DOTS)
            draw_line(canvas, x(day) + 2, top + 2, word, size=7.4)
            draw_line(canvas, x(day), _AXIS - 11, f"{day.day} {day:%b}", size=7.4, align="centre")
        lowest = -1e9
        for one in sorted(self.series, key=lambda series: series.points[-1][1]):
            for day, value in one.loose:
                marks.point(canvas, x(day), y(value), 1.8, filled=False)
            places = [(x(day), y(value)) for day, value in one.points]
            self._line(canvas, one, places)
            end_x, end_y = places[-1]
            lowest = max(end_y - 2.5, lowest + 9)  # no name on another
            draw_line(canvas, end_x + 7, lowest, one.name, size=8.0, at_most=width - end_x - 7)

    @staticmethod
    def _line(canvas: Canvas, one: Series, places: Sequence[tuple[float, float]]) -> None:
        canvas.setStrokeGray(0)
        canvas.setLineWidth(marks.THICK)
        if one.dash:
            canvas.setDash(one.dash)
        for (from_x, from_y), (to_x, to_y) in pairwise(places):
            canvas.line(from_x, from_y, to_x, to_y)
        canvas.setDash()
        for at_x, at_y in places:
            marks.point(canvas, at_x, at_y, 2.6, filled=True)


@dataclass(frozen=True)
class Boxed:
    """A few lines of text in a box, the first in bold."""

    lines: Sequence[str]
    width: float

    @property
    def height(self) -> float:
        return sum(block.height + 2 for block in self._blocks()) + 2 * _PAD

    def draw(self, canvas: Canvas, width: float) -> None:
        marks.box(canvas, 0, 0, width, self.height, marks.THICK)
        top = self.height - _PAD
        for block in self._blocks():
            block.draw(canvas, _PAD, top)
            top -= block.height + 2

    def _blocks(self) -> list[TextBlock]:
        first, *rest = self.lines
        inside = self.width - 2 * _PAD
        return [
            TextBlock(first, size=11, width=inside, face="bold"),
            *(TextBlock(line, size=9.2, width=inside) for line in rest),
        ]
