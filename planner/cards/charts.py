"""Small charts of a quantity by week: black bars on an outlined range, so that they need no colour."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.paper import Frame
from planner.cards.text import draw_line

_TITLE, _WEEKS = 21.0, 10.0  # points above and below the plot
_LABEL = 7.0


@dataclass(frozen=True)
class WeekChart:
    """``values``: one tuple a week, of one bar, or of two (left leg white, right leg black).

    ``bands``: the range asked for, drawn behind the bar; low None makes it a ceiling, drawn as a line.
    """

    title: str
    unit: str
    weeks: Sequence[int]
    values: Sequence[tuple[float, ...]]
    bands: Sequence[tuple[float | None, float]]

    def top_value(self) -> float:
        highest = max([*(max(value) for value in self.values), *(high for _, high in self.bands)])
        return highest if highest > 0 else 1.0


def draw_chart(canvas: Canvas, chart: WeekChart, frame: Frame) -> None:
    """Draw a chart into a frame: title and unit above, week numbers below, each bar with its value."""
    draw_line(canvas, frame.x, frame.top - 8.5, chart.title, size=9, face="semibold", at_most=frame.width)
    draw_line(canvas, frame.x, frame.top - 17, chart.unit, size=7.2, at_most=frame.width)
    plot = Frame(frame.x, frame.y + _WEEKS, frame.width, frame.height - _TITLE - _WEEKS - _LABEL)
    marks.rule(canvas, plot.x, plot.y, plot.width, marks.THIN)
    slot = plot.width / len(chart.weeks)
    scale = plot.height / chart.top_value()
    for place, (week, values, band) in enumerate(zip(chart.weeks, chart.values, chart.bands, strict=True)):
        middle = plot.x + (place + 0.5) * slot
        _draw_band(canvas, middle, plot.y, slot, band, scale)
        _draw_bars(canvas, middle, plot.y, slot, values, scale)
        highest = max(*values, band[1]) if band[0] is not None else max(values)
        label_y, edge_y = plot.y + highest * scale + 1.8, plot.y + band[1] * scale
        if label_y - 1 < edge_y < label_y + _LABEL:  # the ceiling's line would strike the figure out
            label_y = edge_y + 1.8
        draw_line(canvas, middle, label_y, _short(max(values)), size=6.4, align="centre", at_most=slot - 0.5)
        draw_line(canvas, middle, frame.y + 1.5, str(week), size=7, align="centre")


def _draw_band(
    canvas: Canvas, middle: float, base: float, slot: float, band: tuple[float | None, float], scale: float
) -> None:
    low, high = band
    if low is None:
        marks.rule(canvas, middle - slot / 2, base + high * scale, slot, marks.THIN)
    elif high > 0:
        width = slot * 0.82
        marks.box(canvas, middle - width / 2, base + low * scale, width, max(0.8, (high - low) * scale), marks.HAIR)


def _draw_bars(
    canvas: Canvas, middle: float, base: float, slot: float, values: tuple[float, ...], scale: float
) -> None:
    if len(values) == 1:
        width = slot * 0.4
        marks.block(canvas, middle - width / 2, base, width, values[0] * scale)
        return
    width = slot * 0.32
    left, right = values
    if left > 0:
        marks.box(canvas, middle - width, base, width, left * scale, marks.HAIR)
    marks.block(canvas, middle, base, width, right * scale)


def _short(value: float) -> str:
    """At most one decimal: a chart's label is for comparing."""
    return f"{value:.0f}" if value >= 20 or value == round(value) else f"{value:.1f}"
