"""The warm-up fits its minutes; the movement sheet and the test sheet have everything in the block, once."""

from __future__ import annotations

import datetime
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.cards.battery_sheet import Asked, BatteryRow, battery, timetable
from planner.cards.card_text import TextBlock
from planner.cards.movement_sheet import ranges
from planner.domain.block import TestLine
from planner.domain.card_layout import Record
from planner.domain.measure import TEST_KINDS
from planner.prescription.warm_up import fitted, kind_of

from .invented_block import block, item, layout, session, with_session
from .reading import cards
from .recorder import Recorder, Rect, Words

LAYOUT = layout()


def session_of(*parts: str, minutes: int = 10):
    return session(1, 1, [item(part, f"{part} work", 3, 5) for part in parts], warm_up_minutes=minutes)


@given(st.sampled_from(["sprint", "jump", "lift", "test"]), st.integers(2, 30), st.booleans())
def test_a_warm_up_adds_up_to_its_minutes(kind: str, minutes: int, with_landing: bool) -> None:
    planned = session_of(*(["landing"] if with_landing else []), "calf", minutes=minutes)
    steps = fitted(LAYOUT.warm_up[kind], planned)
    assert sum(each for _, each in steps) == minutes
    assert all(each >= 1 for _, each in steps)
    given_order = list(LAYOUT.warm_up[kind])
    assert [step for step, _ in steps] == [step for step in given_order if step in [kept for kept, _ in steps]]
    if with_landing:
        assert not any("landing" in step.not_with for step, _ in steps)


@pytest.mark.parametrize(
    ("parts", "kind"),
    [
        (("landing", "sprint", "main-lift"), "sprint"),
        (("landing", "main-lift"), "jump"),
        (("main-lift", "calf"), "lift"),
        (("test",), "test"),
    ],
)
def test_the_most_demanding_part_names_the_warm_up(parts: tuple[str, ...], kind: str) -> None:
    assert kind_of(session_of(*parts)) == kind


def test_landing_preparation_is_on_a_jump_day_without_landings_only() -> None:
    bare, landed = (
        " ".join(cards(with_session([item(part, part, 3, 5) for part in parts]), LAYOUT, week=1).pages[0])
        for parts in (("jump",), ("landing", "jump"))
    )
    assert "each held two seconds" in bare and "each held two seconds" not in landed


@pytest.mark.parametrize("paper", ["a4", "a5", "letter"])
def test_every_movement_is_on_the_wall_sheet_once_with_all_its_cues(paper: str) -> None:
    made = block()
    text = "\n".join(" ".join(page) for page in cards(made, LAYOUT, paper, sheets=("movements",)).pages)
    items = {one.movement: one for week in made.weeks for each in week.sessions for one in each.items if one.sets}
    assert len(items) > 15
    for one in items.values():
        assert text.count(one.name) >= 1
        assert all(cue in text for cue in one.cues) and all(caution in text for caution in one.cautions)
    names = [one.name for one in items.values()]
    lone = [name for name in names if not any(name != other and name in other for other in names)]
    assert all(text.count(name) == 1 for name in lone)


@given(st.sets(st.integers(1, 16), min_size=1))
def test_ranges_name_every_week(weeks: set[int]) -> None:
    read: set[int] = set()
    assert len(ranges(list(weeks)).split(", ")) == len({week for week in weeks if week - 1 not in weeks})
    for part in ranges(list(weeks)).split(", "):
        first, _, last = part.partition("–")
        read |= set(range(int(first), int(last or first) + 1))
    assert read == weeks


DAY = datetime.date(2025, 9, 5)
TESTS = (
    TestLine(kind="heel-raise", side="left", trials=1, date=DAY, result="24 reps", how=("strict",)),
    TestLine(kind="heel-raise", side="right", trials=1, date=DAY, result="28 reps", how=("strict",)),
    TestLine(kind="lift", movement="Back squat", trials=1, date=DAY, result="122.5 kg × 4, 2 left"),
    TestLine(kind="touch", trials=6, date=DAY, result="3.10, 3.12 m", how=("one-leg left", "vane tape")),
)


def with_tests(**changes: object):
    made = block(weeks=1)
    return made.model_copy(update={"for_athlete": made.for_athlete.model_copy(update={"tests": TESTS, **changes})})


def test_the_timetable_goes_on_from_test_to_test_until_nobody_knows() -> None:
    asked = [Asked(name, "", "", [(None, "")], ("result",), 1, minutes) for name, minutes in
             (("mass", 20), ("touch", 12), ("squat", 10), ("new", None), ("more", 5))]  # fmt: skip
    assert timetable(asked, LAYOUT) == ["minute 0 – 20", "minute 20 – 32", "minute 32 – 42", "", ""]
    silent = LAYOUT.model_copy(update={"sheets": LAYOUT.sheets.model_copy(update={"minute": None})})
    assert timetable(asked, silent) == [""] * 5


def test_both_legs_take_twice_the_time_and_jumps_come_before_lifts() -> None:
    asked = battery(with_tests(), LAYOUT)
    legs = [one for one in asked if len(one.sides) == 2]
    kinds = {words.name: words.minutes for words in LAYOUT.tests.values()}
    assert all(one.minutes == 2 * kinds[one.name] for one in legs if one.name in kinds)
    order = list(LAYOUT.tests)
    assert order.index("touch") == 0 and order.index("flying-sprint") < order.index("lift") < order.index("heel-raise")


def test_the_battery_is_every_test_in_the_order_of_the_layout() -> None:
    asked = battery(with_tests(), LAYOUT)
    assert [one.name for one in asked] == ["Body mass", "Touch", "Back squat", LAYOUT.tests["heel-raise"].name, "New"]
    assert [side for side, _ in asked[3].sides] == ["left", "right"]
    assert asked[1].trials == 6, "as many as were taken, where that is more than the usual"


