"""What has too little room is made smaller until it fits, and no smaller."""

from __future__ import annotations

import pytest

from planner.cards import fonts
from planner.cards.approach_checks import ApproachChecks
from planner.cards.calendar_grid import calendar_grids
from planner.cards.card_text import draw_line, fitting_size
from planner.cards.charts import _label_y
from planner.cards.flow import page_frame
from planner.cards.grid import grid_on
from planner.cards.paper import Rectangle, paper_of

from .invented_block import block, item, layout, with_session
from .reading import Read, cards
from .recorder import Recorder, Rect, Words

LAYOUT = layout()
SLACK_pt = 0.01


def test_the_longest_word_of_a_side_head_just_fits_its_column() -> None:
    words, width = "Hips and Hamstrings", 30.0
    size = fitting_size(words, "semibold", 9.5, width)
    longest = fonts.width_of("Hamstrings", "semibold", size)
    assert width - 1 < longest < width
    assert fitting_size(words, "semibold", 9.5, 200.0) == 9.5


@pytest.mark.parametrize(("align", "left"), [("left", 100.0), ("centre", 85.0), ("right", 70.0)])
def test_a_line_takes_the_room_it_has_and_no_more(align: str, left: float) -> None:
    canvas = Recorder()
    width = draw_line(canvas, 100.0, 50.0, "wider than it may be", size=9, align=align, at_most=30.0)  # type: ignore[arg-type]
    [words] = canvas.all(Words)
    assert (words.x, words.y, width) == (left, 50.0, 30.0)
    assert words.width == pytest.approx(30.0, abs=SLACK_pt)


def test_checks_of_approach_jumps_end_at_the_edge_of_the_card_however_long_they_are() -> None:
    long = LAYOUT.model_copy(update={"approach_checks": ("quick and flat on the second-to-last step of all",) * 2})
    grid, canvas = grid_on(Rectangle(0, 0, 396, 612), LAYOUT.measures), Recorder()
    ApproachChecks(block(weeks=1).for_athlete, long, grid).draw(canvas, grid.frame.x + grid.gutter, 100.0)  # type: ignore[arg-type]
    label, *checks = canvas.all(Words)
    assert label.x == pytest.approx(grid.frame.x)
    assert max(one.x + one.width for one in checks) == pytest.approx(grid.frame.right, abs=SLACK_pt)
    boxes = sorted(canvas.all(Rect), key=lambda box: box.x)
    assert all(box.x + box.width < one.x for box, one in zip(boxes[1:], checks, strict=True))
    assert checks[0].x + checks[0].width < boxes[2].x


@pytest.mark.parametrize(("ceiling", "y"), [(9.0, 12.0), (8.5, 20.3), (1.0, 12.0), (1.5, 13.3)])
def test_a_ceiling_that_only_touches_a_figure_leaves_it_where_it_is(ceiling: float, y: float) -> None:
    """The bar ends at 10.2, its figure is from 12 to 19; one point of white belongs to it below."""
    assert _label_y((0.2,), (None, ceiling), 1.0) == pytest.approx(y)


@pytest.mark.parametrize(("spare", "height"), [(0.01, 27.1), (-0.01, 34.9)])
def test_the_name_of_a_session_has_its_cell_of_the_calendar_less_ten_points(spare: float, height: float) -> None:
    title = "X" * 60  # one word: spaces may shrink a little
    made = with_session([item("calf", "Calf raise", 2, 9)], title=title)
    weeks = made.weeks[:1]
    name = fonts.width_of(title, "regular", 8.2)
    width = (name + 10 + spare) * len(weeks[0].sessions) / 0.83
    [grid] = calendar_grids(made.model_copy(update={"weeks": weeks}), LAYOUT, width, 1000.0)
    assert grid._rows[0].height == pytest.approx(height), "16.5 and 10.6 for the role, or 18.4 for two lines"


@pytest.mark.parametrize(("letters_more", "size"), [(0, 14.0), (1, 12.0)])
def test_a_name_is_smaller_only_where_it_would_come_near_the_date(letters_more: int, size: float) -> None:
    """As many letters as fit at 14 points, 10 from the date; then one more."""
    grid = grid_on(paper_of("a5").card(0), LAYOUT.measures)
    room = grid.body - fonts.width_of("Mon 2026-01-05", "bold", 14) - 10
    name = "i" * (int(room / fonts.width_of("i", "bold", 14)) + letters_more)
    made = with_session([item("calf", "Calf raise", 2, 9)], name=name)
    assert sizes(cards(made, LAYOUT, week=1), name) == [size, 7.0]


def test_the_foot_of_a_page_names_the_athlete_in_the_room_that_the_page_number_leaves() -> None:
    """Twelve points before the number; 7 points of type where there is room."""
    frame = page_frame(paper_of("a5"), LAYOUT)
    number = fonts.width_of("page 1 of 1", "regular", 7)
    room = frame.width - number - 12
    for name, share in (("Ilse", None), ("Wiśniewska " * 10, 7.0)):
        who = with_session([item("calf", "Calf raise", 2, 9)], name=name.strip())
        drawn = cards(who, LAYOUT, sheets=("movements",))
        foot = f"{name.strip()} · {LAYOUT.sheets.movements}"
        expected = 7.0 if share is None else share * room / fonts.width_of(foot, "regular", 7)
        assert "page 1 of 1" in drawn.pages[0]
        assert sizes(drawn, foot) == [pytest.approx(expected, abs=SLACK_pt)]


def sizes(drawn: Read, text: str) -> list[float]:
    """Points of type of each run on the first page that opens with the text."""
    found: list[float] = []

    def visit(said: str, cm: list[float], tm: list[float], font: object, size: float) -> None:
        if said.strip().startswith(text):
            found.append(round(size * tm[0] * cm[0], 2))

    drawn.reader.pages[0].extract_text(visitor_text=visit)
    return found
