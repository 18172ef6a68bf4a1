"""The mixed shortlists of a library with many families for the same work."""

from __future__ import annotations

import dataclasses

import pytest

from planner.problem.from_files import estimate_and_problem
from planner.problem.model import Problem
from planner.rules.registry import gather_rows
from planner.solve.bands import solve_bands
from planner.solve.budgets import BELOW_SHARE, DEFAULT_BUDGET, LARGE_MIX, LIKED, SMALL_MIX
from planner.solve.shortfalls import units_missed
from planner.solve.shortlist import MILD_AND_DOING_MOST, OF_ALL_SORTS, Cost, mixed, shortlist
from tests.benchmarks.larger import larger_library
from tests.benchmarks.people import adult, days
from tests.independence.drawn import inputs

PINNED = "back-squat"


def among(times: int, **changes: object) -> Problem:
    given = inputs(adult(**changes), "eight-week")
    _, problem = estimate_and_problem(dataclasses.replace(given, library=larger_library(given.library, times)))
    return problem


@pytest.mark.parametrize(("most", "costs"), [(SMALL_MIX, MILD_AND_DOING_MOST), (LARGE_MIX, OF_ALL_SORTS)])
def test_a_mixed_shortlist_covers_what_the_plain_one_covers(most: int, costs: tuple[Cost, ...]) -> None:
    problem = among(8)
    few = mixed(problem, most, costs)
    assert len(few.movements) == most
    for pattern in {pattern for movement in shortlist(problem, *LIKED).movements for pattern in movement.patterns}:
        assert any(pattern in movement.patterns for movement in few.movements), pattern


def test_of_a_family_one_for_the_same_work() -> None:
    few = mixed(among(8), SMALL_MIX, MILD_AND_DOING_MOST)
    kinds = [
        (few.library.families[m.id], m.part, m.patterns, m.jump.tier if m.jump else None, m.dose.scheme)
        for m in few.movements
    ]
    assert len(kinds) == len(set(kinds))


def test_a_pinned_movement_is_never_left_out() -> None:
    pin = {"movement": PINNED, "day": "mon"}
    problem = among(2, pins=[pin])
    assert PINNED in {m.id for m in mixed(problem, 1, MILD_AND_DOING_MOST).movements}


def test_rules_left_out_at_first_are_kept_too() -> None:
    """The first answer of this one breaks a rule that seldom binds; other sets of the same movements keep it."""
    found = solve_bands(among(2, level="novice"))
    assert found.objective == 0
    assert [row for row in gather_rows(found.problem) if units_missed(row, found.values)] == []


def test_short_days_are_met_in_a_larger_library() -> None:
    problem = among(2, training=days("mon", "tue", "thu", "sat", minutes=60))
    found = solve_bands(problem)
    assert found.objective == 0
    assert len(found.problem.movements) <= LARGE_MIX


def test_the_least_of_a_sore_knee_is_proved_from_below() -> None:
    """Its approach jumps are closed, so that not all bands can be met; two lists weighed from below settle the rest."""
    sore_knee = {"joint": "patellar-knee", "side": "left", "pain": 3}
    found = solve_bands(among(1, joints=[sore_knee]))
    assert found.proved
    assert found.objective > 0
    assert found.spent < 2 * BELOW_SHARE * DEFAULT_BUDGET
