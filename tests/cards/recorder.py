"""A canvas that notes the marks drawn on it, in points."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, TypeVar

from reportlab.pdfbase.pdfmetrics import stringWidth


@dataclass(frozen=True)
class Line:
    x1: float
    y1: float
    x2: float
    y2: float
    dash: Any


@dataclass(frozen=True)
class Rect:
    x: float
    y: float
    width: float
    height: float
    filled: bool


@dataclass(frozen=True)
class Circle:
    cx: float
    cy: float
    r: float
    filled: bool  # black; else white


@dataclass(frozen=True)
class Words:
    """``x`` is the left end."""

    x: float
    y: float
    text: str
    width: float


Shape = TypeVar("Shape", Line, Rect, Circle, Words)


class Recorder:
    """What ``marks`` and ``draw_line`` ask of a canvas."""

    def __init__(self) -> None:
        self._drawn: list[Any] = []
        self._dash: Any = None
        self._grey, self._font = 0.0, ("", 0.0)

    def all(self, kind: type[Shape]) -> list[Shape]:
        return [shape for shape in self._drawn if isinstance(shape, kind)]

    def line(self, *ends: float) -> None:
        self._drawn.append(Line(*ends, self._dash))

    def rect(self, *sides: float, stroke: int, fill: int) -> None:
        self._drawn.append(Rect(*sides, bool(fill)))

    def circle(self, *place: float, stroke: int, fill: int) -> None:
        self._drawn.append(Circle(*place, bool(fill) and self._grey == 0))

    def drawString(self, x: float, y: float, text: str) -> None:
        self._drawn.append(Words(x, y, text, stringWidth(text, *self._font)))

    def setDash(self, dash: Any = None) -> None:
        self._dash = dash

    def setFillGray(self, grey: float) -> None:
        self._grey = grey

    def setFont(self, name: str, size: float) -> None:
        self._font = name, size

    def setStrokeGray(self, _: float) -> None:
        pass

    def setLineWidth(self, _: float) -> None:
        pass
