"""Every set, rep and load of the block is on its card, and nothing else; long sessions flow on, items stay whole."""

from __future__ import annotations

import pytest

from planner.domain.block import Block, Item, Session
from planner.domain.findings import UserError
from planner.prescription.item_words import prescribe
from planner.units import POUND_kg, as_read_by

from .invented_block import block, item, layout, with_session
from .reading import cards, work_on

LAYOUT = layout()


def expected_work(one: Item) -> str:
    """Worked out here from the block's fields, not by the code under test."""
    if one.distance_m:
        return f"{one.sets} × {one.distance_m:g} m"
    if one.hold_s:
        return f"{one.sets} × {one.hold_s} s"
    return f"{one.sets} × {one.reps}"


def expected_loads(session: Session, unit: str) -> list[str]:
    loads = [one.load_kg for one in session.items if one.sets and one.load_kg]
    if unit == "kg":
        return [f"{load:.2f}".rstrip("0").rstrip(".") + " kg" for load in loads]
    return [f"{load / POUND_kg:.1f}".removesuffix(".0") + " lb" for load in loads]


def work_by_session(made: Block, paper: str) -> dict[tuple[int, int], tuple[list[str], list[str]]]:
    found = {}
    for week in made.weeks:
        for number in range(1, len(week.sessions) + 1):
            read = cards(made, LAYOUT, paper, week=week.number, session=number)
            found[week.number, number] = work_on([line for page in read.pages for line in page])
    return found


@pytest.mark.parametrize(("paper", "unit"), [("a5", "kg"), ("half-letter", "lb"), ("a4", "kg")])
def test_each_card_has_the_blocks_work_and_no_other(paper: str, unit: str) -> None:
    made = block(mass_unit=unit, weeks=4)
    found = work_by_session(made, paper)
    assert len(found) == sum(len(week.sessions) for week in made.weeks)
    for week in made.weeks:
        for number, session in enumerate(week.sessions, start=1):
            work, loads = found[week.number, number]
            assert work == [expected_work(one) for one in session.items if one.sets], session.id
            assert loads == expected_loads(session, unit), session.id


def test_the_whole_document_holds_each_session_once() -> None:
    made = block(weeks=2)
    read = cards(made, LAYOUT, "a5")
    written = [work for lines in read.pages for work in work_on(lines)[0]]
    expected = [expected_work(one) for session in made.sessions for one in session.items if one.sets]
    assert written == expected


def test_twelve_items_flow_to_a_second_card_and_none_is_split() -> None:
    names = [f"Long-named movement number {number:02} on a raised wedge, front foot" for number in range(1, 13)]
    made = with_session([item("one-leg", name, 3, 8, side="each", load_kg=20.0 + at) for at, name in enumerate(names)])
    read = cards(made, LAYOUT, "a5", week=1)
    assert len(read.pages) == 2
    by_page = [work_on(lines)[1] for lines in read.pages]
    assert by_page[0] + by_page[1] == [f"{20 + at} kg" for at in range(12)]
    for at, name in enumerate(names):
        page = 0 if at < len(by_page[0]) else 1
        assert name in " ".join(read.pages[page]), "name, load and boxes of an item are on one card"
    assert "more on the next card" in read.text(0)
    assert "card 2 of 2" in read.text(1) and "continued" in read.text(1)
    assert "effort 0–10" in read.text(1) and "effort 0–10" not in read.text(0)


def test_the_stop_rule_is_on_every_card() -> None:
    read = cards(block(weeks=1), LAYOUT, "half-letter", week=1)
    for page in range(len(read.pages)):
        assert all(sentence in " ".join(read.pages[page]) for sentence in LAYOUT.stop_rule)


def test_what_hurt_when_planned_is_on_every_card_and_what_a_joint_went_through_on_none() -> None:
    pain = "Pain when planned, left knee: 3 of 10; it is loaded less, ask before each set."
    made = block(weeks=1).model_copy(update={"cautions": (pain, "History, left knee: sore for a month.")})
    read = cards(made, LAYOUT, "half-letter", week=1)
    for page in range(len(read.pages)):
        told = " ".join(read.pages[page])
        assert pain in told and "sore for a month" not in told


