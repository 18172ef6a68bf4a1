"""Pictures of a block in progress: weeks planned and done, days on a line, maxima with their bands. Black on white."""

from __future__ import annotations

import datetime
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.axis import PlotAxis, axis_over, draw_title
from planner.cards.card_text import draw_line

_AXIS, _TITLE = 22.0, 14.0  # points below and above a plot
_LEFT = 34.0  # points for the figures of an axis
_LABEL = 7.0


@dataclass(frozen=True)
class WeekPair:
    """``missed``: why sessions were missed, such as ``ill``; "" where none was."""

    number: int
    planned: float
    done: float
    missed: str = ""


@dataclass(frozen=True)
class WeekPairs:
    """Planned outlined, done filled, one pair a week; a week with a missed session carries a cross and the reason."""

    title: str
    unit: str
    weeks: Sequence[WeekPair]
    height: float = 84.0

    def draw(self, canvas: Canvas, width: float) -> None:
        draw_title(canvas, self.title, self.unit, width, self.height)
        top = max([1.0, *(max(week.planned, week.done) for week in self.weeks)])
        scale = (self.height - _TITLE - _AXIS - _LABEL - 2) / top
        slot = width / len(self.weeks)
        bar = min(slot * 0.7, 34.0)
        marks.rule(canvas, 0, _AXIS, width)
        for place, week in enumerate(self.weeks):
            middle = (place + 0.5) * slot
            marks.box(canvas, middle - bar / 2, _AXIS, bar, week.planned * scale, marks.THIN)
            marks.block(canvas, middle - bar / 4, _AXIS, bar / 2, week.done * scale)
            label = f"{week.done:g} of {week.planned:g}"
            y = _AXIS + max(week.planned, week.done) * scale + 2
            draw_line(canvas, middle, y, label, size=_LABEL, align="centre", at_most=slot - 1)
            draw_line(canvas, middle, _AXIS - 9, str(week.number), size=7.4, align="centre")
            if week.missed:
                draw_line(canvas, middle, _AXIS - 18, f"× {week.missed}", size=_LABEL, align="centre", at_most=slot - 1)


@dataclass(frozen=True)
class DayPoint:
    """``spread``: how far the value lies off by chance, drawn as a line up and down; 0 for none."""

    date: datetime.date
    value: float
    spread: float = 0.0
    filled: bool = False


@dataclass(frozen=True)
class DayLine:
    """Values by day on one axis. ``lines``: values drawn across with a word; ``low``, ``high``: a fixed axis."""

    title: str
    unit: str
    points: Sequence[DayPoint]
    lines: Sequence[tuple[float, str]] = ()
    low: float | None = None
    high: float | None = None
    height: float = 118.0

    def draw(self, canvas: Canvas, width: float) -> None:
        draw_title(canvas, self.title, self.unit, width, self.height)
        first, last = self.points[0].date, self.points[-1].date
        days = max(1, (last - first).days)
        room = width - _LEFT - 8
        axis = self._axis()
        y = axis.at

        def x(day: datetime.date) -> float:
            return _LEFT + 4 + (day - first).days / days * (room - 8)

        marks.rule(canvas, _LEFT, _AXIS, room)
        axis.draw_upwards(canvas, _LEFT)
        for value, word in self.lines:
            marks.rule(canvas, _LEFT, y(value), room, marks.HAIR, marks.DOTS)
            draw_line(canvas, _LEFT + room, y(value) + 2, word, size=_LABEL, align="right")
        self._draw_dates(canvas, x)
        for point in self.points:
            if point.spread:
                marks.upright(canvas, x(point.date), y(point.value - point.spread), y(point.spread) - y(-point.spread))
            marks.point(canvas, x(point.date), y(point.value), 2.6, filled=point.filled)

    def _draw_dates(self, canvas: Canvas, x: Callable[[datetime.date], float]) -> None:
        """Each day's date as far as they fit side by side."""
        last = -math.inf
        for day in sorted({point.date for point in self.points}):
            if x(day) - last >= 30:
                draw_line(canvas, x(day), _AXIS - 9, f"{day.day} {day:%b}", size=7.4, align="centre")
                last = x(day)

    def _axis(self) -> PlotAxis:
        values = [one for p in self.points for one in (p.value - p.spread, p.value + p.spread)]
        values += [value for value, _ in self.lines]
        low = min(values) if self.low is None else self.low
        high = max(values) if self.high is None else self.high
        return axis_over((low, high), _AXIS, self.height - _TITLE - _AXIS - 4)


@dataclass(frozen=True)
class BandRow:
    """``inner`` and ``outer``: the 50 and 90 % bands of ``now``; ``before``: the test, None where there was none."""

    name: str
    before: float | None
    now: float
    inner: tuple[float, float]
    outer: tuple[float, float]


@dataclass(frozen=True)
class BandChart:
    """A row each: the test as a ring, now as a dot on a thick line (50 %) in a thin one (90 %)."""

    title: str
    unit: str
    rows: Sequence[BandRow]

    @property
    def height(self) -> float:
        return _TITLE + _AXIS + 24.0 * len(self.rows)

    def draw(self, canvas: Canvas, width: float) -> None:
        draw_title(canvas, self.title, self.unit, width, self.height)
        left = width * 0.36
        ends = [one for row in self.rows for one in (*row.outer, *([] if row.before is None else [row.before]))]
        axis = axis_over(ends, left, width - left - 10)
        axis.draw_across(canvas, _AXIS)
        x = axis.at
        for place, row in enumerate(self.rows):
            y = self.height - _TITLE - 24.0 * (place + 0.6)
            draw_line(canvas, 0, y - 2.8, row.name, size=8.4, at_most=left - 8)
            marks.rule(canvas, x(row.outer[0]), y, x(row.outer[1]) - x(row.outer[0]))
            marks.block(canvas, x(row.inner[0]), y - 1.1, x(row.inner[1]) - x(row.inner[0]), 2.2)
            if row.before is not None:
                marks.point(canvas, x(row.before), y, 2.6, filled=False)
            marks.point(canvas, x(row.now), y, 3.0, filled=True)
