"""Small charts of a quantity by week: black bars on an outlined range, readable without colour."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from planner.cards import fonts, marks
from planner.cards.card_text import draw_line

_TITLE, _WEEKS = 21.0, 10.0  # points above and below the plot
_LABEL = _FIGURE = 7.0
_WIDEST_SLOT = 26.0  # points; keeps the bars of a short block from looking like walls
Edges = tuple[float | None, float]


@dataclass(frozen=True)
class WeekChart:
    """``values``: one tuple a week, with one bar, or with two (left leg white, right leg black).

    ``bands``: the target range, drawn behind the bar; if low is None it is a ceiling, drawn as a line.
    """

    title: str
    unit: str
    weeks: Sequence[int]
    values: Sequence[tuple[float, ...]]
    bands: Sequence[Edges]

    def top_value(self) -> float:
        highest = max([*(max(value) for value in self.values), *(high for _, high in self.bands)])
        return highest if highest > 0 else 1.0


def draw_chart(canvas: Canvas, chart: WeekChart, width: float, height: float) -> None:
    """Title and unit above, week numbers below, each bar with its value; up and right from the canvas's origin."""
    draw_line(canvas, 0, height - 8.5, chart.title, size=9, face="semibold", at_most=width)
    draw_line(canvas, 0, height - 17, chart.unit, size=7.2, at_most=width)
    slot = width / len(chart.weeks)
    scale = (height - _TITLE - _WEEKS - _LABEL) / chart.top_value()
    marks.rule(canvas, 0, _WEEKS, width)
    for place, (week, values, band) in enumerate(zip(chart.weeks, chart.values, chart.bands, strict=True)):
        middle = (place + 0.5) * slot
        _draw_band(canvas, middle, slot, band, scale)
        _draw_bars(canvas, middle, slot, values, scale)
        label = _short(max(values), slot)
        draw_line(
            canvas, middle, _label_y(values, band, scale), label, size=_FIGURE, align="centre", at_most=slot - 0.5
        )
        draw_line(canvas, middle, 1.5, str(week), size=7.4, align="centre")


def _label_y(values: tuple[float, ...], band: Edges, scale: float) -> float:
    """Above the bar and the range; above the ceiling where its line would cross the figure out."""
    low, high = band
    highest = max(*values, high) if low is not None else max(values)
    y, edge = _WEEKS + highest * scale + 1.8, _WEEKS + high * scale
    return edge + 1.8 if y - 1 < edge < y + _LABEL else y


def _draw_band(canvas: Canvas, middle: float, slot: float, band: Edges, scale: float) -> None:
    low, high = band
    if low is None:
        marks.rule(canvas, middle - slot / 2, _WEEKS + high * scale, slot)
    elif high > 0:
        width = min(slot, _WIDEST_SLOT) * 0.82
        marks.box(canvas, middle - width / 2, _WEEKS + low * scale, width, max(0.8, (high - low) * scale), marks.HAIR)


def _draw_bars(canvas: Canvas, middle: float, slot: float, values: tuple[float, ...], scale: float) -> None:
    if len(values) == 1:
        width = min(slot, _WIDEST_SLOT) * 0.4
        marks.block(canvas, middle - width / 2, _WEEKS, width, values[0] * scale)
        return
    width = min(slot, _WIDEST_SLOT) * 0.32
    left, right = values
    if left > 0:
        marks.box(canvas, middle - width, _WEEKS, width, left * scale, marks.HAIR)
    marks.block(canvas, middle, _WEEKS, width, right * scale)


def _short(value: float, slot: float) -> str:
    """At most one decimal, and none where it would touch its neighbours: the label is only for comparing."""
    exact = f"{value:.1f}"
    crowded = fonts.width_of(exact, "regular", _FIGURE) > slot - 2
    return f"{value:.0f}" if value >= 20 or value == round(value) or crowded else exact
