"""The PDF of progress: every figure of its pictures is on it, on every paper, the same bytes again."""

from __future__ import annotations

import datetime

import pytest

from planner.cards.flow import page_frame
from planner.cards.paper import paper_of
from planner.cards.picture_pages import Chapter, Report, draw_reports
from planner.cards.progress_pictures import BandChart, BandRow, DayLine, DayPoint, WeekPair, WeekPairs
from planner.domain.findings import UserError
from tests.cards.invented_block import layout
from tests.cards.reading import ink, read

DAYS = [datetime.date(2026, 1, 5) + datetime.timedelta(days=7 * week) for week in range(5)]
WEEKS = WeekPairs("Working sets", "sets a week", [WeekPair(1, 30, 30), WeekPair(2, 32, 16, "ill"), WeekPair(3, 0, 4)])
JUMPS = DayLine("Best touch", "cm", [DayPoint(day, 310 + at, 2, filled=at == 4) for at, day in enumerate(DAYS)])
PAIN = DayLine("Worst", "0 to 10", [DayPoint(DAYS[0], 4, filled=True)], [(2, "green up to here")], 0, 10)
MAXIMA = BandChart(
    "Maximum",
    "kg",
    [BandRow("Back squat", 145, 153, (150, 156), (146, 160)), BandRow("Hinge", None, 170, (167, 173), (162, 178))],
)
CHAPTERS = [
    Chapter("Planned and done", [WEEKS, WEEKS], "Half of week 2 was missed."),
    Chapter("Maxima", [MAXIMA], "Ring: the test."),
    Chapter("Jump days", [JUMPS], "One day differs from another."),
    Chapter("Pain", [PAIN], "Amber."),
]  # fmt: skip


def drawn(paper: str = "a4", chapters: list[Chapter] = CHAPTERS, title: str = "Progress: Ilse") -> bytes:
    return draw_reports([Report(title, "Week 3 of 8.", chapters)], layout(), paper=paper, foot="Ilse · progress")


@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "half-letter"])
def test_every_word_and_figure_is_there(paper: str) -> None:
    text = "\n".join("\n".join(page) for page in read(drawn(paper)).pages)
    for said in (
        "Progress: Ilse", "Week 3 of 8.", "30 of 30", "16 of 32", "× ill", "4 of 0", "5 Jan", "2 Feb",
        "green up to here", "Back squat", "Half of week 2 was missed.", "Ring: the test.", "Amber.",
    ):  # fmt: skip
        assert said in text


def test_large_paper_takes_one_page_and_the_bytes_are_the_same_again() -> None:
    assert len(read(drawn()).pages) == 1 and drawn() == drawn()


def test_black_on_white_within_the_margins() -> None:
    page, (width, _) = ink(drawn(), 0)
    assert set(page[:20].flatten().tolist()) == {255}, "nothing in the upper margin"
    assert (page[:, :20] == 255).all() and (page[:, int(width * 2) - 20 :] == 255).all()


def test_done_is_filled_up_to_its_share() -> None:
    """A week wholly done has about twice the ink of one half done: the bars are alike, their outlines too."""
    whole, half = (
        (ink(drawn(chapters=[Chapter("x", [WeekPairs("a", "b", [WeekPair(1, 40, done)])], "s")]), 0)[0] < 128).sum()
        for done in (40, 20)
    )
    none = (ink(drawn(chapters=[Chapter("x", [WeekPairs("a", "b", [WeekPair(1, 40, 0)])], "s")]), 0)[0] < 128).sum()
    assert (whole - none) == pytest.approx(2 * (half - none), rel=0.08)


def test_a_name_without_glyphs_is_a_finding() -> None:
    with pytest.raises(UserError) as refusal:
        drawn(title="Progress: 日本")
    assert refusal.value.findings[0].code == "no-letter"


class Noted:
    """A picture that notes how wide it was drawn."""

    height = 50.0

    def __init__(self, widths: list[float]) -> None:
        self._widths = widths

    def draw(self, _: object, width: float) -> None:
        self._widths.append(width)


@pytest.mark.parametrize(("paper", "a_row"), [("a4", 2), ("a5", 1), ("half-letter", 1)])
def test_pictures_share_a_row_of_at_least_220_points_each(paper: str, a_row: int) -> None:
    """An a5 page less narrow margins is 391 points wide; two pictures and 18 points between them take 458."""
    narrow = layout().measures.model_copy(update={"margin": 0.005})
    own, widths = layout().model_copy(update={"measures": narrow}), list[float]()
    draw_reports([Report("Progress", "", [Chapter("x", [Noted(widths)] * 3, "s")])], own, paper=paper, foot="Ilse")
    assert widths == [pytest.approx((page_frame(paper_of(paper), own).width - 18 * (a_row - 1)) / a_row)] * 3


def test_one_day_and_one_value_are_drawn() -> None:
    alike = DayLine("Best touch", "cm", [DayPoint(DAYS[0], 310), DayPoint(DAYS[1], 310)])
    assert read(drawn(chapters=[Chapter("Jump days", [alike], "Alike.")])).pages
