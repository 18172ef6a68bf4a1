"""One page with the force trace of a jump: force over time, the phases marked, the figures below."""

from __future__ import annotations

import math
from collections.abc import Sequence
from io import BytesIO

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.card_text import TextBlock, draw_line, new_canvas, undrawable
from planner.cards.glyphs import NO_LETTER, not_in_font
from planner.cards.paper import Rectangle, paper_of
from planner.domain.findings import Finding, UserError
from planner.force_platform.platform_jump import JumpPhase, PlatformJump

MARGIN = 42.0  # points
PLOT_HEIGHT = 330.0
MOST_POINTS = 1800  # of a curve; more cannot be seen on paper
PHASE_LABEL = 8.0


def draw_trace(
    jumps: Sequence[PlatformJump], *, titles: Sequence[str], lines: Sequence[Sequence[str]], paper: str = "a4"
) -> bytes:
    """A PDF with one page a jump. ``titles`` and ``lines``: each jump's heading and the sentences below its trace.

    Raises UserError for an unknown paper, or for a character of a title that the font lacks.
    """
    sheet = paper_of(paper)
    title = ", ".join(dict.fromkeys(titles))
    bad = undrawable(title)
    if bad:
        message = f"the name '{title}': {not_in_font(bad)}"
        raise UserError([Finding("", 0, 0, NO_LETTER, message, "rename the record")])
    width, height = sheet.page
    buffer = BytesIO()
    canvas = new_canvas(buffer, sheet.page, title)
    for jump, heading, sentences in zip(jumps, titles, lines, strict=True):
        _page(canvas, jump, heading, sentences, Rectangle(MARGIN, MARGIN, width - 2 * MARGIN, height - 2 * MARGIN))
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _page(canvas: Canvas, jump: PlatformJump, title: str, sentences: Sequence[str], frame: Rectangle) -> None:
    draw_line(canvas, frame.x, frame.top - 14, title, size=15, face="bold", at_most=frame.width)
    plot_height = min(PLOT_HEIGHT, frame.height * 0.5)
    plot = Rectangle(frame.x + 36, frame.top - 62 - plot_height, frame.width - 40, plot_height)
    _Plot(canvas, jump, plot).draw()
    y = plot.y - 34
    for sentence in sentences:
        text = TextBlock(sentence, size=9.6, width=frame.width)
        if y - text.height < frame.y:
            break
        text.draw(canvas, frame.x, y)
        y -= text.height + 4


class _Plot:
    """The plot: axes, body weight as a dashed line, phases between vertical lines, the curve on top."""

    def __init__(self, canvas: Canvas, jump: PlatformJump, frame: Rectangle) -> None:
        self._canvas, self._jump, self._frame = canvas, jump, frame
        self._start = jump.trace_start_s
        self._end = self._start + max(1, len(jump.trace_N) - 1) / jump.rate_Hz
        self._tick = _step(max(jump.trace_N, default=1.0) / 5)
        self._top = self._tick * math.ceil(max(max(jump.trace_N, default=1.0), self._tick) / self._tick)

    def draw(self) -> None:
        self._axes()
        self._body_weight()
        self._phases()
        self._curve()

    def _x(self, time_s: float) -> float:
        share = (time_s - self._start) / (self._end - self._start)
        return self._frame.x + min(max(share, 0.0), 1.0) * self._frame.width

    def _y(self, force_N: float) -> float:
        return self._frame.y + min(max(force_N / self._top, -0.02), 1.0) * self._frame.height

    def _axes(self) -> None:
        canvas, frame = self._canvas, self._frame
        marks.rule(canvas, frame.x, frame.y, frame.width, marks.THIN)
        marks.upright(canvas, frame.x, frame.y, frame.height, marks.THIN)
        for number in range(round(self._top / self._tick) + 1):
            y = self._y(number * self._tick)
            marks.rule(canvas, frame.x - 3, y, 3, marks.THIN)
            draw_line(canvas, frame.x - 5, y - 2.6, f"{number * self._tick:,.0f}", size=7.6, align="right")
        draw_line(canvas, frame.x - 34, frame.top + 26, "vertical force, N", size=8)
        step = _step((self._end - self._start) / 8)
        first = math.ceil(self._start / step)
        for number in range(first, math.floor(self._end / step) + 1):
            x = self._x(number * step)
            marks.upright(canvas, x, frame.y - 3, 3, marks.THIN)
            draw_line(canvas, x, frame.y - 12, f"{number * step:g}", size=7.6, align="centre")
        draw_line(canvas, frame.right, frame.y - 22, "time, s", size=8, align="right")

    def _body_weight(self) -> None:
        canvas, weight = self._canvas, self._jump.body_weight_N.value
        marks.rule(canvas, self._frame.x, self._y(weight), self._frame.width, marks.HAIR, (3.0, 2.0))
        label = f"body weight {weight:.0f} N"
        flight = next(phase for phase in self._jump.phases if phase.name == "flight")  # the curve is far below there
        middle = self._x((flight.start_s + flight.end_s) / 2)
        draw_line(canvas, middle, self._y(weight) + 2.5, label, size=7.4, align="centre")

    def _phases(self) -> None:
        """A vertical line at each phase's start, its name above the plot; in two rows, so that names do not collide."""
        for place, phase in enumerate(self._jump.phases):
            self._phase(phase, place)
        last = self._jump.phases[-1]
        marks.upright(self._canvas, self._x(last.end_s), self._frame.y, self._frame.height, marks.HAIR)

    def _phase(self, phase: JumpPhase, place: int) -> None:
        left, right = self._x(phase.start_s), self._x(phase.end_s)
        marks.upright(self._canvas, left, self._frame.y, self._frame.height, marks.HAIR)
        y = self._frame.top + 4 + (place % 2) * 10
        middle = (left + right) / 2
        draw_line(self._canvas, middle, y, phase.name, size=PHASE_LABEL, face="semibold", align="centre")

    def _curve(self) -> None:
        values, rate = self._jump.trace_N, self._jump.rate_Hz
        path = self._canvas.beginPath()
        for number, (place, force) in enumerate(_thinned(values)):
            x, y = self._x(self._start + place / rate), self._y(force)
            if number == 0:
                path.moveTo(x, y)
            else:
                path.lineTo(x, y)
        self._canvas.setLineWidth(1.1)
        self._canvas.setStrokeGray(0)
        self._canvas.drawPath(path, stroke=1, fill=0)


def _thinned(values: Sequence[float]) -> list[tuple[int, float]]:
    """At most MOST_POINTS points: the lowest and the highest of each bin, so that no peak is lost."""
    if len(values) <= MOST_POINTS:
        return list(enumerate(values))
    width = math.ceil(2 * len(values) / MOST_POINTS)
    kept = []
    for start in range(0, len(values), width):
        part = list(enumerate(values[start : start + width], start=start))
        ends = sorted({min(part, key=lambda one: one[1]), max(part, key=lambda one: one[1])})
        kept += ends
    return kept


def _step(about: float) -> float:
    """A round number near ``about``."""
    about = max(about, 1e-6)
    power = 10.0 ** math.floor(math.log10(about))
    return next((factor * power for factor in (1.0, 2.0, 5.0) if factor * power >= about), 10.0 * power)
