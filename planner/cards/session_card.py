"""A session's cards: its rows on as few cards as they fit, no item split."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.card_text import Run, TextBlock, Unbroken, draw_line, fitting_size
from planner.cards.grid import DENSITIES, Grid, grid_on
from planner.cards.head_and_foot import Foot, Head, place_of
from planner.cards.item_row import ItemRow
from planner.cards.marks import height_of
from planner.cards.paper import Rectangle
from planner.cards.source import Source
from planner.domain.block import AthleteLine, Block, Session, Week
from planner.domain.card_layout import CardLayout
from planner.domain.findings import Finding, UserError
from planner.prescription.ramp import ramp_line
from planner.prescription.session_words import next_load_line, test_day_lines
from planner.prescription.warm_up import warm_up_steps

_PAGE_LINE = 10.0  # points: the line at the very foot
_MOST_ROOM = 7.0  # points added to a row on a short card; more looks like a gap
_NUMBER_COLUMN = 17.0  # points kept free next to a side-head for the items' numbers
_NOTES_FROM = 44.0  # points: the least room left over that is worth a place for notes


class TextRow:
    """Text with a side-head, before or after the items."""

    def __init__(self, heading: str, runs: list[Run], grid: Grid) -> None:
        self.heading = heading
        self._block = TextBlock(runs, size=9.5 * grid.scale, width=grid.body)
        self.height = self._block.height + grid.density.row_space * grid.scale
        self._drop = 2.5 * grid.scale
        self.first_baseline = self._drop + 9.5 * grid.scale

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        self._block.draw(canvas, x, top - self._drop)


Row = TextRow | ItemRow


def _warm_up(session: Session, athlete: AthleteLine, layout: CardLayout, grid: Grid) -> TextRow:
    """What to do before the first item, minute by minute."""
    runs: list[Run] = [("bold", f"{session.warm_up_minutes} {layout.words.minutes}:")]
    steps = warm_up_steps(session, athlete, layout)
    for place, (length, do) in enumerate(steps, start=1):
        first, _, last = do.rpartition(" ")
        # Keep a figure with its unit, and a dot with the word before it.
        runs += [("semibold", Unbroken(length)), ("regular", first)]
        runs.append(("regular", Unbroken(last if place == len(steps) else f"{last} ·")))
    return TextRow(layout.words.warm_up, runs, grid)


@dataclass
class Card:
    """One card of a session, measured and ready to draw into its frame. ``number`` (of ``count``) counts from 1."""

    block: Block
    week: Week
    session: Session
    layout: CardLayout
    grid: Grid
    head: Head
    rows: Sequence[Row]
    foot: Foot
    number: int
    count: int

    def draw(self, canvas: Canvas, frame: Rectangle, page: str) -> None:
        inner = grid_on(frame, self.layout.measures).frame
        x, y = inner.x, inner.top
        self.head.draw(canvas, x, y)
        y -= self.head.height
        slack = _capacity(self.grid, self.head, self.foot) - height_of(self.rows)
        room = min(_MOST_ROOM, slack / max(1, len(self.rows)))
        y = self._draw_rows(canvas, x, y, room)
        foot_top = inner.y + _PAGE_LINE + self.foot.height
        if y - foot_top >= _NOTES_FROM:
            marks.rule(canvas, x, y, inner.width, marks.THICK)
            draw_line(canvas, x, y - 12, self.layout.words.notes, size=9.5, face="semibold")
        self.foot.draw(canvas, x, foot_top)
        self._draw_page_line(canvas, inner, page)

    def _draw_rows(self, canvas: Canvas, x: float, y: float, room: float) -> float:
        """Draw the rows from ``y`` down and return where they end. A rule and a side-head open each part."""
        body_x = x + self.grid.gutter
        part = None
        for row in self.rows:
            here = _heading(row, self.layout)
            if here != part:
                marks.rule(canvas, x, y, self.grid.frame.width, marks.THIN if part else marks.THICK)
                self._draw_side_head(canvas, row, x, y - room / 2 - row.first_baseline)
                part = here
            else:
                marks.rule(canvas, body_x, y, self.grid.body, marks.HAIR)
            row.draw(canvas, body_x, y - room / 2)
            y -= row.height + room
        return y

    def _draw_side_head(self, canvas: Canvas, row: Row, x: float, baseline: float) -> None:
        words = _heading(row, self.layout)
        width = self.grid.gutter - (0.0 if isinstance(row, TextRow) else _NUMBER_COLUMN)
        size = fitting_size(words, "semibold", 9.5 * self.grid.scale, width)
        block = TextBlock(words, size=size, width=width, face="semibold", leading=size * 1.08)
        block.draw(canvas, x, baseline + size)

    def _draw_page_line(self, canvas: Canvas, inner: Rectangle, page: str) -> None:
        words = self.layout.words
        place = f"{words.week} {self.week.number} · {place_of(self.week, self.session, self.layout)}"
        if self.count > 1:
            place += f" · {words.card} {self.number} {words.of} {self.count}"
        page_width = draw_line(canvas, inner.right, inner.y + 1.5, page, size=7, align="right")
        room = inner.width - page_width - 12
        draw_line(canvas, inner.x, inner.y + 1.5, f"{self.block.for_athlete.name} · {place}", size=7, at_most=room)


def _heading(row: Row, layout: CardLayout) -> str:
    return row.heading if isinstance(row, TextRow) else layout.parts[row.item.part]


def _capacity(grid: Grid, head: Head, foot: Foot) -> float:
    return grid.frame.height - head.height - foot.height - _PAGE_LINE


def cards_of(
    block: Block, week: Week, session: Session, layout: CardLayout, card: Rectangle, source: Source
) -> list[Card]:
    """Lay out a session on as few cards of ``card``'s size as it fits, in the largest type that needs no more cards.

    Raises UserError if a single text is longer than a card.
    """
    best: list[Card] = []
    for density in DENSITIES:
        laid = _laid_out(block, week, session, layout, grid_on(card, layout.measures, density))
        if len(laid) == 1:
            return laid
        if laid and (not best or len(laid) < len(best)):
            best = laid
    if not best:
        raise UserError([_too_long(block, week, session, source)])
    return best


def _laid_out(block: Block, week: Week, session: Session, layout: CardLayout, grid: Grid) -> list[Card]:
    """The session's cards at one density; none if a row fits no card."""
    rows = _rows(block, week, session, layout, grid)
    heads = [Head(block, week, session, layout, grid, continued=later) for later in (False, True)]
    feet = [Foot(block, week, session, layout, grid, last=last) for last in (False, True)]
    shares = _share_out(rows, grid, heads, feet) or []
    count = len(shares)
    return [
        Card(block, week, session, layout, grid, heads[min(1, at)], share, feet[at == count - 1], at + 1, count)
        for at, share in enumerate(shares)
    ]