@pytest.mark.parametrize("paper", ["a4", "a5"])
def test_the_test_sheet_says_how_and_what_came_of_it_and_has_the_boxes(paper: str) -> None:
    pages = cards(with_tests(mass_unit="lb", length_unit="in"), LAYOUT, paper, sheets=("tests",)).pages
    lines = [line for page in pages for line in page]
    text = " ".join(lines)
    for words in ("vane tape", "last time: 2025-09-05: 3.10, 3.12 m", "last time (left leg): 2025-09-05: 24 reps"):
        assert words in text, words
    assert [line for line in lines if line.endswith("touch, in")] == [f"{trial} touch, in" for trial in range(1, 7)]
    assert "mass, lb" in lines and "load, lb" in lines and lines.count("reps") == 3  # the lift's, and one a leg
    asked = [sentence.replace("5 cm (2 in)", "2 in") for sentence in LAYOUT.test_day]
    assert asked != list(LAYOUT.test_day) and all(sentence in text for sentence in asked)


@pytest.mark.parametrize(
    ("records", "width", "lines", "box"),
    [
        (("reach",), 250.0, [3, 2], 58.0),  # 3 times 58 and 2 times 8 in 200; 4 would take 256
        (("mass", "reps"), 252.0, [1] * 5, 58.0),  # 118 a trial; with the gap between trials 244
        (("mass", "reps"), 294.0, [2, 2, 1], 58.0),  # just those 244
        (("mass", "reps", "reserve"), 150.0, [1] * 5, 32.0),  # narrower than its boxes: 3 and 2 gaps of 2 in 100
    ],
)
def test_boxes_of_a_test_are_in_lines_by_side(
    records: tuple[Record, ...], width: float, lines: list[int], box: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """50 points on the left for a side; as many trials a line as fit, at least one; a line takes 33.5 points."""
    monkeypatch.setattr(TextBlock, "draw", lambda *_: None)  # a paragraph needs a whole canvas
    asked = Asked("Jump", "", "", [(None, "best"), ("left", "worse")], records, 5, None)
    row, canvas = BatteryRow(asked, 1, with_tests().for_athlete, LAYOUT, width), Recorder()
    row.draw(canvas, 10.0, 700.0)  # type: ignore[arg-type]
    boxes = canvas.all(Rect)
    rows = [[one for one in boxes if one.y == y] for y in sorted({one.y for one in boxes}, reverse=True)]
    assert [len(one) for one in rows] == [count * len(records) for count in lines] * 2
    for boxes_of_line in rows:
        assert [(one.width, one.height) for one in boxes_of_line] == [(pytest.approx(box), 20.0)] * len(boxes_of_line)
        lefts, gap = [one.x for one in boxes_of_line], [box + 2.0] * (len(records) - 1) + [box + 8.0]
        assert lefts == pytest.approx([60 + sum((gap * 5)[:at]) for at in range(len(lefts))])
        assert lefts[-1] + box <= 10 + width + 1e-9
    assert [one[0].y - two[0].y for one, two in pairwise(rows)] == pytest.approx([33.5] * (len(rows) - 1))
    assert rows[-1][0].y - 4 == pytest.approx(700 - row.height), "4 points below the last box"
    numbers = [one.text.split()[0] for one in canvas.all(Words) if one.text[0].isdigit()]
    assert numbers == ["1", "2", "3", "4", "5"] * 2
    [leg] = [one for one in canvas.all(Words) if one.text == LAYOUT.words.left]
    assert (leg.x, leg.y) == pytest.approx((10, rows[len(lines)][0].y + 7)), "next to the first line of its boxes"


@pytest.mark.parametrize(("unit", "said"), [("cm", "1 distance, m"), ("in", "1 distance, in")])
def test_a_hop_is_written_down_as_it_was_measured(unit: str, said: str) -> None:
    hop = TestLine(kind="one-leg-hop", side="left", trials=3, date=DAY, result="2.05 m")
    made = with_tests(length_unit=unit, tests=(hop,))
    assert said in cards(made, LAYOUT, "a4", sheets=("tests",)).pages[0]


def test_every_kind_of_test_that_can_be_taken_has_its_words() -> None:
    assert set(LAYOUT.tests) == set(TEST_KINDS)


@pytest.mark.parametrize(
    ("style", "said"), [("iso", "Mon 2026-01-05"), ("day-first", "Mon 5 Jan 2026"), ("month-first", "Mon Jan 5, 2026")]
)
def test_dates_are_in_the_athletes_style_everywhere(style: str, said: str) -> None:
    made = block(weeks=1)
    made = made.model_copy(update={"for_athlete": made.for_athlete.model_copy(update={"dates": style})})
    read = cards(made, LAYOUT, "a4")
    assert said in read.pages[0] and said in read.pages[-2]
    assert ("2026-01-05" in " ".join(line for page in read.pages for line in page)) == (style == "iso")


@pytest.mark.parametrize("sheets", [("overview",), ("tests", "cards"), ("movements",)])
def test_only_the_sheets_asked_for(sheets: tuple[str, ...]) -> None:
    reader = cards(block(weeks=1), LAYOUT, "a4", sheets=sheets).reader
    titles = [entry.title for entry in reader.outline if not isinstance(entry, list)]
    known = {"overview": "Jump block", "movements": "The movements", "tests": "Test day"}
    assert titles == [known[name] for name in known if name in sheets] + (
        ["Week 1: build the base"] if "cards" in sheets else []
    )
