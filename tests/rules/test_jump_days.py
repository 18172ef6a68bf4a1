"""Which days of a novice may have jumps together: rows tried on choices of jumps, day by day."""

from __future__ import annotations

import datetime
from collections.abc import Iterable

import pytest

from planner.problem.model import Problem
from planner.problem.variable import Variable
from planner.rules.rule import Row
from planner.rules.youth_jump_days import YouthJumpDays
from tests.solve.demos import problem

MONDAY = datetime.date(2025, 9, 8)


def novice(*days: str) -> tuple[Problem, list[Row]]:
    """On these days for four weeks; the last of them ends with the test, on the last day."""
    training = {"days": [{"day": day, "minutes": 75} for day in days]}
    changes = {"level": "novice", "training": training, "practices": [], "matches": []}
    planned = problem("in-season", changes, start=MONDAY)
    return planned, list(YouthJumpDays().rows(planned))


def jumps(planned: Problem, phase: str, slot: int) -> list[Variable]:
    found = {key for row in YouthJumpDays().rows(planned) for _, key in row.terms}
    return sorted((key for key in found if (key.at.phase, key.at.slot) == (phase, slot)), key=lambda key: key.name)


def allowed(rows: Iterable[Row], chosen: Iterable[Variable]) -> bool:
    there = set(chosen)
    return all(sum(size for size, key in row.terms if key in there) <= (row.high or 0) for row in rows)


@pytest.mark.parametrize(
    ("days", "apart"),
    [
        (("mon", "tue", "fri"), {(1, 2)}),
        (("mon", "thu", "sun"), {(1, 3)}),  # Sunday and the Monday after it
        (("mon", "wed", "fri"), {(1, 2), (2, 3)}),
        (("mon", "thu"), set()),
    ],
)
def test_two_days_closer_than_three_have_no_jumps_together(days: tuple[str, ...], apart: set[tuple[int, int]]) -> None:
    planned, rows = novice(*days)
    for one in range(1, len(days) + 1):
        for other in range(one + 1, len(days) + 1):
            first, second = jumps(planned, "hold", one), jumps(planned, "hold", other)
            if (one, other) not in apart:
                assert allowed(rows, [*first[:1], *second[:1]])
                continue
            assert allowed(rows, first) and allowed(rows, second)
            for mine in first[:3]:
                assert not allowed(rows, [mine, second[0]]) and not allowed(rows, [mine, *second])


def test_a_third_day_has_no_jumps_though_all_are_three_days_apart() -> None:
    planned, rows = novice("mon", "thu", "sun")
    hold = [jumps(planned, "hold", slot) for slot in (1, 2, 3)]
    three = [row for row in rows if row.at.phase == "hold" and row.at.of and " and " in row.at.of]
    assert three and {(row.at.slot, row.other and row.other.slot) for row in three} == {(1, 3)}
    for mine, second in ((hold[0][0], hold[1][0]), (hold[0][-1], hold[1][-1])):
        assert allowed(three, [mine, second]) and allowed(three, [mine, *hold[2]]) and allowed(three, hold[2])
        assert not allowed(three, [mine, second, hold[2][0]])


def test_the_test_is_a_jump_day_of_its_week() -> None:
    planned, rows = novice("mon", "thu", "sun")
    of_test = [row for row in rows if row.at.phase == "test"]
    monday, thursday = jumps(planned, "test", 1), jumps(planned, "test", 2)
    assert allowed(of_test, monday) and allowed(of_test, thursday)
    assert not allowed(of_test, [monday[0], thursday[0]])


def test_days_closer_than_three_before_the_test_have_no_jumps() -> None:
    _, rows = novice("mon", "thu", "sat")
    barred = {(row.at.week, row.at.slot) for row in rows if row.other and row.other.week == 4 and row.at.week == 4}
    assert barred == {(4, 2)}  # Thursday is two days before Saturday's test
    assert all(row.high == 0 and [size for size, _ in row.terms] == [1] for row in rows if row.at.week == 4)


def test_an_adult_may_jump_on_any_day() -> None:
    assert not list(YouthJumpDays().rows(problem("in-season")))
