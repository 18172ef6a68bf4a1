"""The few marks that make up a card. Black and white only: a poor printer turns grey into smudges."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import Protocol

from reportlab.pdfgen.canvas import Canvas

HAIR, THIN, THICK = 0.35, 0.6, 1.3  # points
Dash = tuple[float, float]  # points of line, then of gap
DOTS: Dash = (0.8, 1.8)
_CUT: Dash = (1.5, 3.0)


class Drawable(Protocol):
    """Something with a known height that is drawn downwards from a top edge."""

    height: float

    def draw(self, canvas: Canvas, x: float, top: float) -> None: ...


def height_of(drawables: Iterable[Drawable]) -> float:
    return sum(one.height for one in drawables)


@contextmanager
def origin(canvas: Canvas, x: float, y: float) -> Iterator[None]:
    """Within it, places count from ``x``, ``y``."""
    canvas.saveState()
    canvas.translate(x, y)
    yield
    canvas.restoreState()


def rule(canvas: Canvas, x: float, y: float, width: float, weight: float = THIN, dash: Dash | None = None) -> None:
    _line(canvas, x, y, x + width, y, weight, dash)


def upright(canvas: Canvas, x: float, y: float, height: float, weight: float = THIN, dash: Dash | None = None) -> None:
    _line(canvas, x, y, x, y + height, weight, dash)


def _line(canvas: Canvas, x: float, y: float, end_x: float, end_y: float, weight: float, dash: Dash | None) -> None:
    canvas.setStrokeGray(0)
    canvas.setLineWidth(weight)
    if dash:
        canvas.setDash(dash)
    canvas.line(x, y, end_x, end_y)
    if dash:
        canvas.setDash()


def cut_line(canvas: Canvas, sheet: tuple[float, float]) -> None:
    """Between the two cards of a sheet of this width and height."""
    upright(canvas, sheet[0] / 2, 0, sheet[1], HAIR, _CUT)


def box(canvas: Canvas, x: float, y: float, width: float, height: float, weight: float = THIN) -> None:
    """An empty box to write in."""
    canvas.setStrokeGray(0)
    canvas.setLineWidth(weight)
    canvas.rect(x, y, width, height, stroke=1, fill=0)


def block(canvas: Canvas, x: float, y: float, width: float, height: float) -> None:
    canvas.rect(x, y, width, height, stroke=0, fill=1)


def point(canvas: Canvas, x: float, y: float, radius: float, *, filled: bool) -> None:
    canvas.setLineWidth(1)
    canvas.setFillGray(0 if filled else 1)
    canvas.circle(x, y, radius, stroke=1, fill=1)
    canvas.setFillGray(0)
