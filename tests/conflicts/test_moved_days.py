"""Another training day is tried as the coach would type it: the first day follows it, and a pinned day stays."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest

from planner.domain.athlete import Athlete
from planner.domain.findings import UserError
from planner.jobs import plan_block
from planner.jobs.sources import Wanted, read_sources
from planner.problem.model import Problem
from planner.solve.bands import NoBlock
from planner.solve.day_moves import moved_day
from planner.solve.loosened_rows import Rebuild
from tests.solve.demos import ROOT, problem

MONDAY, TUESDAY = datetime.date(2025, 9, 8), datetime.date(2025, 9, 9)


def on_tuesday(athlete: Athlete) -> Athlete:
    """The in-season player's Monday moved to Tuesday."""
    first, *others = athlete.training.days
    days = (first.model_copy(update={"day": "tue"}), *others)
    return athlete.model_copy(update={"training": athlete.training.model_copy(update={"days": days})})


@pytest.fixture
def rebuild_of(monkeypatch: pytest.MonkeyPatch) -> Any:
    """What a plan that is refused tries changes with, by the first day that the coach gave. Nothing is solved."""

    def refuse(asked: Problem, *_: object) -> None:
        raise NoBlock(asked, [], [])

    def run(start: datetime.date | None) -> Rebuild:
        kept: list[Rebuild] = []
        monkeypatch.setattr(plan_block, "solve", refuse)
        monkeypatch.setattr(plan_block, "find_conflict", lambda *given: kept.append(given[2]))
        sources = read_sources(Wanted(str(ROOT / "templates/athletes/in-season-player.yaml")))
        with pytest.raises(UserError):
            plan_block.plan_block(sources, Path(), start=start)
        return kept[0]

    return run


def test_the_first_day_follows_a_day_that_moves(rebuild_of: Any) -> None:
    player = problem("in-season").athlete
    rebuild = rebuild_of(None)
    assert rebuild(player).start == MONDAY
    assert rebuild(on_tuesday(player)).start == TUESDAY


def test_a_first_day_that_the_coach_gave_stays(rebuild_of: Any) -> None:
    later = MONDAY + datetime.timedelta(days=7)
    assert rebuild_of(later)(problem("in-season").athlete).start == later


def test_a_day_that_a_pin_names_is_not_moved() -> None:
    tried: list[list[str]] = []

    def rebuild(athlete: Athlete) -> Problem:
        tried.append([day.day for day in athlete.training.days])
        raise UserError([])

    assert moved_day(problem("in-season", {"pins": [{"movement": "pogo", "day": "mon"}]}), rebuild) is None
    assert tried and all("mon" in days for days in tried)
