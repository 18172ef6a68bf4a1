"""The force gap as a picture: now and target as points on one scale, each with its error, and the step between them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.card_text import draw_line


@dataclass(frozen=True)
class GapScale:
    """One quantity now and at the target, with standard errors, all in ``unit``."""

    title: str
    unit: str
    now: float
    now_error: float
    target: float
    target_error: float
    now_word: str
    target_word: str


_LABELS = 34.0  # points on the left for "now" and "target"
_AXIS = 14.0  # points up to the scale's line
_DOTS = (0.8, 1.8)


def draw_gap(canvas: Canvas, gap: GapScale, width: float, height: float) -> None:
    """Up and right from the canvas's origin.

    The scale does not start at 0, and its figures show that: the errors must be seen against the step.
    """
    draw_line(canvas, 0, height - 9, f"{gap.title}, {gap.unit}", size=9, face="semibold", at_most=width)
    lows, highs = ([gap.now + sign * gap.now_error, gap.target + sign * gap.target_error] for sign in (-1, 1))
    ticks = ticks_over(min(lows), max(highs))
    scale_width = width - _LABELS - 8

    def place(value: float) -> float:
        return _LABELS + (value - ticks[0]) / (ticks[-1] - ticks[0]) * scale_width

    marks.rule(canvas, _LABELS, _AXIS, scale_width)
    for tick in ticks:
        marks.upright(canvas, place(tick), _AXIS - 3, 3)
        draw_line(canvas, place(tick), _AXIS - 11.5, f"{tick:,g}", size=7.4, align="centre")
    room = height - 14 - _AXIS
    upper, lower = _AXIS + room * 0.68, _AXIS + room * 0.25
    _step(canvas, place(gap.now), place(gap.target), lower, upper)
    rows = ((gap.now_word, gap.now, gap.now_error, lower), (gap.target_word, gap.target, gap.target_error, upper))
    for word, value, error, y in rows:
        draw_line(canvas, 0, y - 2.8, word, size=8.4, at_most=_LABELS - 4)
        _point(canvas, place(value), place(value - error), place(value + error), y, filled=y == lower)


def _step(canvas: Canvas, start: float, end: float, lower: float, upper: float) -> None:
    """A dotted stair from now up to the target's row."""
    marks.upright(canvas, start, lower + 4, upper - lower - 4, dash=_DOTS)
    if abs(end - start) > 5:
        marks.rule(canvas, min(start, end), upper, abs(end - start) - 4, dash=_DOTS)


def _point(canvas: Canvas, x: float, left: float, right: float, y: float, *, filled: bool) -> None:
    marks.rule(canvas, left, y, right - left)
    for end in (left, right):
        marks.upright(canvas, end, y - 3, 6)
    marks.point(canvas, x, y, 3.2, filled=filled)


def ticks_over(low: float, high: float) -> list[float]:
    """Two to seven round numbers that span the range."""
    span = max(high - low, abs(high) * 1e-3, 1e-9)
    power = 10 ** math.floor(math.log10(span / 4))
    step = next(factor * power for factor in (1, 2, 2.5, 5, 10) if span / (factor * power) <= 5)
    first, last = math.floor(low / step), math.ceil(high / step)
    return [round(number * step, 10) for number in range(first, max(last, first + 1) + 1)]
