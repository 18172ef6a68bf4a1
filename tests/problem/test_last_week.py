"""The last week: which day takes the test, which shape stands on which day, what a match leaves of a day."""

from __future__ import annotations

import datetime

import pytest

from planner.domain.findings import UserError
from planner.domain.template import Shape
from planner.domain.terms import DAYS
from planner.problem.block_calendar import BlockCalendar, closing_test_slot
from planner.problem.last_week import last_week_shapes
from planner.problem.primer import bar_on, is_primer
from planner.problem.training_days import Phase, Slot, SportDay
from tests.solve.demos import shipped_library, template

MONDAY = datetime.date(2025, 9, 8)
SLOTS = (Slot(1, "mon", 60), Slot(2, "wed", 60), Slot(3, "fri", 60))
SHAPES = {shape.id: shape for shape in template("in-season-four-week").shapes}
NO_SPORT: dict[datetime.date, SportDay] = {}


def day(offset: int) -> datetime.date:
    return MONDAY + datetime.timedelta(days=offset)


# Two weeks: days 0, 2 and 4 of the first, days 7, 9 and 11 of the second, which ends with the test.
DATES = {(week, slot): day(7 * (week - 1) + 2 * (slot - 1)) for week in (1, 2) for slot in (1, 2, 3)}


def calendar(
    test_slot: int = 3,
    sport: dict[datetime.date, SportDay] = NO_SPORT,
    away: frozenset[tuple[int, int]] = frozenset(),
    dates: dict[tuple[int, int], datetime.date] = DATES,
) -> BlockCalendar:
    """Two weeks on these dates; the test is on the last week's ``test_slot``."""
    slots = tuple(sorted({slot for _, slot in dates}))
    phase = Phase("all", "All", (1, 2), ("build", "taper"), slots)
    days = tuple(Slot(slot, DAYS[dates[2, slot].weekday()], 60) for slot in slots if (2, slot) in dates)
    return BlockCalendar(MONDAY, (phase,), days, dates, away, test_slot, sport, MONDAY, frozenset())


def shape(name: str, part: str, low_only_up_to: int | None = None) -> Shape:
    parts = next(iter(SHAPES.values())).parts[:1]
    part_ = parts[0].model_copy(update={"part": part})
    return next(iter(SHAPES.values())).model_copy(
        update={"id": name, "parts": (part_,), "low_contacts_only_up_to": low_only_up_to}
    )


JUMPS, LIFTS, MORE_LIFTS = shape("jumps", "jump"), shape("lifts", "main-lift"), shape("more-lifts", "main-lift")
PRIMER = shape("primer", "landing", 20)


def stand(
    shapes: list[Shape], sport: dict[datetime.date, SportDay] = NO_SPORT, apart: int | None = None
) -> dict[int, str]:
    found = last_week_shapes(shapes, calendar(3, sport), apart)
    return {slot: shape.id for slot, shape in found.items()}


def test_the_last_free_day_takes_the_test() -> None:
    assert closing_test_slot(SLOTS, 2, frozenset()) == 3
    assert closing_test_slot(SLOTS, 2, frozenset({(2, 3), (1, 2)})) == 2
    with pytest.raises(UserError):
        closing_test_slot(SLOTS, 2, frozenset({(2, 1), (2, 2), (2, 3)}))


def test_a_day_that_is_over_does_not_take_the_test() -> None:
    gone = frozenset({(2, 1), (2, 2)})
    assert closing_test_slot(SLOTS, 2, frozenset(), gone) == 3
    with pytest.raises(UserError) as refused:
        closing_test_slot(SLOTS, 2, frozenset({(2, 3)}), gone)
    assert "no training day is left" in refused.value.findings[0].message


