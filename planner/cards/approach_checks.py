"""What a coach notes under a day's approach jumps: the best touch, and ticks for how they were done."""

from __future__ import annotations

from reportlab.pdfgen.canvas import Canvas

from planner.cards import fonts, marks
from planner.cards.card_text import draw_line
from planner.cards.grid import Grid
from planner.domain.block import AthleteLine
from planner.domain.card_layout import CardLayout

_BOX_WIDTH, _BOX_HEIGHT, _TICK, _GAP = 46.0, 14.0, 8.0, 10.0  # points


class ApproachChecks:
    """A line as wide as the card: a box for the touch in the athlete's unit, then a small box for each check."""

    def __init__(self, athlete: AthleteLine, layout: CardLayout, grid: Grid) -> None:
        unit = "in" if athlete.length_unit == "in" else "m"
        self._label, self._checks = f"{layout.words.best_touch}, {unit}", layout.approach_checks
        self._width, self._into_gutter, self._size = grid.frame.width, grid.gutter, 9.0 * min(1.0, grid.scale)
        self.height = _BOX_HEIGHT + 6.0

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        x -= self._into_gutter  # the words need the room, and the side-head is higher up
        baseline, right = top - 14, x + self._width
        x += draw_line(canvas, x, baseline, self._label, size=self._size, face="semibold") + 4
        marks.box(canvas, x, baseline - 4, _BOX_WIDTH, _BOX_HEIGHT)
        x += _BOX_WIDTH + _GAP
        widths = [fonts.width_of(check, "regular", self._size) for check in self._checks]
        around = (_TICK + 3 + _GAP) * len(widths) - _GAP
        squeeze = min(1.0, (right - x - around) / sum(widths)) if widths else 1.0
        for check, width in zip(self._checks, widths, strict=True):
            marks.box(canvas, x, baseline - 1, _TICK, _TICK)
            draw_line(canvas, x + _TICK + 3, baseline, check, size=self._size, at_most=width * squeeze)
            x += _TICK + 3 + width * squeeze + _GAP
