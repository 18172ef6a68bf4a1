"""Stage 2: whichever searches are asked, choices are no worse than the block they begin with, nor than their bound."""

from __future__ import annotations

import pytest

from planner.domain.block import Stage
from planner.problem.model import Problem
from planner.problem.variable import Values
from planner.rules.registry import gather_rows
from planner.solve import prefer as stage_2
from planner.solve.bands import solve_bands
from planner.solve.budgets import DEFAULT_BUDGET, LIKED
from planner.solve.shortfalls import shortfalls
from planner.solve.shortlist import narrowed
from tests.solve.demos import problem

NOTHING = 1e-9  # a share of the budget that no search finds anything in


@pytest.fixture(scope="module")
def in_season() -> tuple[Problem, Values]:
    found = solve_bands(problem("in-season"))
    assert not found.missed
    return narrowed(found.problem, found.values, *LIKED)


def _choices(in_season: tuple[Problem, Values]) -> tuple[Values, Stage]:
    values, (choices, _), _ = stage_2.prefer(*in_season, {}, DEFAULT_BUDGET, lambda _: None)
    return values, choices


def test_the_longer_way_comes_to_what_the_first_search_proves(in_season, monkeypatch) -> None:
    _, proved = _choices(in_season)
    assert proved.status == "optimal"
    monkeypatch.setattr(stage_2, "FITTING_SHARE", NOTHING)
    values, found = _choices(in_season)
    assert found.objective == proved.objective and found.bound <= found.objective
    assert not shortfalls(gather_rows(in_season[0]), values)


@pytest.mark.parametrize("given", ["CHOICE_PIECES_SHARE", "IN_TURNS_SHARE"])
def test_one_search_alone_betters_the_block_and_says_no_more_than_it_knows(in_season, monkeypatch, given) -> None:
    shares = ("FITTING_SHARE", "IN_TURNS_SHARE", "FAR_SHARE", "CHOICE_PIECES_SHARE", "CLOSING_SHARE")
    least = _choices(in_season)[1].objective
    for share in shares:
        monkeypatch.setattr(stage_2, share, NOTHING)
    _, start = _choices(in_season)
    monkeypatch.undo()
    for share in set(shares) - {given}:
        monkeypatch.setattr(stage_2, share, NOTHING)
    _, found = _choices(in_season)
    assert least <= found.objective < start.objective
    assert found.status == ("optimal" if found.objective <= found.bound else "feasible") and found.bound <= least
