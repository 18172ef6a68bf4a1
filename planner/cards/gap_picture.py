"""The force gap as a picture: now and target as points on one scale, each with its error, and the step between."""

from __future__ import annotations

import math
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.paper import Frame
from planner.cards.text import draw_line


@dataclass(frozen=True)
class GapScale:
    """One quantity now and at the target with standard errors, in ``unit``."""

    title: str
    unit: str
    now: float
    now_error: float
    target: float
    target_error: float
    now_word: str
    target_word: str


_LABELS = 34.0  # points on the left for "now" and "target"


def draw_gap(canvas: Canvas, gap: GapScale, frame: Frame) -> None:
    """The scale does not start at 0 and says so by its figures: the errors must be seen against the step."""
    draw_line(canvas, frame.x, frame.top - 9, f"{gap.title}, {gap.unit}", size=9, face="semibold", at_most=frame.width)
    axis = frame.y + 14
    lows, highs = ([gap.now + sign * gap.now_error, gap.target + sign * gap.target_error] for sign in (-1, 1))
    ticks = _ticks(min(lows), max(highs))
    left, width = frame.x + _LABELS, frame.width - _LABELS - 8

    def place(value: float) -> float:
        return left + (value - ticks[0]) / (ticks[-1] - ticks[0]) * width

    marks.rule(canvas, left, axis, width, marks.THIN)
    for tick in ticks:
        marks.upright(canvas, place(tick), axis - 3, 3)
        draw_line(canvas, place(tick), axis - 11.5, f"{tick:g}", size=7.4, align="centre")
    height = frame.top - 14 - axis
    upper, lower = axis + height * 0.68, axis + height * 0.25
    rows = ((gap.now_word, gap.now, gap.now_error, lower), (gap.target_word, gap.target, gap.target_error, upper))
    for word, value, error, y in rows:
        draw_line(canvas, frame.x, y - 2.8, word, size=8.4, at_most=_LABELS - 4)
        _point(canvas, place(value), place(value - error), place(value + error), y, filled=value == gap.now)
    _step(canvas, place(gap.now), place(gap.target), lower, upper)


def _step(canvas: Canvas, start: float, end: float, lower: float, upper: float) -> None:
    """A dotted stair from now up to the target's row."""
    canvas.saveState()
    canvas.setDash(0.8, 1.8)
    marks.upright(canvas, start, lower + 4, upper - lower - 4, marks.THIN)
    if abs(end - start) > 5:
        marks.rule(canvas, min(start, end), upper, abs(end - start) - 4, marks.THIN)
    canvas.restoreState()


def _point(canvas: Canvas, x: float, left: float, right: float, y: float, *, filled: bool) -> None:
    marks.rule(canvas, left, y, right - left, marks.THIN)
    for end in (left, right):
        marks.upright(canvas, end, y - 3, 6)
    canvas.setFillGray(0 if filled else 1)
    canvas.setStrokeGray(0)
    canvas.setLineWidth(1)
    canvas.circle(x, y, 3.2, stroke=1, fill=1)
    canvas.setFillGray(0)


def _ticks(low: float, high: float) -> list[float]:
    """Three to seven round numbers that hold the range."""
    span = max(high - low, abs(high) * 1e-3, 1e-9)
    power = 10 ** math.floor(math.log10(span / 4))
    step = next(factor * power for factor in (1, 2, 2.5, 5, 10) if span / (factor * power) <= 5)
    first, last = math.floor(low / step), math.ceil(high / step)
    return [round(number * step, 10) for number in range(first, max(last, first + 1) + 1)]
