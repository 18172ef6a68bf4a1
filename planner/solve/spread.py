"""Stage 2: time on the days of a week alike, so that no day is full while another is half empty."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations

from planner.domain.address import Address
from planner.problem.model import Problem
from planner.rules.rule import Row, Term
from planner.rules.session_minutes import session_seconds

RULE = "preferences"
UNIT_s = 30  # coefficients are whole numbers of it


def spread_rows(problem: Problem, per_point: int) -> Iterator[Row]:
    """Soft rows, priced in points times ``per_point``: one day's share of its minutes is not far over another's.

    Load weeks alone have them: a primer and an easy week are short on purpose.
    """
    points = problem.template.preferences
    price = per_point * points.uneven_half_minute
    for week in problem.load_weeks if price else ():
        days = [slot for slot in problem.slots if slot.number in problem.training_days(week)]
        for full, empty in permutations(days, 2):
            ratio = full.gym_minutes / empty.gym_minutes
            terms = _scaled(problem, week, full.number, 1 / UNIT_s) + _scaled(
                problem, week, empty.number, -ratio / UNIT_s
            )
            most = round(60 * points.uneven_share * full.gym_minutes / UNIT_s)
            at = Address(week=week, slot=full.number)
            yield Row(RULE, at, tuple(terms), None, most, price, at._replace(slot=empty.number))


def _scaled(problem: Problem, week: int, slot: int, factor: float) -> list[Term]:
    scaled = [(round(factor * seconds), of) for seconds, of in session_seconds(problem, week, slot)]
    return [term for term in scaled if term[0]]
