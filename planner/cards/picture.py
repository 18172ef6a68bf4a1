"""A vector picture (reportlab.graphics) made of the cards' few marks: black on white, text in the embedded font."""

from __future__ import annotations

from reportlab.graphics import renderPDF
from reportlab.graphics.shapes import Circle, Drawing, Line, Rect, String
from reportlab.lib.colors import black, white
from reportlab.pdfgen.canvas import Canvas

from planner.cards import fonts
from planner.cards.card_text import Align, clean, fit_in
from planner.cards.fonts import Face
from planner.cards.marks import THIN

_ANCHOR: dict[Align, str] = {"left": "start", "centre": "middle", "right": "end"}
Dash = tuple[float, float]


class Picture:
    """A drawing of ``width`` by ``height`` points; x runs to the right and y up from its lower left corner.

    Nothing here takes a colour, which would be lost on a mono printer and on colour-blind readers.
    """

    def __init__(self, width: float, height: float) -> None:
        self.width, self.height = width, height
        # Otherwise every picture would name a standard font that is not embedded.
        self.drawing = Drawing(width, height, initialFontName=fonts.register()["regular"])

    def rule(self, x: float, y: float, width: float, weight: float = THIN, dash: Dash | None = None) -> None:
        self._line(x, y, x + width, y, weight, dash)

    def upright(self, x: float, y: float, height: float, weight: float = THIN, dash: Dash | None = None) -> None:
        self._line(x, y, x, y + height, weight, dash)

    def _line(self, x: float, y: float, end_x: float, end_y: float, weight: float, dash: Dash | None) -> None:
        self.drawing.add(Line(x, y, end_x, end_y, strokeColor=black, strokeWidth=weight, strokeDashArray=dash))

    def box(self, x: float, y: float, width: float, height: float, weight: float = THIN) -> None:
        """An outline."""
        self.drawing.add(Rect(x, y, width, height, strokeColor=black, strokeWidth=weight, fillColor=None))

    def block(self, x: float, y: float, width: float, height: float) -> None:
        """A black bar."""
        self.drawing.add(Rect(x, y, width, height, strokeColor=None, fillColor=black))

    def point(self, x: float, y: float, radius: float, *, filled: bool) -> None:
        self.drawing.add(Circle(x, y, radius, strokeColor=black, strokeWidth=1, fillColor=black if filled else white))

    def words(
        self,
        x: float,
        baseline: float,
        text: str,
        *,
        size: float,
        face: Face = "regular",
        align: Align = "left",
        at_most: float | None = None,
    ) -> None:
        """One line of text, smaller if too wide; ``x`` is its left end, middle or right end, as ``align`` says."""
        line = clean(text)
        size, _ = fit_in(line, face, size, at_most)
        name = fonts.register()[face]
        anchor = _ANCHOR[align]
        self.drawing.add(String(x, baseline, line, fontName=name, fontSize=size, fillColor=black, textAnchor=anchor))

    def draw(self, canvas: Canvas, x: float, y: float) -> None:
        """Draw with the lower left corner at ``x``, ``y``."""
        renderPDF.draw(self.drawing, canvas, x, y)
