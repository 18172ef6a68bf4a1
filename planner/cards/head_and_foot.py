"""The head of a session card (who, when, why) and its foot (tally, what the athlete writes, when to stop)."""

from __future__ import annotations

from reportlab.pdfgen.canvas import Canvas

from planner.cards import fonts, marks
from planner.cards.card_text import Run, TextBlock, clean, draw_line
from planner.cards.grid import Grid
from planner.domain.block import PAIN, AthleteLine, Block, Session, Week
from planner.domain.card_layout import CardLayout
from planner.domain.terms import TIERS
from planner.prescription.session_words import dated
from planner.prescription.tally import runs, tally, week_tally


def place_of(week: Week, session: Session, layout: CardLayout) -> str:
    number = week.sessions.index(session) + 1
    words = layout.words
    return f"{words.session} {number} {words.of} {len(week.sessions)}"


class Head:
    """The week's number is large in the side column. A session's second card says 'continued' instead of why."""

    def __init__(
        self, block: Block, week: Week, session: Session, layout: CardLayout, grid: Grid, *, continued: bool
    ) -> None:
        self._grid, self._layout = grid, layout
        self._week, self._weeks = week.number, len(block.weeks)
        words = layout.words
        self._date = dated(session, block.for_athlete, layout)
        name_width = grid.body - fonts.width_of(self._date, "bold", 14) - 10
        name = block.for_athlete.name
        size = 14.0 if fonts.width_of(clean(name), "bold", 14) <= name_width else 12.0
        self._name = TextBlock(name, size=size, width=name_width, face="bold", leading=size + 2)
        where = f"{place_of(week, session, layout)} · {layout.roles[week.role]}"
        self._where = TextBlock(where, size=10, width=grid.body * 0.68, face="semibold", leading=13)
        self._length = f"{session.minutes} {words.minutes}"
        self._hard = words.hard_day if session.hard_day else ""
        why: list[Run] = [("regular", session.why)] if not continued else [("semibold", words.continued)]
        self._why = TextBlock(why, size=10, width=grid.body, leading=12.5)
        self.height = max(48.0, self._name.height + self._where.height + self._why.height + 10)

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        grid, words = self._grid, self._layout.words
        number = str(self._week)
        draw_line(canvas, x, top - 10.5, words.week, size=10, face="semibold", at_most=grid.gutter - 4)
        width = draw_line(canvas, x - 1, top - 37, number, size=33, face="bold")
        draw_line(canvas, x + width + 2, top - 37, f"{words.of} {self._weeks}", size=9, at_most=grid.gutter - width - 4)
        x += grid.gutter
        right = x + grid.body
        self._name.draw(canvas, x, top + 1)
        draw_line(canvas, right, top - 13, self._date, size=14, face="bold", align="right")
        y = top - self._name.height - 1
        self._where.draw(canvas, x, y)
        length_width = draw_line(canvas, right, y - 10, self._length, size=10, face="semibold", align="right")
        if self._hard:
            self._draw_tag(canvas, right - length_width - 6, y - 10)
        self._why.draw(canvas, x, y - self._where.height - 2)

    def _draw_tag(self, canvas: Canvas, right: float, baseline: float) -> None:
        """White on a small black bar: seen at a glance, and light on toner."""
        width = fonts.width_of(self._hard, "bold", 8.5)
        marks.block(canvas, right - width - 6, baseline - 2.6, width + 6, 11.4)
        canvas.setFillGray(1)
        draw_line(canvas, right - 3, baseline, self._hard, size=8.5, face="bold", align="right")
        canvas.setFillGray(0)


class Foot:
    """The tally and the boxes are on a session's last card only; what hurt when planned and when to stop, on each."""

    def __init__(
        self, block: Block, week: Week, session: Session, layout: CardLayout, grid: Grid, *, last: bool
    ) -> None:
        self._grid, self._layout, self._last = grid, layout, last
        self._tallies = _tally_cells(session, week, block.for_athlete, layout)
        sore: list[Run] = [("semibold", caution) for caution in block.cautions if caution.startswith(PAIN)]
        stop: list[Run] = [*sore, ("regular", " ".join(layout.stop_rule))]
        self._stop = TextBlock(stop, size=8.4, width=grid.frame.width, leading=10.2)
        self._next = layout.words.next_card
        self.height = self._stop.height + 8 + (56.0 if last else 16.0)

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        width = self._grid.frame.width
        marks.rule(canvas, x, top, width, marks.THICK)
        y = top
        if self._last:
            self._draw_tally(canvas, x, y)
            self._draw_boxes(canvas, x, y - 25)
            y -= 56
        else:
            draw_line(canvas, x + width, y - 12, f"{self._next} →", size=10, face="bold", align="right")
            y -= 16
        marks.rule(canvas, x, y - 2, width, marks.HAIR)
        self._stop.draw(canvas, x, y - 4)

    def _draw_tally(self, canvas: Canvas, x: float, top: float) -> None:
        gutter, body = self._grid.gutter, self._grid.body
        first, _, second = self._layout.words.this_session.partition(" ")
        draw_line(canvas, x, top - 10.5, first, size=8.6, face="semibold", at_most=gutter - 4)
        draw_line(canvas, x, top - 20, second, size=8.6, face="semibold", at_most=gutter - 4)
        shares = (0.5, 0.25, 0.25)
        left = x + gutter
        for share, (big, small) in zip(shares, self._tallies, strict=True):
            draw_line(canvas, left, top - 10.5, big, size=9.6, face="semibold", at_most=body * share - 5)
            draw_line(canvas, left, top - 20, small, size=8.6, at_most=body * share - 5)
            left += body * share

    def _draw_boxes(self, canvas: Canvas, x: float, top: float) -> None:
        """A row of boxes, each under its label; the longest is for the joint."""
        words, width, gap = self._layout.words, self._grid.frame.width, 6.0
        labels = (words.session_effort, words.minutes_taken, words.pain_before, words.where, words.pain_next_morning)
        shares = (0.135, 0.12, 0.195, 0.28, 0.27)
        for share, label in zip(shares, labels, strict=True):
            cell = (width + gap) * share - gap
            draw_line(canvas, x, top - 8, label, size=8.2, at_most=cell)
            marks.box(canvas, x, top - 29, cell, 18)
            x += cell + gap


def _tally_cells(of: Session, week_of: Week, athlete: AthleteLine, layout: CardLayout) -> list[tuple[str, str]]:
    """Three cells of two lines each: the session's figure, then what makes it up and the week's total."""
    words, done, week = layout.words, tally(of.items), week_tally(week_of)
    tiers = " · ".join(f"{done.contacts[tier]} {layout.tiers[tier]}" for tier in TIERS if done.contacts[tier])
    run = runs(of.items, athlete) if done.sprint_efforts else ""
    return [
        (f"{done.all_contacts} {words.contacts}", _of_week(tiers, week.all_contacts, layout)),
        (f"{done.sprint_efforts} {words.sprints}", _of_week(run, week.sprint_efforts, layout)),
        (f"{done.working_sets} {words.working_sets}", _of_week("", week.working_sets, layout)),
    ]


def _of_week(made_of: str, week_total: int, layout: CardLayout) -> str:
    total = f"{layout.words.of} {week_total} {layout.words.this_week}"
    return f"{made_of} · {total}" if made_of else total
