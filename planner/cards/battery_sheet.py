"""The sheet for the test day: the block's tests in the order to do them, how each was done, a box for every trial."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.card_text import Run, TextBlock, draw_line
from planner.cards.flow import Page, flow, page_frame
from planner.cards.marks import Drawable
from planner.cards.overview_text import Paragraphs, SectionHeading
from planner.cards.paper import Paper
from planner.domain.block import AthleteLine, Block, TestLine
from planner.domain.card_layout import CardLayout, Record, TestWords
from planner.domain.terms import Leg
from planner.prescription.session_words import date_text, dated, test_day_lines

_BOX, _BOX_GAP, _TRIAL_GAP, _LABEL, _ROW_GAP = 20.0, 2.0, 8.0, 10.5, 3.0  # points
_WIDEST, _SIDE, _NOTES, _WHEN = 58.0, 50.0, 40.0, 74.0


@dataclass(frozen=True)
class Asked:
    """One test to take. ``sides``: each side (None: no side) with its last result. ``trials``: how many a side.

    ``minutes``: of all sides; None where the layout does not say.
    """

    name: str
    how: str
    note: str
    sides: Sequence[tuple[Leg | None, str]]
    record: Sequence[Record]
    trials: int
    minutes: int | None


def battery(block: Block, layout: CardLayout) -> list[Asked]:
    """Body mass, then the block's own tests in the layout's order, then the most useful new test."""
    sheets, athlete = layout.sheets, block.for_athlete
    mass = Asked(sheets.body_mass, "", sheets.body_mass_note, [(None, "")], ("body-mass",), 1, sheets.warm_up_minutes)
    asked = [mass]
    for kind, words in layout.tests.items():
        for lines in _same_test([line for line in athlete.tests if line.kind == kind]):
            asked.append(_asked(lines, words, athlete, layout))
    if block.gap.next_test:
        text = block.gap.next_test
        asked.append(Asked(sheets.new_test, text[:1].upper() + text[1:], "", [(None, "")], ("result",), 3, None))
    return asked


def timetable(asked: Sequence[Asked], layout: CardLayout) -> list[str]:
    """``minute 20 to 32`` for each test in order; "" from the first on of which nobody knows how long it takes."""
    word, clock, found = layout.sheets.minute, 0, list[str]()
    for one in asked:
        if word is None or one.minutes is None:
            return [*found, *[""] * (len(asked) - len(found))]
        found.append(f"{word} {clock} – {clock + one.minutes}")
        clock += one.minutes
    return found


def _same_test(lines: list[TestLine]) -> list[list[TestLine]]:
    """Group the lines by test, so that both legs of one test are taken together."""
    found: dict[tuple[str | None, tuple[str, ...]], list[TestLine]] = {}
    for line in lines:
        found.setdefault((line.movement, line.how), []).append(line)
    return list(found.values())


def _asked(lines: list[TestLine], words: TestWords, athlete: AthleteLine, layout: CardLayout) -> Asked:
    first = lines[0]
    sides: dict[Leg | None, str] = {
        line.side: f"{date_text(line.date, athlete, layout)}: {line.result}" for line in lines
    }
    return Asked(
        name=first.movement or words.name,
        how=" · ".join(first.how),
        note=words.how,
        sides=list(sides.items()),
        record=words.record,
        trials=max(words.trials, first.trials) if words.record != ("mass", "reps", "reserve") else words.trials,
        minutes=None if words.minutes is None else words.minutes * len(sides),
    )


class BatteryRow:
    """Name, method, last result and boxes; each leg has its own line of boxes."""

    def __init__(
        self, asked: Asked, number: int, athlete: AthleteLine, layout: CardLayout, width: float, when: str = ""
    ) -> None:
        self._asked, self._width, self._layout, self._athlete, self._when = asked, width, layout, athlete, when
        name: list[Run] = [("bold", f"{number}  {asked.name}"), ("regular", f"· {asked.how}" if asked.how else "")]
        self._texts = [TextBlock(name, size=11, width=width - (_WHEN if when else 0.0), leading=13)]
        if asked.note:
            self._texts.append(TextBlock(asked.note, size=9.4, width=width))
        for side, last in asked.sides:
            if last:
                leg = f" ({self._leg(side)})" if side else ""
                said = f"{layout.sheets.last_time}{leg}: {last}"
                self._texts.append(TextBlock(said, size=9.4, width=width))
        lines = len(asked.sides) * self._lines_a_side()
        self.height = sum(text.height for text in self._texts) + lines * (_LABEL + _BOX + _ROW_GAP) + 4

    def _leg(self, side: Leg | None) -> str:
        words = self._layout.words
        return {"left": words.left, "right": words.right}[side] if side else ""

    def _trial_width(self) -> float:
        count = len(self._asked.record)
        return min(_WIDEST, (self._room() - _BOX_GAP * (count - 1)) / count) * count + _BOX_GAP * (count - 1)

    def _room(self) -> float:
        return self._width - (_SIDE if any(side for side, _ in self._asked.sides) else 0.0)

    def _trials_a_line(self) -> int:
        return max(1, int((self._room() + _TRIAL_GAP) / (self._trial_width() + _TRIAL_GAP)))

    def _lines_a_side(self) -> int:
        return -(-self._asked.trials // self._trials_a_line())

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        marks.rule(canvas, x, top, self._width, marks.HAIR)
        top -= 3
        if self._when:
            draw_line(canvas, x + self._width, top - 10, self._when, size=8.4, align="right", at_most=_WHEN)
        for text in self._texts:
            text.draw(canvas, x, top)
            top -= text.height
        for side, _ in self._asked.sides:
            for line in range(self._lines_a_side()):
                self._draw_line(canvas, x, top, side if line == 0 else None, line)
                top -= _LABEL + _BOX + _ROW_GAP

    def _draw_line(self, canvas: Canvas, x: float, top: float, side: Leg | None, line: int) -> None:
        if side:
            draw_line(canvas, x, top - _LABEL - 13, self._leg(side), size=9.4, face="semibold", at_most=_SIDE - 4)
        left = x + self._width - self._room()
        first = line * self._trials_a_line()
        width = (self._trial_width() - _BOX_GAP * (len(self._asked.record) - 1)) / len(self._asked.record)
        for trial in range(first, min(self._asked.trials, first + self._trials_a_line())):
            for place, record in enumerate(self._asked.record):
                number = f"{trial + 1}  " if place == 0 and self._asked.trials > 1 else ""
                label = f"{number}{self._label(record)}"
                draw_line(canvas, left, top - _LABEL + 2.6, label, size=7.2, at_most=width)
                marks.box(canvas, left, top - _LABEL - _BOX, width, _BOX)
                left += width + _BOX_GAP
            left += _TRIAL_GAP - _BOX_GAP

    def _label(self, record: Record) -> str:
        unit = {
            "mass": self._athlete.mass_unit,
            "body-mass": self._athlete.mass_unit,
            "reach": "in" if self._athlete.length_unit == "in" else "m",
            "distance": "in" if self._athlete.length_unit == "in" else "m",
            "rise": self._athlete.length_unit,
        }.get(record, "")
        word = self._layout.sheets.records[record]
        return f"{word}, {unit}" if unit else word


def battery_pages(block: Block, layout: CardLayout, paper: Paper) -> list[Page]:
    """The whole battery; no test is split over pages."""
    frame, athlete, sheets = page_frame(paper, layout), block.for_athlete, layout.sheets
    day = next((one for one in block.sessions if any(i.part == "test" for i in one.items)), None)
    when = dated(day, athlete, layout) if day else ""
    how = test_day_lines(athlete, layout)
    head: list[Drawable] = [
        TextBlock(f"{sheets.tests}: {athlete.name}", size=20, width=frame.width, face="bold", leading=23),
        TextBlock(" · ".join(filter(None, (when, f"{layout.overview.target}: {athlete.target}"))), size=11.5,
                  width=frame.width, face="semibold"),
        Paragraphs([TextBlock(f"• {line}", size=9.6, width=frame.width) for line in how], 1.5),
    ]  # fmt: skip
    tests = battery(block, layout)
    whens = timetable(tests, layout)
    rows = [
        BatteryRow(asked, at, athlete, layout, frame.width, when)
        for at, (asked, when) in enumerate(zip(tests, whens, strict=True), start=1)
    ]
    groups: list[list[Drawable]] = [head, [SectionHeading(sheets.battery, frame.width, sheets.order), rows[0]]]
    groups += [[row] for row in rows[1:]]
    pages = flow(groups, frame, space=3.0)
    notes: list[Drawable] = [SectionHeading(layout.words.notes, frame.width, room=_NOTES)]
    with_notes = flow([*groups, notes], frame, space=3.0)
    return with_notes if len(with_notes) == len(pages) else pages  # no extra page just for notes
