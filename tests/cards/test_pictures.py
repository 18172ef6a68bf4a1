"""The in-season demo looks as its kept pictures do, page by page; a moved box or a missing line is noticed.

Where a page is meant to change: ``python -m tests.cards.renew_pictures``, and look at the new pictures.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from planner.cards import head_and_foot, item_row, marks

from .pictures import README_PAGES, TOLERANCE, differences, drawn, kept, save, shrunken

MOVED_pt = 2.0


def test_every_page_looks_as_it_was_kept(tmp_path: Path) -> None:
    now = drawn()
    found = differences(now, kept())
    if found:
        save(now, tmp_path)
    assert found == [], f"as drawn now: {tmp_path}"


@pytest.mark.parametrize("name", README_PAGES)
def test_what_readme_shows_is_the_page_that_is_kept(name: str) -> None:
    number = README_PAGES[name]
    assert differences([shrunken(name)], [kept()[number - 1]]) == [], "python -m tests.cards.renew_pictures"
    assert f"tests/cards/pictures/readme/{name}.png" in Path("README.md").read_text("utf-8")


def test_a_box_out_of_its_place_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    """If only the first box of the first card moves, only its page is named."""
    box, moved = marks.box, []

    def first_moved(canvas, x, y, *size):  # type: ignore[no-untyped-def]
        box(canvas, x, y - (0 if moved else MOVED_pt), *size)
        moved.append(True)

    monkeypatch.setattr(item_row.marks, "box", first_moved)
    assert len(differences(drawn(), kept())) == 1


@pytest.mark.parametrize("line", ["page line", "stop rule", "effort"])
def test_a_line_that_is_not_drawn_is_seen(line: str, monkeypatch: pytest.MonkeyPatch) -> None:
    cards = len(kept()) - 5
    if line == "stop rule":
        monkeypatch.setattr(head_and_foot.TextBlock, "draw", lambda *_: None)
    elif line == "effort":
        monkeypatch.setattr(item_row, "_how", lambda _: [])
    else:
        monkeypatch.setattr("planner.cards.session_card.Card._draw_page_line", lambda *_: None)
    assert len(differences(drawn(), kept())) >= cards


def test_a_page_more_or_less_is_seen() -> None:
    pages = kept()
    assert differences(pages[1:], pages) and differences([*pages, pages[0]], pages)


def test_a_shade_within_the_tolerance_is_no_difference() -> None:
    page = np.full((10, 10), 128.0)
    assert differences([page + TOLERANCE], [page]) == []
    assert differences([page + TOLERANCE + 1], [page]) != []
