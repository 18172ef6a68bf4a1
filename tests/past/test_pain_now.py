"""The pain that the rest of a block is planned with, by the last entries of its log."""

from __future__ import annotations

import datetime

import pytest

from planner.domain.follow_up import PainWatch
from planner.domain.training_log import LoggedPain, LoggedSession
from planner.files.load import load_follow_up
from planner.files.locate import locate_follow_up
from planner.past.done import DoneSession
from planner.past.pain_now import pain_now
from tests.cards.invented_block import block

KNEE = {"joint": "patellar-knee", "side": "left"}


def _watch() -> PainWatch:
    return load_follow_up(locate_follow_up().path).require().pain


def _done(*pains: dict[str, object]) -> list[DoneSession]:
    """Sessions four days apart, so that each counts."""
    first = block().weeks[0].sessions[0]
    planned = [
        first.model_copy(update={"date": first.date + n * datetime.timedelta(days=4)}) for n in range(len(pains))
    ]
    told = [(LoggedPain.model_validate({**KNEE, **pain}),) for pain in pains]
    entries = [LoggedSession(session=first.id, done="as-planned", pain=pain) for pain in told]
    return [DoneSession(one, entry, one) for one, entry in zip(planned, entries, strict=True)]


CASES = {
    "the worst of the day": ([{"before": 1, "worst": 4}], 4, False),
    "it stays closed until three green sessions": ([{"worst": 4}, {"worst": 1}, {"worst": 0}], 3, False),
    "after three it is down": ([{"worst": 4}, {"worst": 1}, {"worst": 0}, {"worst": 1}], 1, False),
    "a worse morning is amber": ([{"before": 0, "worst": 1, "next_morning": 1}], 3, False),
    "above five": ([{"worst": 7}], 7, False),
    "a morning up by three": ([{"before": 0, "worst": 1, "next_morning": 3}], 3, True),
    "a sign": ([{"worst": 1, "signs": ["swelling"]}], 1, True),
    "red is over, and the ladder is not climbed": ([{"worst": 7}, {"worst": 2}], 3, False),
}


@pytest.mark.parametrize("name", CASES)
def test_pain_by_the_last_entries(name) -> None:
    pains, expected, worse = CASES[name]
    (state,) = pain_now(_done(*pains), _watch())
    assert (state.pain, state.worse_next_morning) == (expected, worse)


def test_no_entry_no_pain() -> None:
    assert pain_now([], _watch()) == ()
