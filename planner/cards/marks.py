"""The few marks that make up a card. Black and white only: a poor printer turns grey into smudges."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol

from reportlab.pdfgen.canvas import Canvas

HAIR, THIN, THICK = 0.35, 0.6, 1.3  # points


class Drawable(Protocol):
    """Something with a known height that is drawn downwards from a top edge."""

    height: float

    def draw(self, canvas: Canvas, x: float, top: float) -> None: ...


def height_of(drawables: Iterable[Drawable]) -> float:
    return sum(one.height for one in drawables)


def rule(canvas: Canvas, x: float, y: float, width: float, weight: float = THIN) -> None:
    canvas.setStrokeGray(0)
    canvas.setLineWidth(weight)
    canvas.line(x, y, x + width, y)


def upright(canvas: Canvas, x: float, y: float, height: float, weight: float = THIN) -> None:
    canvas.setStrokeGray(0)
    canvas.setLineWidth(weight)
    canvas.line(x, y, x, y + height)


def box(canvas: Canvas, x: float, y: float, width: float, height: float, weight: float = THIN) -> None:
    """An empty box to write in."""
    canvas.setStrokeGray(0)
    canvas.setLineWidth(weight)
    canvas.rect(x, y, width, height, stroke=1, fill=0)


def block(canvas: Canvas, x: float, y: float, width: float, height: float) -> None:
    canvas.setFillGray(0)
    canvas.rect(x, y, width, height, stroke=0, fill=1)


def cut_line(canvas: Canvas, x: float, y: float, height: float) -> None:
    canvas.saveState()
    canvas.setDash(1.5, 3)
    upright(canvas, x, y, height, HAIR)
    canvas.restoreState()