def test_an_item_barred_this_week_says_so_and_has_no_boxes() -> None:
    made = with_session([item("hamstring", "Nordic curl", 0, 5, note="match in two days")])
    page = " ".join(cards(made, LAYOUT, "a5", week=1).pages[0])
    assert "Nordic curl · not this week: match in two days" in page
    assert work_on(page.split("\n")) == ([], [])


@pytest.mark.parametrize(
    ("reserve", "said"),
    [(0, "0 reps in reserve"), (1, "1 rep in reserve"), (4, "4 reps in reserve"), (5, "easy, fast")],
)
def test_effort_is_a_number_only_where_people_can_judge_it(reserve: int, said: str) -> None:
    made = with_session([item("main-lift", "Back squat", 3, 5, load_kg=80.0, reps_in_reserve=reserve)])
    assert said in cards(made, LAYOUT, week=1).pages[0]


def test_a_load_to_find_gets_a_line_in_the_gyms_unit() -> None:
    to_find = {"side": "each", "reps_in_reserve": 2, "note": "find the load that leaves 2"}
    made = with_session([item("one-leg", "Step-up", 3, 8, **to_find)], mass_unit="lb")
    lines = cards(made, LAYOUT, week=1).pages[0]
    assert "load" in lines and "lb" in lines and "Find the load that leaves 2" in lines


@pytest.mark.parametrize("body_weight", [{"load_kg": 0.0}, {}, {"note": "body weight is enough"}])
def test_body_weight_work_asks_for_no_load(body_weight: dict[str, object]) -> None:
    made = with_session([item("calf", "Calf raise", 2, 9, side="each", reps_in_reserve=3, **body_weight)])
    lines = cards(made, LAYOUT, week=1).pages[0]
    assert "load" not in lines and "kg" not in lines and any("body weight" in line.lower() for line in lines)


@pytest.mark.parametrize(
    ("heights", "said"),
    [
        ({"drop_m": 0.2}, ["drop 20 cm"]),
        ({"height_m": 0.5, "height_of": "box"}, ["box 50 cm"]),
        ({"height_m": 0.3, "height_of": "hurdle"}, ["hurdle 30 cm"]),
        ({"height_m": 0.3}, ["height 30 cm"]),
        ({"drop_m": 0.3, "height_m": 0.5, "height_of": "hurdle"}, ["drop 30 cm", "hurdle 50 cm"]),
        ({"height_m": 0.5, "height_of": "box", "load_kg": 5.0}, ["5 kg", "box 50 cm"]),
    ],
)
def test_a_height_says_what_is_that_high(heights: dict[str, object], said: list[str]) -> None:
    lines = cards(
        with_session([item("jump", "Jump", 3, 4, contacts=12, tier="high", **heights)]), LAYOUT, week=1
    ).pages[0]
    assert [line for line in lines if line.endswith((" cm", " kg"))] == said


def test_head_and_tally_are_the_sessions_own() -> None:
    made = block()
    week = made.weeks[4]
    text = cards(made, LAYOUT, week=5, session=4).text(0)
    session = week.sessions[3]
    contacts = sum(one.contacts for one in session.items)
    sets = sum(one.sets for one in session.items if one.part in ("main-lift", "one-leg", "hamstring", "calf", "trunk"))
    for expected in (
        "Sat 2026-02-07", "Session 4 of 4 · heavier and faster", "76 min", "hard day", f"{contacts} contacts",
        f"{sets} working sets", "3 sprints", "best touch today", "speed kept",
    ):  # fmt: skip
        assert expected in text, expected
    assert "best touch today" not in cards(made, LAYOUT, week=5, session=1).text(0)


def test_each_trial_of_the_test_has_a_box() -> None:
    made = with_session([item("test", "Test jump off six steps", 6, 1, side="left", contacts=6, tier="high")])
    lines = cards(made, LAYOUT, week=1).pages[0]
    start = lines.index("6 × 1")
    boxes = [line for line in lines[start + 1 :] if line.isdigit()]
    assert boxes == [str(number) for number in range(1, 7)]
    assert all(as_read_by(sentence, "cm", "kg") in " ".join(lines) for sentence in LAYOUT.test_day)


@pytest.mark.parametrize(
    ("rest_s", "said"),
    [
        (42, "rest 40 s"),
        (51, "rest 45 s"),
        (55, "rest 60 s"),
        (90, "rest 90 s"),
        (95, "rest 1½ min"),
        (146, "rest 2½ min"),
        (180, "rest 3 min"),
    ],
)
def test_rest_is_said_as_a_coach_says_it(rest_s: int, said: str) -> None:
    made = with_session([item("calf", "Calf raise", 3, 8, load_kg=20.0, rest_s=rest_s)])
    assert said in cards(made, LAYOUT, week=1).pages[0]


