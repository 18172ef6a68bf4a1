"""The minutes that would do, where none were found to be enough: with them another solver finds a block too."""

from __future__ import annotations

from dataclasses import replace

from planner.domain.athlete import Athlete
from planner.problem.from_files import estimate_and_problem
from planner.problem.model import Problem
from planner.rules.places import day_of
from planner.rules.registry import gather_rows
from planner.solve.loosened_rows import changed_athlete
from planner.solve.repair import minutes_that_do
from tests.independence.highs import INFEASIBLE, OPTIMAL, solve_with_highs
from tests.solve.demos import inputs

TIME_LIMIT_s = 60.0
SHORT_minutes = 26  # two such days do not hold the in-season template's sessions
ENOUGH_minutes = 60


def _days(minutes: int) -> dict[str, object]:
    return {"training": {"days": [{"day": "mon", "minutes": minutes}, {"day": "wed", "minutes": minutes}]}}


def _status(problem: Problem) -> str:
    hard = [row for row in gather_rows(problem) if row.price == 0]
    return solve_with_highs(problem, hard, time_limit_s=TIME_LIMIT_s).status


def test_minutes_that_would_do_give_a_block_and_one_less_does_not() -> None:
    given = inputs("in-season", _days(SHORT_minutes))

    def rebuild(athlete: Athlete) -> Problem:
        return estimate_and_problem(replace(given, athlete=athlete))[1]

    planned = rebuild(given.athlete)
    change = minutes_that_do(planned, rebuild)
    assert change is not None and not change.cheapest
    assert {day_of(planned, step.at.slot) for step in change.steps} == {"mon", "wed"}
    assert _status(rebuild(changed_athlete(planned, change.steps))) == OPTIMAL
    fewer = [replace(step, amount=step.amount - 1) for step in change.steps]
    assert _status(rebuild(changed_athlete(planned, fewer))) == INFEASIBLE


def test_where_a_block_needs_no_more_minutes_none_are_named() -> None:
    given = inputs("in-season", _days(ENOUGH_minutes))
    problem = estimate_and_problem(given)[1]
    assert minutes_that_do(problem, lambda athlete: estimate_and_problem(replace(given, athlete=athlete))[1]) is None
