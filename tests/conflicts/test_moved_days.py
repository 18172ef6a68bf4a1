"""Another week is tried as the coach would type it: a training day moved, or one line of the sport eased."""

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
from planner.report.conflict_text import conflict_findings
from planner.rules.registry import rule_named
from planner.solve import day_moves
from planner.solve.conflict import Conflict
from planner.solve.day_moves import EasedSport, eased_sport, moved_day
from planner.solve.found_plan import NoBlock
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


SPORT = {
    "practices": [
        {"day": "tue", "minutes": 90, "hardness": "medium"},
        {"day": "thu", "minutes": 90, "hardness": "hard"},
    ],
    "matches": [{"day": "sat", "minutes": 75}],
}


def eased(
    monkeypatch: pytest.MonkeyPatch, eases: tuple[Any, ...], last: int
) -> tuple[list[Athlete], EasedSport | None]:
    """The athletes that were tried, of whom the one at ``last`` gives a block, and the answer."""
    tried: list[Athlete] = []
    monkeypatch.setattr(day_moves, "_gives_a_block", lambda _, athlete: tried.append(athlete) or len(tried) == last + 1)
    found = eased_sport(problem("in-season", SPORT), lambda athlete: problem("in-season"), eases)
    return tried, found


def test_a_hard_practice_is_made_medium_before_any_is_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    tried, found = eased(monkeypatch, ("medium practice", "no practice", "no match"), 3)
    assert found == EasedSport("no match", 0)
    assert [[(one.day, one.hardness) for one in athlete.practices] for athlete in tried] == [
        [("tue", "medium"), ("thu", "medium")],
        [("thu", "hard")],
        [("tue", "medium")],
        [("tue", "medium"), ("thu", "hard")],
    ]
    assert [len(athlete.matches) for athlete in tried] == [1, 1, 1, 0]


def test_all_practices_are_left_out_where_no_single_one_is_enough(monkeypatch: pytest.MonkeyPatch) -> None:
    tried, found = eased(monkeypatch, ("no practice", "half practices", "no practices"), 3)
    assert found == EasedSport("no practices", None) and len(tried[-1].matches) == 1
    assert [[one.minutes for one in athlete.practices] for athlete in tried] == [[90], [90], [45, 45], []]


def test_none_is_told_where_no_single_one_is_enough(monkeypatch: pytest.MonkeyPatch) -> None:
    assert eased(monkeypatch, ("no practice",), 9)[1] is None


@pytest.mark.parametrize(
    ("found", "says"),
    [
        (EasedSport("medium practice", 1), "make the practice on Thursdays a medium one"),
        (EasedSport("no practice", 0), "leave out the practice on Tuesdays"),
        (EasedSport("half practices", None), "make every practice half as long"),
        (EasedSport("no practices", None), "leave out all practices"),
        (EasedSport("no match", 0), "leave out the match on Saturdays"),
    ],
)
def test_the_change_is_told_with_its_day(found: EasedSport, says: str) -> None:
    asked = problem("in-season", SPORT)
    row = next(row for row in rule_named("joint-stress").rows(asked))
    told = conflict_findings(Conflict((row,), minimal=True, eased=found), asked, "athlete.yaml")
    assert told[0].hint == f"one change that would do: {says}"


def test_what_was_tried_in_vain_is_told_of_the_sport_that_there_is() -> None:
    def told(lines: Any) -> str:
        asked = problem("in-season", lines)
        row = next(row for row in rule_named("joint-stress").rows(asked))
        return conflict_findings(Conflict((row,), minimal=True), asked, "athlete.yaml")[0].hint

    assert told(SPORT).startswith("moving one day, leaving out one match or easing the practices is not enough")
    assert told({"practices": [], "matches": SPORT["matches"]}).startswith("moving one day or leaving out one match is")
    assert told({"practices": [], "matches": []}).startswith("no single change")