def _share_out(rows: list[Row], grid: Grid, heads: list[Head], feet: list[Foot]) -> list[list[Row]] | None:
    """Distribute rows over cards; the last card needs room for the full foot. None if a row fits no card."""
    shares: list[list[Row]] = []
    rest = rows
    while rest:
        head = heads[min(1, len(shares))]
        if height_of(rest) <= _capacity(grid, head, feet[1]):
            shares.append(rest)
            return _even_out(shares, grid, heads, feet)
        capacity, taken = _capacity(grid, head, feet[0]), 0
        while taken < len(rest) - 1 and height_of(rest[: taken + 1]) <= capacity:
            taken += 1
        # A card without rows helps only if the first head was long, because the next head is short.
        if capacity < 0 or (taken == 0 and shares):
            return None
        shares.append(rest[:taken])
        rest = rest[taken:]
    return shares


def _even_out(shares: list[list[Row]], grid: Grid, heads: list[Head], feet: list[Foot]) -> list[list[Row]]:
    """Split two cards near the middle, and between two parts of the session if that fits."""
    if len(shares) != 2:
        return shares
    rows = shares[0] + shares[1]

    def cost(at: int) -> tuple[bool, float]:
        last, first = rows[at - 1], rows[at]
        same_part = isinstance(last, ItemRow) and isinstance(first, ItemRow) and last.item.part == first.item.part
        return same_part, abs(height_of(rows[:at]) - height_of(rows[at:]))

    fits = [
        at
        for at in range(1, len(rows))
        if height_of(rows[:at]) <= _capacity(grid, heads[0], feet[0])
        and height_of(rows[at:]) <= _capacity(grid, heads[1], feet[1])
    ]
    if not fits:
        return shares
    at = min(fits, key=cost)
    return [rows[:at], rows[at:]]


def _rows(block: Block, week: Week, session: Session, layout: CardLayout, grid: Grid) -> list[Row]:
    rows: list[Row] = [_warm_up(session, block.for_athlete, layout, grid)] if session.warm_up_minutes else []
    ramp_for = next((item for item in session.items if item.part == "main-lift" and item.sets), None)
    approach_jumps = [item for item in session.items if item.part == "approach-jump" and item.sets]
    last_approach_jumps = approach_jumps[-1] if approach_jumps else None
    for number, item in enumerate(session.items, start=1):
        ramp = ramp_line(item, block.for_athlete, layout) if item is ramp_for else ""
        rows.append(
            ItemRow(item, number, block.for_athlete, layout, grid, ramp=ramp, checks=item is last_approach_jumps)
        )
    if next_load := next_load_line(week, session, block.for_athlete, layout):
        rows.append(TextRow(layout.words.next_load, [("regular", next_load)], grid))
    if layout.test_day and any(item.part == "test" for item in session.items):
        how = " ".join(test_day_lines(block.for_athlete, layout))
        rows.append(TextRow(layout.overview.test_day, [("regular", how)], grid))
    return rows


def _too_long(block: Block, week: Week, session: Session, source: Source) -> Finding:
    """Blame the session's item with the longest text, as the likeliest, and name its line."""
    place, number = block.weeks.index(week), week.sessions.index(session)
    lengths = [sum(map(len, (item.name, *item.cues[:1], *item.cautions, item.note or ""))) for item in session.items]
    at = lengths.index(max(lengths))
    longest = session.items[at]
    return source.finding(
        ("weeks", place, "sessions", number, "items", at),
        "card-text-too-long",
        f"week {week.number}, session {number + 1}: a text is longer than a card",
        f"shorten the cue, caution or note of '{longest.name[:60]}', or the session's reason",
    )
