"""The outcome's pictures: what is drawn where, every word on it, one page on A4 and letter, black on white."""

from __future__ import annotations

import datetime
from dataclasses import replace
from io import BytesIO

import pytest
from reportlab.pdfgen.canvas import Canvas

from planner.cards.outcome_pictures import Boxed, Season, Series, Strip, Strips
from planner.cards.picture_pages import Chapter, Report, draw_reports
from planner.cards.progress_pictures import DayLine, DayPoint, WeekPair, WeekPairs
from planner.domain.findings import UserError
from tests.cards.invented_block import layout
from tests.cards.reading import ink, read

DAYS = [datetime.date(2026, 1, 5) + datetime.timedelta(days=7 * week) for week in range(9)]
STRIP = Strip("Target jump, rise", "+4.0 cm, likely", 7.5, 6.8, (5.2, 8.4), (2.6, 11.0), 2.6, (0.7, 9.3))
STRIPS = Strips("From before to after", "percent", [replace(STRIP, name=f"Test {at}") for at in range(9)])
SEASON = Season(
    "Since then",
    "percent of the first test",
    [
        Series("Target jump", [(DAYS[0], 100.0), (DAYS[-1], 108.0)], [(day, 103.0) for day in DAYS]),
        Series("Back squat", [(DAYS[0], 100.0), (DAYS[4], 108.2)], dash=(4, 2)),
    ],
    [(DAYS[0], "block 1"), (DAYS[5], "block 2")],
)


def page(width: float = 500.0) -> Report:
    pairs = WeekPairs("Working sets", "sets a week", [WeekPair(week, 30, 28) for week in range(1, 9)])
    line = DayLine("Touch", "cm", [DayPoint(day, 310 + at, 2, filled=at in (0, 8)) for at, day in enumerate(DAYS)])
    box = Boxed(["Keep the jumps and check the loads.", "Why: the jump is up."], width)
    text = "A sentence that tells what was seen and what is to be believed of it. " * 4
    chapters = [Chapter("Change", [STRIPS], "Ring: seen."), Chapter("The target jump", [line], text)]
    chapters += [Chapter("Planned and done", [pairs, pairs], text), Chapter("What next", [box], "")]
    return Report("Outcome: Ilse", "8 weeks from 2026-01-05", chapters)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_one_page_with_every_word_black_on_white(paper: str) -> None:
    data = draw_reports([page()], layout(), paper=paper, foot="Ilse · outcome")
    (text,) = ["\n".join(found) for found in read(data).pages]
    for said in (
        "Test 8",
        "+4.0 cm, likely",
        "Keep the jumps",
        "Why: the jump is up.",
        "Ilse · outcome",
        "page 1 of 1",
    ):
        assert said in text
    pixels, _ = ink(data, 0)
    assert pixels.min() < 60 and (pixels[:20] == 255).all() and (pixels[:, :20] == 255).all()
    assert data == draw_reports([page()], layout(), paper=paper, foot="Ilse · outcome")


def test_each_report_begins_a_page_and_the_season_names_its_series_apart() -> None:
    season = Report("Season: Ilse", "2 blocks", [Chapter("Jump and maxima", [SEASON], "Dots: tests.")])
    pages = read(draw_reports([season, page(), page()], layout(), paper="a4", foot="x")).pages
    assert len(pages) == 3
    first = "\n".join(pages[0])
    for said in ("Target jump", "Back squat", "block 1", "block 2", "5 Jan", "9 Feb", "percent of the first test"):
        assert said in first


class Noted(Canvas):  # type: ignore[misc]
    """Where circles, rectangles and lines are drawn."""

    def __init__(self) -> None:
        super().__init__(BytesIO())
        self.circles: list[tuple[float, float, int]] = []
        self.boxes: list[tuple[float, float, float]] = []
        self._grey = 0.0

    def setFillGray(self, gray: float, alpha: float | None = None) -> None:
        self._grey = gray
        super().setFillGray(gray, alpha)

    def circle(self, x_cen: float, y_cen: float, r: float, stroke: int = 1, fill: int = 0) -> None:
        self.circles.append((x_cen, y_cen, int(self._grey)))

    def rect(self, x: float, y: float, width: float, height: float, stroke: int = 1, fill: int = 0) -> None:
        self.boxes.append((x, width, fill))


def test_a_strip_is_drawn_to_scale_on_the_axis_of_all() -> None:
    """The axis runs from -5 to +15 % over half of 400 points, from 116 on: 10.4 points a percent."""
    canvas = Noted()
    Strips("Change", "percent", [STRIP]).draw(canvas, 400.0)
    left, room = 0.29 * 400, 0.51 * 400

    def x(percent: float) -> float:
        return left + (percent + 5) / 20 * room

    (seen_x, _, seen_grey), (believed_x, _, believed_grey) = canvas.circles
    assert (seen_x, seen_grey) == (pytest.approx(x(7.5)), 1), "a ring"
    assert (believed_x, believed_grey) == (pytest.approx(x(6.8)), 0), "a dot"
    assert (pytest.approx(x(-2.6)), pytest.approx(x(2.6) - x(-2.6)), 0) in canvas.boxes, "too small to matter"
    assert (pytest.approx(x(5.2)), pytest.approx(x(8.4) - x(5.2)), 1) in canvas.boxes, "half sure"


def test_names_of_series_that_end_alike_are_not_on_each_other() -> None:
    canvas, said = Noted(), []
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(
            "planner.cards.outcome_pictures.draw_line",
            lambda _, x, y, text, **__: said.append((text, y)),
        )
        SEASON.draw(canvas, 400.0)
    heights = dict(said)
    assert abs(heights["Target jump"] - heights["Back squat"]) >= 9
    assert sum(grey == 1 for *_, grey in canvas.circles) == len(DAYS), "rings: jump days"


def test_a_text_without_a_glyph_is_a_finding() -> None:
    with pytest.raises(UserError, match="no letter or sign"):
        draw_reports([replace(page(), title="\u4e00")], layout(), paper="a4", foot="x")
