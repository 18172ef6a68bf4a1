"""A session's reason names only what is on the card, and says may where the test may err."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from planner.domain.block import Item, Week
from planner.problem.model import Problem
from planner.solve.session_reason import unsure_of, with_reasons
from tests.rules.kept_blocks import kept_block, shipped_problem

EASY = "easy on the tendons"
ITSELF = "The jump itself off the run-up"
FOCUS_OF = {"strength": "one-leg-and-calf", "jumps": "approach-and-skill", "speed": "speed-and-power"}


def _without(week: Week, focus: str, leaves_out: Callable[[Item], bool]) -> Week:
    sessions = tuple(
        session.model_copy(update={"items": tuple(i for i in session.items if not leaves_out(i))})
        if session.focus == FOCUS_OF[focus]
        else session
        for session in week.sessions
    )
    return week.model_copy(update={"sessions": sessions})


def _reason(week: Week, focus: str, planned: Problem | None = None, unsure: tuple[Any, ...] = ()) -> str:
    told = with_reasons(week, planned or shipped_problem("adult"), unsure)
    return next(session.why for session in told.sessions if session.focus == FOCUS_OF[focus])


def test_the_jump_itself_is_named_only_where_it_is_on_the_card() -> None:
    week = kept_block("adult").weeks[4]
    assert ITSELF in _reason(week, "jumps")
    assert ITSELF not in _reason(_without(week, "jumps", lambda item: item.part == "approach-jump"), "jumps")


def test_sprints_and_the_most_intense_jumps_are_named_only_where_they_are_on_the_card() -> None:
    week = kept_block("adult").weeks[4]
    assert "Sprints and the most intense jumps" in _reason(week, "speed")
    low = _reason(_without(week, "speed", lambda item: item.tier == "high"), "speed")
    assert "most intense" not in low
    assert "Sprints" not in _reason(_without(week, "speed", lambda item: item.part == "sprint"), "speed")


def test_a_day_is_easy_on_the_tendons_only_if_another_of_the_week_has_more_points() -> None:
    week = kept_block("adult").weeks[4]
    alone = week.model_copy(
        update={"sessions": tuple(one for one in week.sessions if one.focus == FOCUS_OF["strength"])}
    )
    assert EASY not in _reason(alone, "strength")
    others = [one for one in week.sessions if one.focus != FOCUS_OF["strength"]]
    unloaded = week.model_copy(
        update={
            "sessions": (
                *(o.model_copy(update={"items": ()}) for o in others),
                *(one for one in week.sessions if one not in others),
            )
        }
    )
    assert EASY not in _reason(unloaded, "strength")


def test_what_the_test_may_be_wrong_about_is_said_with_may() -> None:
    week, planned = kept_block("adult").weeks[0], shipped_problem("adult")
    sure = replace(planned, tilts={**planned.tilts, "calf-ankle": 1.3, "knee-dominant": 1.2})
    assert "The test asks for more calf strength and knee-dominant strength." in _reason(week, "strength", sure)
    mixed = _reason(week, "strength", sure, ("calf-ankle",))
    assert "The test asks for more knee-dominant strength. The test may ask for more calf strength." in mixed


def _line(
    quality: str,
    deficit: float,
    se: float | None,
    counts: bool = True,
    status: str = "tested",
    confidence: float = 0.5,
) -> Any:
    return SimpleNamespace(
        quality=quality, deficit=deficit, deficit_se=se, counts=counts, status=status, confidence=confidence
    )


@pytest.mark.parametrize(
    ("lines", "unsure"),
    [
        ([_line("calf-ankle", 0.18, 0.09)], {"calf-ankle"}),
        ([_line("calf-ankle", 0.181, 0.09)], set()),
        ([_line("calf-ankle", 0.05, 0.09), _line("calf-ankle", 0.3, 0.09)], set()),  # the shorter leg is sure
        ([_line("calf-ankle", 0.05, 0.09), _line("calf-ankle", 0.3, 0.09, counts=False)], {"calf-ankle"}),
        ([_line("calf-ankle", 0.3, 0.09, confidence=0.39)], {"calf-ankle"}),  # little more than a hint
        ([_line("calf-ankle", 0.0, None, status="untested")], set()),
    ],
)
def test_two_standard_errors_and_a_test_that_is_believed_make_a_deficit_sure(
    lines: list[Any], unsure: set[str]
) -> None:
    assert unsure_of(shipped_problem("adult"), SimpleNamespace(qualities=lines)) == unsure  # type: ignore[arg-type]


def test_a_template_of_an_earlier_release_keeps_its_words() -> None:
    planned = shipped_problem("adult")
    older = replace(planned, template=planned.template.model_copy(update={"progress": None}))
    gap: Any = SimpleNamespace(qualities=[_line("calf-ankle", 0.05, 0.09)])
    assert unsure_of(older, gap) == frozenset()
