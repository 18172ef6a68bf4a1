"""Where charts, scales, sections and cards stand on paper, worked out in points."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from planner.cards.axis import ticks_over
from planner.cards.charts import WeekChart, draw_chart
from planner.cards.dose_charts import chart_rows
from planner.cards.flow import Page, flow, page_frame
from planner.cards.gap_picture import GapScale, draw_gap
from planner.cards.grid import AIRY, Density, POINTS_PER_m, grid_on
from planner.cards.paper import PAPERS, Rectangle, paper_of
from planner.domain.findings import UserError
from planner.domain.terms import JOINTS, LIFT_QUALITIES, TIERS

from .invented_block import block, layout
from .recorder import Circle, Line, Recorder, Rect, Words

LAYOUT = layout()
MM_pt = 72 / 25.4
PLOT_pt = 100.0  # of a chart 138 points high: 21 above it, 10 below, 7 for a figure


def said(picture: Recorder) -> dict[str, tuple[float, float]]:
    return {words.text: (words.x, words.y) for words in picture.all(Words)}


def chart(values: list[tuple[float, ...]], bands: list[Any]) -> Recorder:
    picture, weeks = Recorder(), list(range(1, len(values) + 1))
    draw_chart(picture, WeekChart("Sets", "a week", weeks, values, bands), 200, 138)  # type: ignore[arg-type]
    return picture


def gap_drawn(gap: GapScale) -> Recorder:
    picture = Recorder()
    draw_gap(picture, gap, 242, 100)  # type: ignore[arg-type]
    return picture


def test_bars_stand_on_the_base_line_in_the_middle_of_their_week_to_the_scale_of_the_highest() -> None:
    """Of four weeks in 200 points each has 50; the widest bar is 0.4 of 26."""
    picture = chart([(4.0,), (8.0,), (0.0,), (2.5,)], [(3.0, 5.0), (6.0, 10.0), (0.0, 0.0), (0.0, 4.0)])
    bars = [shape for shape in picture.all(Rect) if shape.filled]
    assert [(bar.y, bar.height) for bar in bars] == [(10, 40), (10, 80), (10, 0), (10, 25)]
    assert [bar.x + bar.width / 2 for bar in bars] == pytest.approx([25, 75, 125, 175])
    assert {bar.width for bar in bars} == {0.4 * 26}
    ranges = [shape for shape in picture.all(Rect) if not shape.filled]
    assert [(one.y, one.height) for one in ranges] == [(40, 20), (70, 40), (10, 40)]
    assert [one.x + one.width / 2 for one in ranges] == pytest.approx([25, 75, 175])
    [base] = picture.all(Line)
    assert (base.x1, base.x2, base.y1, base.y2) == (0, 200, 10, 10)


def test_a_range_of_one_figure_is_still_a_line_that_can_be_seen() -> None:
    [band, _] = chart([(4.0,)], [(5.0, 5.0)]).all(Rect)
    assert (band.y, band.height) == (10 + 100, 0.8)


def test_figures_stand_clear_above_bar_and_range_and_weeks_below() -> None:
    picture = chart([(4.0,), (8.0,), (2.5,)], [(3.0, 5.0), (6.0, 8.0), (0.0, 10.0)])
    words = said(picture)
    assert (words["4"][1], words["8"][1], words["2.5"][1]) == pytest.approx(
        (10 + 50 + 1.8, 10 + 80 + 1.8, 10 + 100 + 1.8)
    )
    assert [words[week][1] for week in "123"] == [1.5] * 3
    assert words["Sets"] == (0, 138 - 8.5) and words["a week"] == (0, 138 - 17)


def test_two_legs_stand_side_by_side_the_left_one_white() -> None:
    picture = chart([(4.0, 10.0), (0.0, 5.0)], [(None, 8.0), (None, 8.0)])
    left, *rights = picture.all(Rect)
    assert (left.filled, left.x, left.width, left.height) == (False, pytest.approx(50 - 0.32 * 26), 0.32 * 26, 40)
    assert [(one.x, one.height) for one in rights] == [(50, 100), (150, 50)]
    ceilings = [line for line in picture.all(Line) if line.y1 == 10 + 80]
    assert [(one.x1, one.x2) for one in ceilings] == [(0, 100), (100, 200)]


@pytest.mark.parametrize(
    ("value", "y"),
    [
        (8.0, 10 + 80 + 1.8),
        (7.5, 10 + 80 + 1.8),
        (7.2, 10 + 80 + 1.8),
        (7.0, 10 + 70 + 1.8),
        (8.1, 10 + 81 + 1.8),
        (5.0, 10 + 50 + 1.8),
    ],
)
def test_a_ceiling_is_never_drawn_through_a_figure(value: float, y: float) -> None:
    words = said(chart([(value,), (10.0,)], [(None, 8.0), (None, 8.0)]))
    assert words[f"{value:g}"][1] == pytest.approx(y)


def test_a_figure_has_a_decimal_where_it_tells_and_has_room() -> None:
    wide = said(chart([(19.6,), (20.4,), (3.0,)], [(0.0, 0.0)] * 3))
    assert {"19.6", "20", "3"} <= set(wide)
    narrow = said(chart([(19.6,)] * 16, [(0.0, 0.0)] * 16))
    assert "20" in narrow and "19.6" not in narrow
    assert said(chart([(0.0,)], [(0.0, 0.0)]))["0"][1] == pytest.approx(11.8)


@pytest.mark.parametrize(
    ("low", "high", "ticks"),
    [
        (0.0, 4.0, [0, 1, 2, 3, 4]),
        (0.0, 5.0, [0, 1, 2, 3, 4, 5]),
        (0.0, 5.1, [0, 2, 4, 6]),
        (2100.0, 2210.0, [2100, 2125, 2150, 2175, 2200, 2225]),
        (2.69, 2.85, [2.65, 2.7, 2.75, 2.8, 2.85]),
        (7.0, 7.0, [7, 7.002]),
        (-30.0, 70.0, [-40, -20, 0, 20, 40, 60, 80]),
    ],
)
def test_a_scale_has_two_to_seven_round_figures_that_span_it(low: float, high: float, ticks: list[float]) -> None:
    found = ticks_over(low, high)
    assert found[0] <= low and found[-1] >= high and 2 <= len(found) <= 7
    assert found == pytest.approx(ticks)


def test_now_and_target_stand_on_one_scale_with_their_errors() -> None:
    """20 to 40 and 60 to 80 of a scale of 20 to 80, on 242 - 34 - 8 points."""
    gap = GapScale("Force", "N", 30, 10, 70, 10, "now", "target")
    picture = gap_drawn(gap)
    first, last = ticks_over(20, 80)[0], ticks_over(20, 80)[-1]

    def place(value: float) -> float:
        return 34 + (value - first) / (last - first) * 200

    points = picture.all(Circle)
    assert [(point.cx, point.r) for point in points] == [
        (pytest.approx(place(30)), 3.2),
        (pytest.approx(place(70)), 3.2),
    ]
    lower, upper = points[0].cy, points[1].cy
    assert (lower, upper) == (pytest.approx(14 + 72 * 0.25), pytest.approx(14 + 72 * 0.68))
    assert points[0].filled and not points[1].filled
    spans = [(line.x1, line.x2) for line in picture.all(Line) if line.y1 == line.y2 == lower]
    assert spans == [(pytest.approx(place(20)), pytest.approx(place(40)))]
    ends = sorted({round(line.x1, 6) for line in picture.all(Line) if line.y1 == upper - 3 and line.y2 == upper + 3})
    assert ends == pytest.approx([place(60), place(80)])
    dotted = [line for line in picture.all(Line) if line.dash]
    assert [(line.x1, line.y1, line.x2, line.y2) for line in dotted] == [
        pytest.approx((place(30), lower + 4, place(30), upper)),
        pytest.approx((place(30), upper, place(70) - 4, upper)),
    ]
    ticks = {words.text: (words.x + words.width / 2, words.y) for words in picture.all(Words)}
    assert ticks[f"{first:g}"] == pytest.approx((34, 14 - 11.5)) and ticks[f"{last:g}"] == pytest.approx((234, 2.5))
    ticks = said(picture)
    assert ticks["now"] == pytest.approx((0, lower - 2.8)) and ticks["target"] == pytest.approx((0, upper - 2.8))
    for target, dotted_lines in ((30.55, 1), (30.65, 2)):  # 4.4 and 5.2 points apart: a stair needs more than 5
        near = gap_drawn(replace(gap, target=target))
        assert len([line for line in near.all(Line) if line.dash]) == dotted_lines


@pytest.mark.parametrize("name", PAPERS)
def test_cards_stand_side_by_side_and_fill_the_sheet(name: str) -> None:
    paper = paper_of(name)
    cards = [paper.card(place) for place in range(paper.cards_a_sheet)]
    assert [card.x for card in cards] == pytest.approx([place * cards[0].width for place in range(len(cards))])
    assert cards[-1].right == pytest.approx(paper.sheet[0]) and {card.height for card in cards} == {paper.sheet[1]}
    assert paper.cards_a_sheet == (2 if name in ("a4", "letter") else 1)
    with pytest.raises(UserError):
        paper_of("a3")


def test_sizes_of_paper_in_millimetres_and_inches() -> None:
    sizes = {name: tuple(round(side / MM_pt, 1) for side in paper_of(name).page) for name in PAPERS}
    assert sizes == {"a4": (210, 297), "a5": (148, 210), "letter": (215.9, 279.4), "half-letter": (139.7, 215.9)}


def test_margins_and_the_card_s_columns() -> None:
    inside = Rectangle(10, 20, 100, 200).inset(5)
    assert inside == Rectangle(15, 25, 90, 190) and (inside.top, inside.right) == (215, 105)
    margin = LAYOUT.measures.margin * POINTS_PER_m
    grid = grid_on(Rectangle(0, 0, 400, 500), LAYOUT.measures, Density(0.9, box_share=0.5))
    assert grid.frame == Rectangle(margin, margin, 400 - 2 * margin, 500 - 2 * margin)
    assert grid.gutter == pytest.approx(0.165 * grid.frame.width)
    assert grid.body + grid.gutter == grid.frame.width
    assert grid.box_height == pytest.approx(LAYOUT.measures.box_height * POINTS_PER_m / 2)
    assert grid.scale == 0.9 and AIRY.scale == 1.0 and POINTS_PER_m == pytest.approx(1000 * MM_pt)
    for name, more in (("a4", 1.5), ("a5", 1.0)):
        frame, page = page_frame(paper_of(name), LAYOUT), paper_of(name).page
        assert (frame.x, frame.y) == pytest.approx((more * margin, more * margin + 12))
        assert (frame.right, frame.top) == pytest.approx((page[0] - more * margin, page[1] - more * margin))


class Section:
    def __init__(self, height: float) -> None:
        self.height = height

    def draw(self, *_: object) -> None:
        raise AssertionError("nothing is drawn here")


FRAME = Rectangle(10, 20, 300, 100)


def laid(pages: list[Page]) -> list[list[tuple[float, float]]]:
    return [[(x, top) for x, top, _ in page.sections] for page in pages]


def test_groups_flow_down_a_page_and_on_to_the_next_unsplit() -> None:
    """A hundred points: 40 and 10 together, 9 between groups, then 41 just fit."""
    groups = [[Section(40), Section(10)], [Section(41)], [Section(30)], [Section(62)], [Section(150)], [Section(1)]]
    pages = flow(groups, FRAME)  # type: ignore[arg-type]
    assert laid(pages) == [[(10, 120), (10, 80), (10, 61)], [(10, 120)], [(10, 120)], [(10, 120)], [(10, 120)]]
    assert [page.overflows for page in pages] == [False, False, False, True, False]
    assert laid(flow(groups[:2], FRAME, space=10)) == [[(10, 120), (10, 80)], [(10, 120)]]  # type: ignore[arg-type]


@pytest.mark.parametrize(("over", "overflows"), [(0.05, False), (0.5, True)])
def test_a_page_overflows_by_more_than_a_tenth_of_a_point(over: float, overflows: bool) -> None:
    section = SimpleNamespace(height=100.0 + over)
    assert Page(Rectangle(10, 20, 50, 100), [(10, 120, section)]).overflows == overflows  # type: ignore[list-item]


def test_columns_fill_under_the_title_then_whole_pages() -> None:
    groups = [[Section(height)] for height in (40, 31, 80, 30, 90, 95, 3)]
    pages = flow(groups, FRAME, title=Section(11), lefts=(10, 160))  # type: ignore[arg-type]
    assert laid(pages) == [
        [(10, 120), (10, 100), (10, 51), (160, 100)],
        [(10, 120), (160, 120)],
        [(10, 120), (160, 120)],
    ]
    assert sum(len(page.sections) for page in pages) == 1 + len(groups)
    for page in pages[1:]:
        assert page.sections[0][:2] == (10, 120)


def test_every_quantity_of_the_block_has_a_chart_with_its_weeks_and_ranges() -> None:
    made = block()
    charts = [one for row in chart_rows(made, LAYOUT, 500, 70) for one in row._charts]  # type: ignore[attr-defined]
    assert len(charts) == len(LIFT_QUALITIES) + 1 + len(TIERS) + 1 + len(JOINTS)
    weeks = made.weeks
    for one, quality in zip(charts, LIFT_QUALITIES, strict=False):
        assert one.values == [(week.totals.working_sets.get(quality, 0.0),) for week in weeks]
        assert [high for _, high in one.bands] == [week.bands.working_sets[quality].high for week in weeks]
    whole, *tiers = charts[len(LIFT_QUALITIES) : len(LIFT_QUALITIES) + 4]
    assert [value for (value,) in whole.values] == [
        sum(values) for values in zip(*([v for (v,) in one.values] for one in tiers), strict=True)
    ]
    sprints, *joints = charts[len(LIFT_QUALITIES) + 4 :]
    assert [value for (value,) in sprints.values] == [week.totals.sprint_efforts for week in weeks]
    for one, joint in zip(joints, JOINTS, strict=True):
        points = [week.totals.joint_stress.get(joint) for week in weeks]
        assert one.values == [(p.left, p.right) if p else (0.0, 0.0) for p in points]
        assert [low for low, _ in one.bands] == [None] * len(weeks)


def test_a_week_without_some_work_has_no_bar_for_it() -> None:
    made = block(weeks=1)
    none = made.weeks[0].totals.model_copy(update={"contacts": {}, "working_sets": {}, "joint_stress": {}})
    empty = made.model_copy(update={"weeks": (made.weeks[0].model_copy(update={"totals": none}),)})
    charts = [one for row in chart_rows(empty, LAYOUT, 500, 70) for one in row._charts]  # type: ignore[attr-defined]
    assert [one.values[0] for one in charts if "print" not in one.title] == [(0,)] * 8 + [(0, 0)] * len(JOINTS)


@pytest.mark.parametrize(("width", "columns"), [(91.0, 1), (197.9, 1), (198.0, 2), (304.0, 3)])
def test_as_many_charts_a_row_as_fit(width: float, columns: int) -> None:
    """92 points each, 14 between; eight weeks need no more."""
    first = chart_rows(block(), LAYOUT, width, 70)[0]
    assert len(first._charts) == columns and first.height == 70  # type: ignore[attr-defined]
    assert first._chart_width == pytest.approx((width - 14 * (columns - 1)) / columns)  # type: ignore[attr-defined]
