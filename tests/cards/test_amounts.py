"""Sets and reps, side and load share a line as long as there is white between them; then they give way in order."""

from __future__ import annotations

import pytest

from planner.cards import fonts
from planner.cards.grid import Density, Grid
from planner.cards.item_row import ItemRow
from planner.cards.paper import Rectangle
from planner.domain.block import Item

from .invented_block import block, item, layout
from .recorder import Line, Recorder, Words

LAYOUT = layout()
STEP_pt = 0.25
GRID = Grid(Rectangle(0, 0, 368.0, 600), Density(), 18.0, 10)
LOADED = item("calf", "Calf raise", 12, 10, side="each", load_kg=102.5, rest_s=60)
TO_FIND = item("one-leg", "Step-up", 3, 8, side="each", implement="pair-of-dumbbells", reps_in_reserve=2)


def amount(one: Item, width: float, scale: float) -> Recorder:
    """What is drawn at the right of an item, on a card of ``width`` points inside its margins."""
    grid = Grid(Rectangle(0, 0, width, 600), Density(scale), 18.0, 10)
    row, canvas = ItemRow(one, 1, block(weeks=1).for_athlete, LAYOUT, grid), Recorder()
    assert row._said is not None
    row._draw_amount(canvas, row._said, 0.0, 100.0)  # type: ignore[arg-type]
    return canvas


def widest_apart(one: Item, scale: float, words: str) -> tuple[Recorder, Recorder]:
    """The last width at which ``words`` are not on the line of the sets, and the first at which they are."""
    narrow, wide = 200.0, 800.0
    while wide - narrow > STEP_pt:
        middle = (narrow + wide) / 2
        narrow, wide = (narrow, middle) if on_the_line(amount(one, middle, scale), words) else (middle, wide)
    return amount(one, narrow, scale), amount(one, wide, scale)


def on_the_line(canvas: Recorder, words: str) -> bool:
    dose, *others = canvas.all(Words)
    return any(one.text == words and one.y == dose.y for one in others)


def said(canvas: Recorder, text: str) -> Words:
    [found] = [words for words in canvas.all(Words) if words.text == text]
    return found


def white(left: Words, right: Words) -> float:
    return right.x - left.x - left.width


@pytest.mark.parametrize("scale", [0.9, 1.0, 1.2])
def test_a_side_takes_two_lines_where_less_than_five_points_of_white_would_be_left(scale: float) -> None:
    before, now = widest_apart(LOADED, scale, "each leg")
    assert 5 <= white(said(now, "each leg"), said(now, "102.5 kg")) < 5 + STEP_pt
    assert white(said(now, "12 × 10"), said(now, "each leg")) == pytest.approx(4)
    each, leg = said(before, "each"), said(before, "leg")
    assert each.y > leg.y == said(before, "12 × 10").y and each.x == leg.x


@pytest.mark.parametrize("scale", [0.9, 1.2])
def test_figures_shrink_together_and_keep_five_points_of_white(scale: float) -> None:
    wide, narrow = amount(LOADED, 400.0, scale), amount(LOADED, 200.0, scale)
    dose, load = said(narrow, "12 × 10"), said(narrow, "102.5 kg")
    widest = max((said(narrow, "each"), said(narrow, "leg")), key=lambda one: one.width)
    assert white(widest, load) == pytest.approx(5)
    assert dose.width / said(wide, "12 × 10").width == pytest.approx(load.width / said(wide, "102.5 kg").width)
    assert dose.width < said(wide, "12 × 10").width


@pytest.mark.parametrize("scale", [0.9, 1.0, 1.2])
def test_a_blank_for_the_load_shares_the_line_where_eleven_points_of_white_are_left(scale: float) -> None:
    before, now = widest_apart(TO_FIND, scale, "each hand")
    assert 11 <= white(said(now, "each leg"), said(now, "each hand")) < 11 + STEP_pt
    assert said(before, "each hand").y < said(before, "3 × 8").y
    [blank] = now.all(Line)
    assert blank.x2 - blank.x1 == 30 and said(now, "kg").x - blank.x2 == pytest.approx(3)


def test_a_cue_of_more_than_five_lines_goes_below_the_boxes() -> None:
    """The last cue, word by word, that is still next to the boxes has five lines."""
    lines = []
    for count in range(15, 60):
        row = ItemRow(item("calf", "Raise", 3, 8, cues=("down " * count,)), 1, block(weeks=1).for_athlete, LAYOUT, GRID)
        lines.append([round(text.height / (9.2 * 1.2)) for text in row._left[2:]])
    beside = [found for found in lines if found]
    assert beside[-1] == [5] and lines[len(beside) :] == [[]] * (45 - len(beside)) and len(beside) < 45


def test_many_figures_push_the_side_and_nothing_leaves_the_column() -> None:
    for width in (200.0, 260.0, 345.0):
        canvas = amount(LOADED, width, 1.0)
        body = width * (1 - 0.165)
        assert min(one.x for one in canvas.all(Words)) == pytest.approx(body * 0.565)
        assert max(one.x + one.width for one in canvas.all(Words)) <= body + 0.01


@pytest.mark.parametrize(("load_kg", "said_so"), [(5.0, "5 kg"), (102.5, "102.5 kg")])
def test_a_load_is_as_large_as_the_sets(load_kg: float, said_so: str) -> None:
    canvas = amount(item("calf", "Calf raise", 3, 8, load_kg=load_kg), 400.0, 1.0)
    assert said(canvas, said_so).width == pytest.approx(fonts.width_of(said_so, "bold", 16))
