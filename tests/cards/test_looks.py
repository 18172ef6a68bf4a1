"""Each part of the print looks as its kept pictures do, to the point; a word or a line moved by one point is noticed.

Where a part is meant to change: ``python -m tests.cards.renew_pictures``, and look at the new pictures.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from planner.cards import marks
from planner.cards.card_text import draw_line

from . import looks
from .pictures import LOOKS, LOOK_SQUARE_pt, differences, kept, look, save

MOVED_pt = 1.0


def found(drawn: Callable[[], bytes], saved_in: Path | None = None) -> list[str]:
    now, name = look(drawn()), looks.named(drawn)
    different = differences(now, kept(LOOKS, name), LOOK_SQUARE_pt)
    if different and saved_in:
        save(now, saved_in, name)
    return different


@pytest.mark.parametrize("drawn", looks.CARDS)
def test_cards_look_as_they_were_kept(drawn: Callable[[], bytes], tmp_path: Path) -> None:
    assert found(drawn, tmp_path) == [], f"as drawn now: {tmp_path}"


@pytest.mark.parametrize("drawn", looks.PAGES)
def test_pages_look_as_they_were_kept(drawn: Callable[[], bytes], tmp_path: Path) -> None:
    assert found(drawn, tmp_path) == [], f"as drawn now: {tmp_path}"


def test_every_kept_picture_is_of_a_look() -> None:
    names = {path.stem[:-2] for path in LOOKS.glob("*.png")}
    assert names == {looks.named(one) for one in (*looks.CARDS, *looks.PAGES)}


@pytest.mark.parametrize("mark", ["rule", "box", "words"])
def test_a_mark_moved_by_a_point_is_seen(mark: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """If all rules, all boxes or the smallest words are one point higher, the test above fails."""
    if mark == "words":
        monkeypatch.setattr("planner.cards.item_row.draw_line", _raised_numbers)
    else:
        drawn = getattr(marks, mark)
        monkeypatch.setattr(marks, mark, lambda canvas, x, y, *size: drawn(canvas, x, y + MOVED_pt, *size))
    assert found(looks.card_short)


def _raised_numbers(canvas, x, baseline, text, *, size, **more):  # type: ignore[no-untyped-def]
    """The numbers in the boxes."""
    return draw_line(canvas, x, baseline + (MOVED_pt if size < 6 else 0.0), text, size=size, **more)
