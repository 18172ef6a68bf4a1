"""Boxes to write in stay clear of each other, of the text and of the margins, on every kind of page."""

from __future__ import annotations

from itertools import combinations

import pytest
from pypdf import PageObject, PdfReader
from pypdf.generic import ContentStream

from planner.domain.block import Block, Gym

from .invented_block import block, item, layout, with_session
from .reading import cards
from .test_sheets import TESTS

LAYOUT = layout()
TOUCH_pt = 0.7  # two frames may share the width of their line
LABEL_pt = 9.0  # a box's own number stands this near its upper left corner
Box = tuple[float, float, float, float]  # left, lower, right, upper


def boxes_of(page: PageObject, reader: PdfReader) -> list[Box]:
    """Outlined rectangles as high as a writing box; charts have outlines too, but on the overview alone."""
    found, last = [], None
    for operands, operator in ContentStream(page.get_contents(), reader).operations:
        if operator == b"re":
            x, y, width, height = map(float, operands)
            last = (x, y, x + width, y + height)
        elif operator in (b"S", b"s") and last is not None:
            found.append(last)
            last = None
        elif operator in (b"f", b"n", b"B", b"f*"):
            last = None
    return found


def texts_of(page: PageObject) -> list[tuple[float, float, str]]:
    """Where each piece of text begins, in points."""
    found: list[tuple[float, float, str]] = []

    def visit(text: str, cm, tm, *_: object) -> None:  # type: ignore[no-untyped-def]
        if text.strip():
            x = tm[4] * cm[0] + tm[5] * cm[2] + cm[4]
            y = tm[4] * cm[1] + tm[5] * cm[3] + cm[5]
            found.append((x, y, text.strip()))

    page.extract_text(visitor_text=visit)
    return found


def crowded() -> Block:
    """Twelve items with all that a row can hold."""
    long = "Rear-foot-elevated split squat, front heel up on a wedge"
    items = [
        item("approach-jump", "Approach jump", 6, 1, side="left", contacts=6, tier="high", rest_s=150),
        item("jump", "Hops", 9, 5, side="each", height_m=0.3, contacts=90, tier="medium"),
        item("main-lift", "Squat", 5, 4, load_kg=142.5, implement="barbell", percent=81.0, reps_in_reserve=3),
        *[
            item(
                "one-leg", long, sets, 8, side="each", reps_in_reserve=2, implement="pair-of-dumbbells", note="find it"
            )
            for sets in range(1, 8)
        ],
        item("calf", "Raise", 12, 12, load_kg=40.0, implement="dumbbell", cautions=("Mind the step.",) * 2),
        item("trunk", "Hold", 4, hold_s=30, side="each", implement="free", rest_s=45),
    ]
    gym = Gym(bar_kg=20.0, plates_kg=(25.0, 20.0, 15.0, 10.0, 5.0, 2.5, 1.25), dumbbells_kg=(20.0, 40.0))
    made = with_session(items)
    return made.model_copy(update={"for_athlete": made.for_athlete.model_copy(update={"gym": gym, "tests": TESTS})})


@pytest.mark.parametrize("paper", ["a4", "a5", "letter", "half-letter"])
@pytest.mark.parametrize("sheets", [("cards",), ("tests",)])
@pytest.mark.parametrize("made", [block(weeks=1), crowded()], ids=["usual", "crowded"])
def test_boxes_are_clear_of_each_other_of_text_and_of_the_edge(
    paper: str, sheets: tuple[str, ...], made: Block
) -> None:
    reader = cards(made, LAYOUT, paper, sheets=sheets).reader
    margin, count = LAYOUT.measures.margin / 0.0254 * 72, 0
    for page in reader.pages:
        boxes, texts = boxes_of(page, reader), texts_of(page)
        count += len(boxes)
        width, height = float(page.mediabox.width), float(page.mediabox.height)
        for left, lower, right, upper in boxes:
            assert margin - 1 <= left and right <= width - margin + 1
            assert margin - 1 <= lower and upper <= height - margin + 1
            inside = [text for x, y, text in texts if left < x < right and lower < y < upper - LABEL_pt]
            assert not inside, f"{inside} is written in a box"
        for one, other in combinations(boxes, 2):
            over = min(one[2], other[2]) - max(one[0], other[0]), min(one[3], other[3]) - max(one[1], other[1])
            assert min(over) <= TOUCH_pt, (one, other)
    assert count >= (5 if sheets == ("tests",) else 20) or (sheets == ("tests",) and not made.for_athlete.tests)
