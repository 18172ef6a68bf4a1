"""A shortlist is asked what the library is asked: else a block of it could be called proved that misses more."""

from __future__ import annotations

from random import Random

import pytest

from planner.problem.from_files import estimate_and_problem
from planner.problem.model import Problem
from planner.rules.registry import gather_rows
from planner.rules.rule import Row
from planner.solve.budgets import SMALL_MIX
from planner.solve.shortlist import SPARING, mixed, only
from tests.independence.drawn import drawn
from tests.solve.demos import DEMOS
from tests.solve.demos import problem as demo_problem

SEEDS = (366, 371, 379)  # primers, of youth and adults, with and without pins
KEPT = 0.25  # of the movements, drawn: kinds of work are missing


@pytest.mark.parametrize("seed", SEEDS)
def test_drawn_athletes(seed: int) -> None:
    _asked_alike(estimate_and_problem(drawn(seed).inputs)[1], seed)


@pytest.mark.parametrize("demo", sorted(DEMOS))
def test_demos(demo: str) -> None:
    _asked_alike(demo_problem(demo), 0)


def _asked_alike(problem: Problem, seed: int) -> None:
    ids = [movement.id for movement in problem.movements]
    drawn_few = only(problem, set(Random(seed).sample(ids, round(KEPT * len(ids)))))
    for few in (mixed(problem, SMALL_MIX, SPARING), drawn_few):
        there = {movement.id for movement in few.movements} | {problem.retest.id, None}
        assert _priced(few) == [_among(row, there) for row in _priced(problem)]


def _priced(problem: Problem) -> list[tuple[object, ...]]:
    return [_as_asked(row) for row in gather_rows(problem) if row.price]


def _as_asked(row: Row) -> tuple[object, ...]:
    return row.key, row.low, row.high, row.price, row.terms


def _among(asked: tuple[object, ...], there: set[str | None]) -> tuple[object, ...]:
    *others, terms = asked
    return *others, tuple(term for term in terms if term[1].at.movement in there)  # type: ignore[attr-defined]
