"""The force gap as a picture: now and target as points on one scale, each with its error, and the step between them."""

from __future__ import annotations

from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.axis import axis_over
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


def draw_gap(canvas: Canvas, gap: GapScale, width: float, height: float) -> None:
    """Up and right from the canvas's origin.

    The scale does not start at 0, and its figures show that: the errors must be seen against the step.
    """
    draw_line(canvas, 0, height - 9, f"{gap.title}, {gap.unit}", size=9, face="semibold", at_most=width)
    ends = [gap.now - gap.now_error, gap.now + gap.now_error]
    ends += [gap.target - gap.target_error, gap.target + gap.target_error]
    axis = axis_over(ends, _LABELS, width - _LABELS - 8)
    axis.draw_across(canvas, _AXIS)
    room = height - 14 - _AXIS
    upper, lower = _AXIS + room * 0.68, _AXIS + room * 0.25
    _step(canvas, axis.at(gap.now), axis.at(gap.target), lower, upper)
    rows = ((gap.now_word, gap.now, gap.now_error, lower), (gap.target_word, gap.target, gap.target_error, upper))
    for word, value, error, y in rows:
        draw_line(canvas, 0, y - 2.8, word, size=8.4, at_most=_LABELS - 4)
        _point(canvas, axis.at(value), axis.at(value - error), axis.at(value + error), y, filled=y == lower)


def _step(canvas: Canvas, start: float, end: float, lower: float, upper: float) -> None:
    """A dotted stair from now up to the target's row."""
    marks.upright(canvas, start, lower + 4, upper - lower - 4, dash=marks.DOTS)
    if abs(end - start) > 5:
        marks.rule(canvas, min(start, end), upper, abs(end - start) - 4, dash=marks.DOTS)


def _point(canvas: Canvas, x: float, left: float, right: float, y: float, *, filled: bool) -> None:
    marks.rule(canvas, left, y, right - left)
    for end in (left, right):
        marks.upright(canvas, end, y - 3, 6)
    marks.point(canvas, x, y, 3.2, filled=filled)
