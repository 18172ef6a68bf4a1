"""The axis of a picture: round numbers over the range of its values, drawn across or upwards."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.card_text import draw_line


@dataclass(frozen=True)
class PlotAxis:
    """``room`` points long, from ``start``; the first and the last of the ``ticks`` are its ends."""

    ticks: Sequence[float]
    start: float
    room: float

    def at(self, value: float) -> float:
        """Where a value is, in points."""
        return self.start + (value - self.ticks[0]) / (self.ticks[-1] - self.ticks[0]) * self.room

    def draw_across(self, canvas: Canvas, y: float, *, signed: bool = False) -> None:
        """With the figures below it; ``signed``: with a plus or a minus."""
        marks.rule(canvas, self.start, y, self.room)
        for tick in self.ticks:
            marks.upright(canvas, self.at(tick), y - 3, 3)
            figure = f"{tick:+g}" if signed and tick else f"{tick:,g}"
            draw_line(canvas, self.at(tick), y - 11.5, figure, size=7.4, align="centre")

    def draw_upwards(self, canvas: Canvas, x: float) -> None:
        """With the figures on its left."""
        marks.upright(canvas, x, self.start, self.room)
        for tick in self.ticks:
            marks.rule(canvas, x - 3, self.at(tick), 3)
            draw_line(canvas, x - 5, self.at(tick) - 2.5, f"{tick:g}", size=7.4, align="right")


def axis_over(values: Sequence[float], start: float, room: float) -> PlotAxis:
    return PlotAxis(ticks_over(min(values), max(values)), start, room)


def ticks_over(low: float, high: float) -> list[float]:
    """Two to seven round numbers that span the range."""
    span = max(high - low, abs(high) * 1e-3, 1e-9)
    power = 10 ** math.floor(math.log10(span / 4))
    step = next(factor * power for factor in (1, 2, 2.5, 5, 10) if span / (factor * power) <= 5)
    first, last = math.floor(low / step), math.ceil(high / step)
    return [round(number * step, 10) for number in range(first, max(last, first + 1) + 1)]


def draw_title(canvas: Canvas, title: str, unit: str, width: float, height: float) -> None:
    """At the top of a picture that is ``height`` points high."""
    draw_line(canvas, 0, height - 8.5, f"{title}, {unit}", size=9, face="semibold", at_most=width)