def test_many_sets_share_one_long_box() -> None:
    made = with_session([item("jump", "Easy hops", 12, 4, contacts=48, tier="low")])
    lines = cards(made, LAYOUT, week=1).pages[0]
    assert "12 × 4" in lines
    assert "12" not in lines[lines.index("12 × 4") + 1 :]


def test_ramp_sets_lead_to_the_main_lift_and_stay_below_it() -> None:
    made = with_session([item("main-lift", "Back squat", 4, 5, load_kg=100.0, percent=80.0, reps_in_reserve=3)])
    assert "5 at 50 kg · 3 at 70 kg · 2 at 85 kg" in cards(made, LAYOUT, week=1).pages[0]


def test_a_text_longer_than_a_card_is_refused_with_its_place() -> None:
    cue = "Very long advice that goes on. " * 64
    items = [item("one-leg", "Step-up", 3, 8, cues=(cue,), cautions=(cue, cue))]
    with pytest.raises(UserError) as refused:
        cards(with_session(items), LAYOUT, week=1)
    finding = refused.value.findings[0]
    assert finding.code == "card-text-too-long" and "Step-up" in finding.hint and "week 1, session 1" in finding.message


def test_of_what_is_too_long_the_longest_on_the_card_is_named() -> None:
    """Only a first cue is printed, so that a long second one is not to blame."""
    long, longer = ("Very long advice that goes on. " * many for many in (60, 64))
    items = [
        item("one-leg", "Step-up", 3, 8, cues=("Tall", longer), cautions=(long, longer)),
        item("one-leg", "Lunge", 3, 8, cues=(long,), cautions=(long, longer)),
        item("calf", "Calf raise", 3, 8),
    ]
    with pytest.raises(UserError) as refused:
        cards(with_session(items), LAYOUT, week=1)
    assert "Lunge" in refused.value.findings[0].hint


def test_a_long_cue_wraps_and_none_of_it_is_lost() -> None:
    words = [f"word{number}" for number in range(250)]
    items = [item("one-leg", "Step-up", 3, 8, cues=(" ".join(words),)), *[item("calf", "Calf raise", 3, 8)] * 3]
    read = cards(with_session(items), LAYOUT, week=1)
    written = " ".join(line for page in read.pages for line in page).split()
    assert [word for word in written if word.startswith("word")] == words


def test_the_weaker_leg_goes_first_and_its_extra_set_has_a_box() -> None:
    plain = {"side": "each", "load_kg": 20.0, "reps_in_reserve": 3}
    one = cards(with_session([item("calf", "Calf raise", 2, 8, **plain)]), LAYOUT, week=1).pages[0]
    more = cards(with_session([item("calf", "Calf raise", 2, 8, extra_set="right", **plain)]), LAYOUT, week=1).pages[0]
    assert "Right leg first, 3 sets" in " ".join(more)
    assert more.count("3") == one.count("3") + 1, "a third box"
    assert work_on(more) == work_on(one), "what both legs do stays as it is"


@pytest.mark.parametrize(
    ("part", "side", "said"),
    [
        ("trunk", "each", "each side"),
        ("one-leg", "each", "each leg"),
        ("calf", "each", "each leg"),
        ("trunk", "left", "left leg"),
        ("one-leg", "right", "right leg"),
        ("trunk", "both", ""),
    ],
)
def test_only_the_trunk_has_sides_and_all_else_has_legs(part: str, side: str, said: str) -> None:
    words = prescribe(item(part, "Work", 3, 8, side=side), block(weeks=1).for_athlete, LAYOUT)
    assert words.side == said


def test_a_short_card_has_a_place_for_notes_and_a_full_one_has_none() -> None:
    short = cards(with_session([item("calf", "Calf raise", 2, 9)]), LAYOUT, week=1).pages[0]
    assert LAYOUT.words.notes in short
    names = [f"Lift {at}" for at in range(1, 13)]
    full = cards(with_session([item("one-leg", name, 3, 8, side="each") for name in names]), LAYOUT, week=1).pages
    assert LAYOUT.words.notes not in full[0]
