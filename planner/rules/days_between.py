"""Pairs of training days that are too close for two movements, once for each pair of phases and days."""

from __future__ import annotations

from planner.problem.model import Problem

Day = tuple[str, int]  # phase and training day


def close_days(problem: Problem, days_apart: int) -> list[tuple[Day, Day]]:
    """Training days fewer than ``days_apart`` days apart, the earlier first; what is chosen holds for a whole phase."""
    days = problem.programmed_days()
    found: dict[tuple[Day, Day], None] = {}
    for number, one in enumerate(days):
        for other in days[number + 1 :]:
            if (problem.dates[other] - problem.dates[one]).days >= days_apart:
                break
            found[(problem.phase_of(one[0]), one[1]), (problem.phase_of(other[0]), other[1])] = None
    return list(found)
