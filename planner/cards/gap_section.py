"""The gap as numbers next to its picture, and the table of qualities with each one's deficit and emphasis."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.card_text import TextBlock, draw_line
from planner.cards.fonts import Face
from planner.cards.gap_picture import GapScale, draw_gap
from planner.cards.marks import height_of
from planner.cards.overview_text import Paragraphs
from planner.domain.block import Block
from planner.domain.card_layout import CardLayout
from planner.domain.gap_record import Gap, GapLine, QualityLine
from planner.units import UNITS

_ROW = 15.0
_PICTURE = 62.0
_GAP_COLUMN = 2
# The table of qualities: the width of the name, where the other columns end, their widths, and the points between.
_NAME_SHARE = 0.29
_COLUMN_ENDS = (0.47, 0.63, 0.75, 0.87, 1.0)
_COLUMN_ROOMS = (0.18, 0.16, 0.12, 0.12, 0.13)
_COLUMN_GAP = 4.0
_TEST_SIZE = 7.8  # points: type of the line that names the test under its quality
_WIDE = 430.0  # points: from this width on, picture and numbers are side by side


@dataclass(frozen=True)
class _Quantity:
    """A line of the table: name and unit, and the field of GapLine with its factor and digits."""

    name: str
    field: str
    factor: float
    digits: int
    unit: str

    def of(self, line: GapLine) -> tuple[float, float]:
        return getattr(line, self.field) * self.factor, getattr(line, f"{self.field}_se") * self.factor

    def said(self, line: GapLine) -> str:
        value, error = self.of(line)
        return f"{value:,.{self.digits}f} ± {error:,.{self.digits}f}"

    def share(self, gap: Gap) -> str:
        """The gap as a share of now: a few percent of force are many percent of height, and a coach must see both."""
        now, _ = self.of(gap.now)
        step, _ = self.of(gap.gap)
        return f"{100 * step / now:+.1f} %".replace("-", "−") if now else "–"


def _quantities(block: Block, layout: CardLayout) -> list[_Quantity]:
    words, unit = layout.overview, block.for_athlete.length_unit
    return [
        _Quantity(words.rise, "rise_m", 1 / UNITS["length"][unit], 1, unit),
        _Quantity(words.take_off_speed, "take_off_speed_m_s", 1.0, 2, "m/s"),
        _Quantity(words.ground_force, "mean_ground_force_N", 1.0, 0, "N"),
        _Quantity("", "mean_ground_force_bw", 1.0, 2, words.body_weights),
    ]


class GapSection:
    def __init__(self, block: Block, layout: CardLayout, width: float) -> None:
        self._block, self._layout, self._width = block, layout, width
        self._quantities = _quantities(block, layout)
        self._wide = width >= _WIDE
        self._story = TextBlock(" ".join(block.gap.story), size=9.6, width=width)
        self._table_width = width * 0.58 if self._wide else width
        self._text = TextBlock(layout.overview.one_error, size=8.8, width=self._table_width)
        self._table_height = _ROW * (len(self._quantities) + 1)
        left, pictures = self._table_height + 5 + self._text.height, 2 * _PICTURE
        self._below_story = max(left, pictures) if self._wide else left + pictures + 8
        self.height = self._story.height + 6 + self._below_story

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        self._story.draw(canvas, x, top)
        top -= self._story.height + 6
        self._draw_table(canvas, x, top)
        self._text.draw(canvas, x, top - self._table_height - 4)
        left, y = (x + self._width * 0.62, top) if self._wide else (x, top - self._below_story + 2 * _PICTURE)
        for quantity in (self._quantities[0], self._quantities[2]):
            with marks.origin(canvas, left, y - _PICTURE):
                draw_gap(canvas, self._scale(quantity), x + self._width - left, _PICTURE - 4)
            y -= _PICTURE

    def _scale(self, quantity: _Quantity) -> GapScale:
        gap, words = self._block.gap, self._layout.overview
        errors = (*quantity.of(gap.now), *quantity.of(gap.target))
        return GapScale(quantity.name, quantity.unit, *errors, words.now, words.target.lower())

    def _draw_table(self, canvas: Canvas, x: float, top: float) -> None:
        words, gap, width = self._layout.overview, self._block.gap, self._table_width
        ends = [x + width * share for share in (0.46, 0.66, 0.87, 1.0)]
        heads = (words.now, words.target.lower(), words.gap, words.gap_share)
        for end, word in zip(ends, heads, strict=True):
            draw_line(canvas, end, top - 11, word, size=9, align="right", at_most=width * 0.19)
        y = top - _ROW
        for quantity in self._quantities:
            marks.rule(canvas, x, y, width, marks.HAIR)
            name = ", ".join(filter(None, (quantity.name, quantity.unit)))
            draw_line(canvas, x, y - 11, name, size=9.4, at_most=width * 0.29)
            cells = [quantity.said(gap.now), quantity.said(gap.target), quantity.said(gap.gap), quantity.share(gap)]
            for place, (end, cell) in enumerate(zip(ends, cells, strict=True)):
                face: Face = "bold" if place == _GAP_COLUMN else "regular"
                draw_line(canvas, end, y - 11, cell, size=9.4, face=face, align="right", at_most=width * 0.2)
            y -= _ROW
        marks.rule(canvas, x, y, width, marks.HAIR)


class QualitiesTable:
    """One row a test; left and right of one test share a row, with a slash between their figures."""

    def __init__(self, block: Block, layout: CardLayout, width: float) -> None:
        self._rows, self._layout, self._width = _rows_by_test(block.gap.qualities), layout, width
        self._tests = [TextBlock(_said_once(row), size=_TEST_SIZE, width=width) for row in self._rows]
        next_test = block.gap.next_test
        said = [f"{layout.overview.next_test}: {next_test}."] if next_test else []
        self._next = Paragraphs([TextBlock(line, size=9.2, width=width) for line in said], 4.0)
        self.height = _ROW * (len(self._rows) + 1) + height_of(self._tests) + self._next.height

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        words, width = self._layout.overview, self._width
        columns = [x + width * share for share in _COLUMN_ENDS]
        rooms = [width * share - _COLUMN_GAP for share in _COLUMN_ROOMS]
        heads = (words.have, words.need, words.short_by, words.confidence, words.emphasis)
        for end, head, room in zip(columns, heads, rooms, strict=True):
            draw_line(canvas, end, top - 11, head, size=9, align="right", at_most=room)
        y = top - _ROW
        for lines, test in zip(self._rows, self._tests, strict=True):
            marks.rule(canvas, x, y, width, marks.HAIR)
            draw_line(canvas, x, y - 11, self._name(lines), size=9.4, face="semibold", at_most=width * _NAME_SHARE)
            for end, cell, room in zip(columns, self._cells(lines), rooms, strict=True):
                draw_line(canvas, end, y - 11, cell, size=9.4, align="right", at_most=room)
            test.draw(canvas, x, y - _ROW + 1)
            y -= _ROW + test.height
        marks.rule(canvas, x, y, width, marks.HAIR)
        self._next.draw(canvas, x, y - 3)

    def _name(self, lines: list[QualityLine]) -> str:
        words = self._layout.words
        sides = [{"left": words.left, "right": words.right}.get(line.side, "") for line in lines]
        return ", ".join(filter(None, (self._layout.qualities[lines[0].quality], " / ".join(filter(None, sides)))))

    def _cells(self, lines: list[QualityLine]) -> list[str]:
        words, first = self._layout.overview, lines[0]
        emphasis = f"× {first.emphasis:.2f}"
        tested = [line for line in lines if line.status == "tested"]
        if not tested:
            return [words.untested, "", "", "", emphasis]
        return [
            f"{_each([_figure(line.have) for line in tested if line.have is not None])} {first.unit}",
            f"{_each([_figure(line.need) for line in tested if line.need is not None])} {first.unit}",
            _each([_short_by(line, words.enough) for line in tested]),
            _each([f"{100 * line.confidence:.0f} %" for line in tested]),
            emphasis,
        ]


def _rows_by_test(lines: Sequence[QualityLine]) -> list[list[QualityLine]]:
    """Left and right lines of one quality and unit that follow each other are the two sides of one test."""
    rows: list[list[QualityLine]] = []
    for line in lines:
        last = rows[-1][-1] if rows else None
        if last and (last.quality, last.unit, last.side, line.side) == (line.quality, line.unit, "left", "right"):
            rows[-1].append(line)
        else:
            rows.append([line])
    return rows


def _said_once(lines: Sequence[QualityLine]) -> str:
    """What was tested, on both sides: without it two tests of one quality look alike."""
    return " · ".join(dict.fromkeys(line.source for line in lines if line.status == "tested"))


def _each(cells: list[str]) -> str:
    """Both sides, or one figure if they read the same."""
    return " / ".join(dict.fromkeys(cells))


def _short_by(line: QualityLine, enough: str) -> str:
    percent = round(100 * line.deficit)
    return f"{percent} %" if percent > 0 else enough


def _figure(value: float) -> str:
    size = abs(value)
    return f"{value:,.0f}" if size >= 100 or value == round(value) else f"{value:.1f}" if size >= 10 else f"{value:.2f}"
