"""Jump days, pain and session load: small histories whose answers are worked by hand."""

from __future__ import annotations

import datetime
import math
from itertools import pairwise
from typing import Any

import pytest

from planner.domain.training_log import LoggedItem, LoggedPain, LoggedSession
from planner.files.load import load_follow_up
from planner.files.locate import locate_follow_up
from planner.past.done import DoneSession, done_sessions
from planner.past.jump_days import are_low, jump_lines
from planner.past.pain_course import PainCourse, pain_courses
from planner.past.session_load import monotony, week_load
from tests.past.test_done import BLOCK, LEG, LIBRARY, log

RULES = load_follow_up(locate_follow_up().path).require()
SESSIONS = list(BLOCK.sessions)


def history(entries: dict[int, dict[str, Any]]) -> list[DoneSession]:
    """Sessions of the kept block by their number, done on their day, with these fields."""
    made = [
        LoggedSession.model_construct(
            session=SESSIONS[at].id, date=SESSIONS[at].date, done=fields.pop("done", "as-planned"), **fields
        )
        for at, fields in ((at, dict(fields)) for at, fields in entries.items())
    ]
    return list(done_sessions(BLOCK, log(*made), LIBRARY, LEG))


def touched(*bests: float) -> list[DoneSession]:
    """Best touches on the block's days of the full approach."""
    days = [
        (at, item)
        for at, session in enumerate(SESSIONS)
        for item in session.items
        if item.movement == "full-approach-jump-one-leg" and item.sets
    ]
    entries: dict[int, dict[str, Any]] = {}
    for (at, item), best in zip(days, bests, strict=False):
        entries[at] = {"items": (LoggedItem.model_construct(item=item.id, touches=(best - 0.03, best)),)}
    return history(entries)


def test_a_days_best_against_the_four_days_before() -> None:
    (line,) = jump_lines(touched(3.10, 3.12, 3.11, 3.13, 3.16), RULES.jumps, day_error_m=0.015, trial_error_m=0.02)
    last = line.days[-1]
    assert (last.best_m, last.jumps) == (3.16, 2)
    assert last.mean_before_m == pytest.approx(3.115)
    assert last.spread_m == pytest.approx(math.sqrt(0.015**2 + 0.02**2 / 2))
    assert [day.mean_before_m for day in line.days[:4]] == [None] * 4


@pytest.mark.parametrize(
    ("bests", "low"),
    [
        ((3.12, 3.12, 3.12, 3.12, 3.08, 3.07), True),
        ((3.12, 3.12, 3.12, 3.12, 3.12, 3.05), False),  # one day
        ((3.12, 3.12, 3.12, 3.12, 3.11, 3.11), False),  # within a day's spread
        ((3.12, 3.05), False),
    ],
)
def test_low_on_two_days_running(bests: tuple[float, ...], low: bool) -> None:
    (line,) = jump_lines(touched(*bests), RULES.jumps, day_error_m=0.015, trial_error_m=0.02)
    assert are_low(line, RULES.jumps) is low


def test_exactly_a_days_spread_below_is_not_low() -> None:
    for day_error, low in ((0.5, False), (0.25, True)):
        history_ = touched(3.0, 3.0, 3.0, 3.0, 2.5)
        (line,) = jump_lines(history_, RULES.jumps, day_error_m=day_error, trial_error_m=0.0)
        assert line.days[-1].is_low is low


def knee(before: int = 0, worst: int = 0, morning: int | None = None, **more: Any) -> dict[str, Any]:
    pain = LoggedPain(joint="patellar-knee", side="left", before=before, worst=worst, next_morning=morning, **more)
    return {"pain": (pain,)}


def course(entries: dict[int, dict[str, Any]]) -> PainCourse:
    (found,) = pain_courses(history(entries), RULES.pain)
    return found


STATES = {
    "quiet": (knee(1, 2, 1), "green"),
    "3 of 10": (knee(1, 3, 1), "amber"),
    "5 of 10": (knee(1, 5), "amber"),
    "6 of 10": (knee(1, 6), "red"),
    "a morning up by one": (knee(0, 1, 1), "amber"),
    "a morning up by two": (knee(0, 1, 2), "amber"),
    "a morning up by three": (knee(0, 1, 3), "red"),
    "swelling": (knee(0, 1, signs=("swelling",)), "red"),
}


@pytest.mark.parametrize("name", STATES)
def test_the_state_of_one_session(name: str) -> None:
    fields, state = STATES[name]
    assert course({0: fields}).state == state


