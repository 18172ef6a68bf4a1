"""Days lost: up to four the block goes on, up to nine the first session back is light, after more it is over."""

from __future__ import annotations

import datetime

import pytest

from planner.audit import audit
from planner.domain.block import PastSession
from planner.problem.revised import since_of
from planner.problem.variable import sets_key
from planner.solve.variable_ranges import variable_ranges
from tests.revise.rest import SECOND_WEDNESDAY, THIRD_MONDAY, problem_of, rest_of, told_block

ILL = [PastSession(session=name, missed="ill") for name in ("w1s2", "w2s1", "w2s2")]
WEDNESDAY = datetime.date(2025, 9, 10)  # of the first week, the first session missed below


@pytest.mark.parametrize(
    ("missed", "first_day", "days"),
    [
        ([], THIRD_MONDAY, 0),
        (["w2s1"], SECOND_WEDNESDAY, 2),
        (["w1s2", "w2s1"], SECOND_WEDNESDAY, 7),
        (["w1s2", "w2s1"], THIRD_MONDAY, 0),  # he trained on the Wednesday in between
        (["w1s2", "w2s1", "w2s2"], THIRD_MONDAY, 12),
    ],
)
def test_days_lost_are_counted_from_the_first_session_missed_since_the_last_done(missed, first_day, days) -> None:
    told = told_block(first_day, *(PastSession(session=name, missed="ill") for name in missed))
    since = since_of(told)
    assert since is not None and since.days_lost == days


def test_the_first_session_back_is_light_and_no_other() -> None:
    rest = rest_of(SECOND_WEDNESDAY, *ILL[:2])
    problem = rest.solution.problem
    assert problem.light == (2, 2)
    assert [breach.sentence for breach in audit(rest.new, problem) if breach.hard] == []
    back = rest.new.weeks[1].sessions[1]
    assert back.why.startswith("First session back: light.")
    assert not any(item.tier == problem.level.highest_tier for item in back.items)
    before = {item.movement: item.sets for item in rest.told.weeks[1].sessions[1].items}
    assert all(item.sets <= before.get(item.movement, item.sets) for item in back.items)
    assert not any("light" in session.why for week in rest.new.weeks[2:] for session in week.sessions)


def test_a_light_day_has_the_least_sets_of_every_wave() -> None:
    light, usual = (problem_of(told_block(SECOND_WEDNESDAY, *done)) for done in (ILL[:2], ()))
    most = {key: variable_ranges(problem)[key][1] for problem in (light,) for key in variable_ranges(problem)}
    for entry in usual.entries[2, 2]:
        key = sets_key(2, 2, entry.movement.id)
        assert most[key] <= max(1, entry.dosage.low_sets)