@pytest.mark.parametrize(("days", "close"), [(4, False), (5, True)])
def test_days_of_the_test_s_week_before_it_may_all_lie_too_close(days: int, close: bool) -> None:
    """Four and two days before it; the week before and the days after do not count."""
    assert calendar(3).all_close_to_the_test(days) is close
    assert calendar(1).all_close_to_the_test(0)
    assert not calendar(2).all_close_to_the_test(2)


def test_shapes_stand_in_the_template_s_order_and_a_day_beside_a_match_takes_a_primer_or_nothing() -> None:
    assert stand([LIFTS, MORE_LIFTS]) == {1: "lifts", 2: "more-lifts"}
    assert stand([LIFTS]) == {1: "lifts"}
    for match in (7, 8):  # on the first day, or the day after it
        sport = {day(match): SportDay(60, match=True), day(9): SportDay(60)}
        assert stand([LIFTS, PRIMER], sport) == {1: "primer", 2: "lifts"}
        assert stand([LIFTS, MORE_LIFTS], sport) == {2: "lifts"}


@pytest.mark.parametrize(
    ("apart", "shapes"),
    [
        (None, {1: "lifts", 2: "jumps"}),
        (2, {1: "lifts", 2: "jumps"}),  # both days lie far enough from the test and the week before
        (3, {1: "jumps", 2: "lifts"}),  # day 9 is 2 before the test; day 7 is 3 after day 4, and 4 before the test
        (4, {1: "lifts", 2: "jumps"}),  # no day does
    ],
)
def test_a_young_athlete_s_one_session_with_jumps_moves_to_a_day_that_lies_apart(
    apart: int | None, shapes: dict[int, str]
) -> None:
    assert stand([LIFTS, JUMPS], apart=apart) == shapes


def test_it_moves_to_the_first_of_such_days_and_two_such_sessions_stay() -> None:
    dates = {(1, 1): day(0), (2, 1): day(7), (2, 2): day(8), (2, 3): day(12), (2, 4): day(14)}
    late = [LIFTS, MORE_LIFTS, JUMPS]
    found = last_week_shapes(late, calendar(4, dates=dates), 3)
    assert {slot: one.id for slot, one in found.items()} == {1: "jumps", 2: "more-lifts", 3: "lifts"}
    two = last_week_shapes([LIFTS, JUMPS, JUMPS], calendar(4, dates=dates), 3)
    assert [one.id for one in two.values()] == ["lifts", "jumps", "jumps"]


def test_it_moves_to_a_free_day_that_lies_apart_but_not_to_one_next_to_a_match() -> None:
    dates = {(1, 1): day(5), (2, 1): day(7), (2, 2): day(9), (2, 3): day(12)}
    match = {day(10): SportDay(60, match=True)}
    for sport, slot in ((NO_SPORT, 2), (match, 1)):
        found = last_week_shapes([JUMPS], calendar(3, sport, dates=dates), 3)
        assert {slot: one.id for slot, one in found.items()} == {slot: "jumps"}


def test_a_date_bars_all_when_away_and_all_but_primers_beside_a_match() -> None:
    library = shipped_library()
    pogo, squat = library["pogo"], library["back-squat"]
    assert [is_primer(library[name]) for name in ("pogo", "back-squat", "full-approach-jump-one-leg")] == [
        True,
        False,
        False,
    ]
    assert not is_primer(pogo.model_copy(update={"jump": pogo.jump.model_copy(update={"tier": "medium"})}))  # type: ignore[union-attr]
    assert not is_primer(pogo.model_copy(update={"part": "jump"}))
    free = bar_on(calendar(away=frozenset({(1, 1)})), 2, 1)
    assert (free(pogo), free(squat)) == (None, None)
    away = bar_on(calendar(away=frozenset({(1, 1)})), 1, 1)
    assert away(pogo) == "away"
    match = bar_on(calendar(sport={day(8): SportDay(60, match=True)}), 2, 1)
    assert match(pogo) is None and match(squat) is not None
    practice = bar_on(calendar(sport={day(8): SportDay(60)}), 2, 1)
    assert practice(squat) is None
