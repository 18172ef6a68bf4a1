"""Boxes to write in stay clear of each other, of the text and of the margins, on every kind of page."""

from __future__ import annotations

from io import BytesIO
from itertools import combinations

import pypdfium2
import pytest
from pypdf import PageObject, PdfReader
from pypdf.generic import ContentStream

from planner.cards import item_row
from planner.cards.card_text import draw_line
from planner.cards.pdf_file import SheetName, draw_cards
from planner.domain.block import Block, Gym

from .invented_block import block, item, layout, with_session
from .looks import long_worded
from .test_sheets import TESTS

LAYOUT = layout()
TOUCH_pt = 0.7  # two frames may share the width of their line
LABEL_pt = 9.0  # a box's own number is this close to its upper left corner
INK_pt = 0.3  # the rectangles of glyphs are rounded outwards
GYM = Gym(bar_kg=20.0, plates_kg=(25.0, 20.0, 15.0, 10.0, 5.0, 2.5, 1.25), dumbbells_kg=(20.0, 40.0))
Rectangle = tuple[float, float, float, float]  # left, lower, right, upper


def boxes_of(page: PageObject, reader: PdfReader) -> list[Rectangle]:
    """Outlined rectangles as high as a writing box; charts have outlines too, but only on the overview."""
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


def words_of(page: pypdfium2.PdfPage) -> list[tuple[Rectangle, str]]:
    """What another program sees written on the page: the rectangle of each run of glyphs, and its text."""
    seen = page.get_textpage()
    rectangles = [seen.get_rect(number) for number in range(seen.count_rects())]
    return [(one, seen.get_text_bounded(*one).strip()) for one in rectangles]


def over(one: Rectangle, other: Rectangle) -> float:
    """How far two rectangles overlap, in points; 0 or less if they do not."""
    return min(min(one[2], other[2]) - max(one[0], other[0]), min(one[3], other[3]) - max(one[1], other[1]))


def overlaps(data: bytes) -> list[str]:
    """Every text on another, every text on a box that is not its own number, every box on another or off the card."""
    reader, pdf, found = PdfReader(BytesIO(data)), pypdfium2.PdfDocument(data), []
    for page, shown in zip(reader.pages, pdf, strict=True):
        words, boxes = words_of(shown), boxes_of(page, reader)
        found += [
            f"{said!r} on {under!r}"
            for (one, said), (other, under) in combinations(words, 2)
            if over(one, other) > INK_pt
        ]
        found += [
            f"{said!r} on a box"
            for one, said in words
            for box in boxes
            if over(one, box) > INK_pt and not _own(one, said, box)
        ]
        found += [f"box {one} on {other}" for one, other in combinations(boxes, 2) if over(one, other) > TOUCH_pt]
    pdf.close()
    return found


def _own(word: Rectangle, said: str, box: Rectangle) -> bool:
    """A box's number is small and in its upper left corner."""
    return said.isdigit() and word[0] - box[0] < LABEL_pt and 0 < box[3] - word[1] < LABEL_pt


def crowded() -> Block:
    """Twelve items with everything that a row can have."""
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
    made = with_session(items)
    return made.model_copy(update={"for_athlete": made.for_athlete.model_copy(update={"gym": GYM, "tests": TESTS})})


@pytest.mark.parametrize("paper", ["a4", "a5", "letter", "half-letter"])
@pytest.mark.parametrize("sheets", [("cards",), ("tests",)])
@pytest.mark.parametrize("made", [block(weeks=1), crowded()], ids=["usual", "crowded"])
def test_boxes_and_words_are_clear_of_each_other_and_of_the_edge(
    paper: str, sheets: tuple[SheetName, ...], made: Block
) -> None:
    data = draw_cards(made, paper=paper, layout=LAYOUT, sheets=sheets)
    assert overlaps(data) == []
    reader, count = PdfReader(BytesIO(data)), 0
    margin = LAYOUT.measures.margin / 0.0254 * 72
    for page in reader.pages:
        boxes = boxes_of(page, reader)
        count += len(boxes)
        width, height = float(page.mediabox.width), float(page.mediabox.height)
        for left, lower, right, upper in boxes:
            assert margin - 1 <= left and right <= width - margin + 1
            assert margin - 1 <= lower and upper <= height - margin + 1
    assert count >= (5 if sheets == ("tests",) else 20) or (sheets == ("tests",) and not made.for_athlete.tests)


@pytest.mark.parametrize("paper", ["a4", "half-letter"])
@pytest.mark.parametrize("weeks", [1, 8, 16])
def test_no_word_of_overview_and_movements_lies_on_another(paper: str, weeks: int) -> None:
    data = draw_cards(block(weeks=weeks), paper=paper, layout=LAYOUT, sheets=("overview", "movements"))
    pdf = pypdfium2.PdfDocument(data)
    for page in pdf:
        for (one, said), (other, under) in combinations(words_of(page), 2):
            assert over(one, other) <= INK_pt, f"{said!r} on {under!r}"
    pdf.close()


@pytest.mark.parametrize("sheet", ["cards", "tests"])
def test_words_twice_as_long_are_made_smaller_before_they_touch(sheet: SheetName) -> None:
    assert overlaps(draw_cards(crowded(), paper="a5", layout=long_worded(), sheets=(sheet,))) == []


@pytest.mark.parametrize("moved_pt", [-14.0, -8.0, 8.0, 14.0])
def test_a_line_of_plates_out_of_its_place_is_found(moved_pt: float, monkeypatch: pytest.MonkeyPatch) -> None:
    """The check above can fail: it sees a line moved onto the dose, the side or the boxes."""

    def draw(canvas, x, baseline, text, **more):  # type: ignore[no-untyped-def]
        return draw_line(canvas, x, baseline + (moved_pt if text.startswith("per side") else 0), text, **more)

    monkeypatch.setattr(item_row, "draw_line", draw)
    made = with_session([item("one-leg", "Split squat", 4, 5, side="each", load_kg=82.5, implement="barbell")] * 6)
    made = made.model_copy(update={"for_athlete": made.for_athlete.model_copy(update={"gym": GYM})})
    assert overlaps(draw_cards(made, paper="a5", layout=LAYOUT, sheets=("cards",)))
