"""A session's rows are shared out over cards by their heights: whole, in order, in two near the middle."""

from __future__ import annotations

from typing import Any

import pytest

from planner.cards.grid import grid_on
from planner.cards.item_row import ItemRow
from planner.cards.paper import Rectangle
from planner.cards.session_card import _share_out

from .invented_block import item, layout


class Tall:
    def __init__(self, height: float) -> None:
        self.height = height


def rows(said: str) -> list[Any]:
    """``"100 60c 70c"``: heights in points; rows with a letter are items of that part."""
    made = []
    for word in said.split():
        one: Any = Tall(float(word.rstrip("cj")))
        if word[-1] in "cj":
            one = object.__new__(ItemRow)
            one.height, one.item = float(word[:-1]), item({"c": "calf", "j": "jump"}[word[-1]], "Work", 3, 8)
        made.append(one)
    return made


def shared(said: str, first_head: float = 100.0) -> list[list[float]] | None:
    """On cards of 300 points with heads of 100, later 50, feet of 20, on the last 60, and 10 for the last line.

    So a first card that is not the last has 170 for rows, a last one 130; later ones have 220 and 180.
    """
    margin = layout().measures.margin / 0.0254 * 72
    grid = grid_on(Rectangle(0, 0, 400, 300 + 2 * margin), layout().measures)
    heads, feet = [Tall(first_head), Tall(50.0)], [Tall(20.0), Tall(60.0)]
    shares = _share_out(rows(said), grid, heads, feet)  # type: ignore[arg-type]
    return None if shares is None else [[row.height for row in share] for share in shares]


@pytest.mark.parametrize(
    ("said", "shares"),
    [
        ("130", [[130]]),
        ("100 31", [[100], [31]]),
        ("169 40", [[169], [40]]),
        ("100 60 50", [[100], [60, 50]]),
        ("60 60 60", [[60], [60, 60]]),
        ("20 20 170", [[20, 20], [170]]),
        ("171 50", [[], [171], [50]]),
        ("171", [[], [171]]),
        ("160 160 100 90", [[160], [160], [100], [90]]),
        ("100c 20c 60j", [[100, 20], [60]]),
        ("100 60 90", [[100], [60, 90]]),
        ("60c 100j 90j", [[60, 100], [90]]),
        ("100c 100c 20j", [[100], [100, 20]]),
        ("100c 60c 50j", [[100, 60], [50]]),
        ("60c 60j 20j 20j", [[60], [60, 20, 20]]),
        ("40c 40c 40c 40c", [[40, 40], [40, 40]]),
    ],
)
def test_rows_fill_as_few_cards_as_they_fit_and_two_cards_alike(said: str, shares: list[list[float]]) -> None:
    assert shared(said) == shares


@pytest.mark.parametrize(("said", "first_head"), [("221", 100.0), ("10 221", 100.0), ("10", 281.0)])
def test_a_row_or_head_taller_than_a_card_is_on_none(said: str, first_head: float) -> None:
    assert shared(said, first_head) is None
