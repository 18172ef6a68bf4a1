"""The block at a glance: one row a week, one cell a session, a thick rule where a phase begins."""

from __future__ import annotations

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.card_text import TextBlock, draw_line
from planner.domain.block import Block, Session, Week
from planner.domain.card_layout import CardLayout
from planner.prescription.session_words import dated, title_of

_WEEK_SHARE = 0.17
_MOST_WEEKS = 12  # in one grid
_PADDING = 5.0
_ROOM_FOR_MINUTES = 92.0  # points; a narrower cell has no minutes next to its date, since the cards print them


def calendar_grids(block: Block, layout: CardLayout, width: float, most_height: float) -> list[CalendarGrid]:
    """The weeks in grids of at most twelve, each no higher than ``most_height`` points if its weeks allow it."""
    columns = max(len(week.sessions) for week in block.weeks)
    cell = width * (1 - _WEEK_SHARE) / max(1, columns)
    note = TextBlock(layout.overview.hard_mark, size=8.8, width=width)
    grids: list[list[_WeekRow]] = [[]]
    for week in block.weeks:
        row, last = _WeekRow(block, week, layout, cell, width * _WEEK_SHARE), grids[-1]
        if last and (len(last) == _MOST_WEEKS or _height([*last, row], note) > most_height):
            grids.append([])
        grids[-1].append(row)
    return [CalendarGrid(rows, note, width) for rows in grids]


def _height(rows: list[_WeekRow], note: TextBlock) -> float:
    return sum(row.height for row in rows) + note.height + 4


class CalendarGrid:
    """Some weeks of the block, and what the bar next to a session means."""

    def __init__(self, rows: list[_WeekRow], note: TextBlock, width: float) -> None:
        self._rows, self._note, self._width = rows, note, width
        self.height = _height(rows, note)

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        phase = self._rows[0].week.phase
        for row in self._rows:
            marks.rule(canvas, x, top, self._width, marks.THICK if row.week.phase != phase else marks.HAIR)
            phase = row.week.phase
            row.draw(canvas, x, top)
            top -= row.height
        marks.rule(canvas, x, top, self._width, marks.HAIR)
        self._note.draw(canvas, x, top - 3)


class _WeekRow:
    def __init__(self, block: Block, week: Week, layout: CardLayout, cell: float, week_width: float) -> None:
        self._athlete = block.for_athlete
        self.week, self._layout, self._cell, self._week_width = week, layout, cell, week_width
        self._role = TextBlock(layout.roles[week.role], size=8.4, width=week_width - 4, leading=9.6)
        self._cells = [
            (session, TextBlock(title_of(session), size=8.2, width=cell - 10, leading=9.2)) for session in week.sessions
        ]
        tallest = max([self._role.height + 1, *(focus.height for _, focus in self._cells)])
        self.height = 11.5 + tallest + _PADDING

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        draw_line(canvas, x, top - 10, f"{self._layout.words.week} {self.week.number}", size=10, face="bold")
        self._role.draw(canvas, x, top - 12)
        x += self._week_width
        for session, focus in self._cells:
            self._draw_session(canvas, x, top, session, focus)
            x += self._cell

    def _draw_session(self, canvas: Canvas, x: float, top: float, session: Session, focus: TextBlock) -> None:
        if session.hard_day:
            marks.block(canvas, x, top - self.height + 2, 2.2, self.height - 4)
        room = self._cell - 10
        minutes = f"{session.minutes} {self._layout.words.minutes}"
        width = 0.0
        if room >= _ROOM_FOR_MINUTES:
            width = draw_line(canvas, x + 5 + room, top - 9.5, minutes, size=7.6, align="right") + 4
        date = dated(session, self._athlete, self._layout)
        draw_line(canvas, x + 5, top - 9.5, date, size=8.6, face="semibold", at_most=room - width)
        focus.draw(canvas, x + 5, top - 11.5)