def test_down_a_step_at_once_and_up_after_three_green_ones() -> None:
    top = len(RULES.pain.steps) - 1
    amber = {0: knee(0, 4)}
    assert course(amber).step == top - 1
    assert course({**amber, 1: knee(0, 3)}).step == top - 2
    quiet = [at for at in range(1, 12) if not any(i.tier == "high" and i.contacts for i in SESSIONS[at].items)][:3]
    healing = {**amber, **{at: {} for at in quiet}}
    assert course({at: healing[at] for at in list(healing)[:3]}).step == top - 1
    assert course(healing).step == top


def test_green_sessions_with_high_jumps_close_together_count_once() -> None:
    high = [at for at in range(1, 30) if any(i.tier == "high" and i.contacts for i in SESSIONS[at].items)]
    close = [at for at, after in pairwise(high) if (SESSIONS[after].date - SESSIONS[at].date).days <= 2]
    assert close, "the kept block has high jumps two days apart"
    entries = {close[0] - 1: knee(0, 4)} | {at: {} for at in range(close[0], close[0] + 3)}
    found = course(entries)
    assert found.green_since < 3 and found.step == len(RULES.pain.steps) - 2


def test_a_rising_mean_is_amber_below_the_threshold() -> None:
    first = {at: knee(0, 0, 0) for at in range(4)}
    second = {at: knee(2, 2, 2) for at in range(4, 8)}
    assert course({**first, **second}).state == "amber"
    assert course({**{at: knee(2, 2, 2) for at in range(4)}, **second}).state == "green"


def test_a_mean_rises_by_the_days_of_each_week_alone() -> None:
    """Worst of 1, 1, 1, 1 and then 2: a mean up by 1 is rising; of 1 and then 1, 2, 2, 1 it is up by a half."""
    first = {at: knee(1, 1, 1) for at in range(4)}
    assert [day.worst for day in course({0: knee(1, 2, 0)}).days] == [2]
    assert course({**first, **{at: knee(2, 2, 2) for at in range(4, 8)}}).days[-1].why == "the week's mean is rising"
    some = {4: knee(1, 1, 1), 5: knee(2, 2, 2), 6: knee(2, 2, 2), 7: knee(1, 1, 1)}
    assert course({**first, **some}).state == "green"


def test_a_mean_is_not_compared_with_one_from_before_a_week_off() -> None:
    """Four sessions a week: none of the second week is logged."""
    first, third = (
        {at: knee(worst, worst, worst) for at in range(start, start + 4)} for start, worst in ((0, 0), (8, 2))
    )
    assert course({**first, **third}).state == "green"
    assert [day.why for day in course(first).days] == ["0 of 10"] * 4


def test_red_goes_to_the_first_step_and_full_stays_full() -> None:
    assert course({0: knee(0, 7)}).step == 0
    calm = course({at: knee(0, 1, 0) for at in range(8)})
    assert calm.step == len(RULES.pain.steps) - 1


def test_pain_is_followed_only_from_its_first_entry() -> None:
    assert [day.session for day in course({0: {}, 1: knee(0, 4), 2: {}}).days] == [SESSIONS[1].id, SESSIONS[2].id]
    assert pain_courses(history({0: {}}), RULES.pain) == []


@pytest.mark.parametrize("k", [1, 2, 3, 4, 5, 6])
def test_monotony_of_k_equal_days(k: int) -> None:
    """Mean k/7 of a day's load over its spread: sqrt(k / (7 - k)), and sqrt(6/7) of that with the sample's spread."""
    days = [420.0] * k + [0.0] * (7 - k)
    assert monotony(days) == pytest.approx(math.sqrt(k / (7 - k)))
    assert monotony(days, sample=True) == pytest.approx(math.sqrt(k / (7 - k) * 6 / 7))


def test_a_week_without_a_difference_has_no_monotony() -> None:
    assert monotony([300.0] * 7) is None and monotony([0.0] * 7) is None


def test_session_load_of_a_week() -> None:
    monday = BLOCK.weeks[0].start
    entries: dict[int, dict[str, Any]] = {
        0: {"effort": 7, "minutes": 60},
        1: {"effort": 5, "minutes": 40},
        2: {"effort": 6},
        3: {"done": "missed", "why": "ill"},
        4: {"effort": 9, "minutes": 90},
    }
    found = week_load(history(entries), monday)
    assert (found.total, found.without_effort) == (420.0 + 200.0, 1)
    assert found.strain == pytest.approx(620 * (found.monotony or 0))
    assert week_load(history(entries), monday + datetime.timedelta(days=7)).total == 810
