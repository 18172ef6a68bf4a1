"""Advice on the next load: each rule of it once, on a kept block's own squats, with the gym's plates."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from planner.domain.block import Item
from planner.domain.terms import LOAD_ROLES
from planner.domain.training_log import LoggedItem, LoggedPain, LoggedSession
from planner.files.load import load_follow_up
from planner.files.locate import locate_follow_up
from planner.past.done import DoneSession, done_sessions
from planner.past.load_advice import Advisor, LoadAdvice
from tests.past.test_done import BLOCK, LEG, LIBRARY, log

RULE = load_follow_up(locate_follow_up().path).require().loads
SQUAT = "back-squat"
# Sessions of the kept block with squats in load weeks, in order: one a week.
SQUAT_DAYS = [
    (session, item)
    for week in BLOCK.weeks
    for session in week.sessions
    for item in session.items
    if item.movement == SQUAT and item.sets and week.role in LOAD_ROLES
]
PLATES = [20 + 2.5 * step for step in range(100)]


def advisor(guarded: bool = False) -> Advisor:
    return Advisor(RULE, LIBRARY, 80.0, guarded, lambda item: PLATES)


def done(*more_left: int | None, **last: Any) -> list[DoneSession]:
    """Squat days in a row with so many more left than planned; ``last``: fields of the last one's line or entry."""
    entries = []
    for at, more in enumerate(more_left):
        session, item = SQUAT_DAYS[at]
        own = last if at == len(more_left) - 1 else {}
        left = () if more is None else ((item.reps_in_reserve or 0) + more,)
        reps = own.get("reps", (item.reps,) * item.sets)
        line = LoggedItem.model_construct(
            item=item.id, load=own.get("load", item.load_kg), reps=reps, reps_in_reserve=own.get("left", left)
        )
        entry = {name: own[name] for name in ("written", "pain") if name in own}
        entries.append(
            LoggedSession.model_construct(session=session.id, date=session.date, done="changed", items=(line,), **entry)
        )
    return list(done_sessions(BLOCK, log(*entries), LIBRARY, LEG))


def advice(history: list[DoneSession], at: int | None = None, guarded: bool = False) -> LoadAdvice:
    session, item = SQUAT_DAYS[len(history) if at is None else at]
    (found,) = [a for a in advisor(guarded).for_session(BLOCK, session.id, history) if a.item.id == item.id]
    return found


def planned(at: int) -> float:
    return SQUAT_DAYS[at][1].load_kg or 0.0


def floor(kg: float) -> float:
    return 2.5 * int((kg + 1e-6) / 2.5)


def test_two_more_left_raises_at_once() -> None:
    found = advice(done(2))
    assert (found.move, found.load_kg) == ("raise", floor(planned(1) * (1 + 0.027 * 0.6 * 2)))


def test_one_more_left_raises_only_the_second_time() -> None:
    once, twice = advice(done(1)), advice(done(1, 1))
    assert (once.move, once.load_kg, once.why_held) == ("hold", planned(1), "once is not yet a reason to raise")
    assert twice.move in ("raise", "one-rep-more") and twice.load_kg == floor(planned(2) * (1 + 0.027 * 0.6))


def test_a_session_as_planned_breaks_the_run() -> None:
    session, _ = SQUAT_DAYS[1]
    plain = LoggedSession.model_construct(session=session.id, date=session.date, done="as-planned")
    between = done_sessions(BLOCK, log(plain), LIBRARY, LEG)
    first, third = done(1), done(0, 0, 1)[2:]
    found = advice([*first, *between, *third], at=3)
    assert found.move == "hold" and found.why_held
    held = advice([*first, *between], at=2)
    assert (held.move, held.load_kg, held.changes_load, held.last.left) == (
        "hold", planned(2), False, SQUAT_DAYS[1][1].reps_in_reserve,
    )  # fmt: skip


def test_what_changes_the_card() -> None:
    assert advice(done(2)).changes_load and not advice(done(0)).changes_load


def test_body_weight_has_no_advice() -> None:
    session, item = SQUAT_DAYS[1]
    bare = session.model_copy(
        update={"items": tuple(i.model_copy(update={"load_kg": None}) if i.id == item.id else i for i in session.items)}
    )
    weeks = tuple(
        week.model_copy(update={"sessions": tuple(bare if s.id == session.id else s for s in week.sessions)})
        for week in BLOCK.weeks
    )
    block = BLOCK.model_copy(update={"weeks": weeks})
    found = advisor().for_session(block, session.id, done(0))
    assert [one.item.id for one in found if one.item.id == item.id] == []


def test_a_raise_smaller_than_the_plates_is_a_rep_more() -> None:
    coarse = Advisor(RULE, LIBRARY, 80.0, False, lambda item: [20.0 * step for step in range(20)])
    history = done(1, 1)
    session, item = SQUAT_DAYS[2]
    (found,) = [a for a in coarse.for_session(BLOCK, session.id, history) if a.item.id == item.id]
    assert (found.move, found.load_kg) == ("one-rep-more", 20.0 * int(planned(2) / 20))


def test_no_raise_is_larger_than_the_most() -> None:
    assert advice(done(6)).load_kg == floor(planned(1) * 1.05)


def test_two_fewer_left_drops_at_once() -> None:
    found = advice(done(-2))
    assert (found.move, found.load_kg) == ("drop", floor(planned(1) * (1 - 0.027 * 2)))


@pytest.mark.parametrize("more", [-1, 0])
def test_near_the_plan_is_held(more: int) -> None:
    assert (advice(done(more)).move, advice(done(more)).load_kg) == ("hold", planned(1))


def test_a_missed_rep_drops() -> None:
    """The last set a rep short with nothing left: as many fewer as were planned to be left, and the rep."""
    _, item = SQUAT_DAYS[0]
    reps = (*(item.reps,) * (item.sets - 1), (item.reps or 0) - 1)
    found = advice(done(0, reps=reps, left=()))
    fewer = 1 + (item.reps_in_reserve or 0)
    assert (found.move, found.load_kg) == ("drop", floor(planned(1) * (1 - min(0.075, 0.027 * fewer))))
    assert found.last.reps_missed == 1


def test_a_rep_fewer_by_choice_is_no_missed_rep() -> None:
    _, item = SQUAT_DAYS[0]
    reps = (*(item.reps,) * (item.sets - 1), (item.reps or 0) - 1)
    left = tuple([item.reps_in_reserve or 0] * item.sets)
    assert advice(done(0, reps=reps, left=left)).move == "hold"


def test_from_memory_and_rising_pain_hold() -> None:
    later = advice(done(3, written="later"))
    assert (later.move, later.why_held) == ("hold", "written from memory")
    knee = LoggedPain(joint="patellar-knee", side="left", before=1, worst=3)
    assert advice(done(3, pain=(knee,))).why_held == "pain rose"
    calm = LoggedPain(joint="patellar-knee", side="left", before=2, worst=2)
    assert advice(done(3, pain=(calm,))).move == "raise"


def test_a_deload_raises_nothing() -> None:
    deload = next(week for week in BLOCK.weeks if week.role == "deload")
    session, item = next((s, i) for s in deload.sessions for i in s.items if i.movement == SQUAT and i.sets)
    (found,) = [a for a in advisor().for_session(BLOCK, session.id, done(3)) if a.item.id == item.id]
    assert (found.move, found.load_kg) == ("hold", item.load_kg)


def test_the_young_and_novices_keep_three() -> None:
    """With 2 planned and 4 left an adult raises at once; who always keeps three has one more than that, once."""
    history = done(2)
    planned_left = SQUAT_DAYS[0][1].reps_in_reserve or 0
    assert advice(history).move == "raise"
    expected = "raise" if planned_left >= 3 else "hold"
    assert advice(history, guarded=True).move == expected
    low = [
        DoneSession(
            one.planned.model_copy(update={"items": tuple(_reserve(item, 2) for item in one.planned.items)}),
            one.entry.model_copy(
                update={"items": tuple(line.model_copy(update={"reps_in_reserve": (4,)}) for line in one.entry.items)}
            ),
            one.session,
        )
        for one in history
    ]
    assert (advice(low).move, advice(low, guarded=True).move) == ("raise", "hold")


def _reserve(item: Item, left: int) -> Item:
    return item.model_copy(update={"reps_in_reserve": left}) if item.movement == SQUAT else item


def test_a_heavier_load_than_planned_carries_on() -> None:
    found = advice(done(0, load=planned(0) + 5))
    assert found.load_kg == floor(planned(1) * (planned(0) + 5) / planned(0))


def test_steps_of_a_one_leg_lift_are_of_load_and_body() -> None:
    """5 kg on an 80 kg body with two more left: 3.24 % of 85 kg is 2.75 kg, on a load that grows as the plan says."""
    movement = "heel-raised-one-leg-squat"
    places = [
        (session, item)
        for week in BLOCK.weeks
        if week.role in LOAD_ROLES
        for session in week.sessions
        for item in session.items
        if item.movement == movement and item.sets and item.load_kg
    ]
    (first, before), (second, after) = places[:2]
    lifted = (before.load_kg or 0) + 5
    line = LoggedItem.model_construct(
        item=before.id,
        load=lifted,
        reps=(before.reps,) * before.sets,
        reps_in_reserve=((before.reps_in_reserve or 0) + 2,),
    )
    entry = LoggedSession.model_construct(session=first.id, date=first.date, done="as-planned", items=(line,))
    free = Advisor(RULE, LIBRARY, 80.0, False, lambda item: None)
    history = done_sessions(BLOCK, log(entry), LIBRARY, LEG)
    (found,) = [one for one in free.for_session(BLOCK, second.id, history) if one.item.movement == movement]
    as_before = ((after.load_kg or 0) + 80) * (lifted + 80) / ((before.load_kg or 0) + 80)
    assert found.load_kg == pytest.approx(as_before * (1 + 0.027 * 0.6 * 2) - 80, abs=0.01)


def test_pain_where_nothing_was_said_before() -> None:
    silent = LoggedPain(joint="patellar-knee", side="left", worst=1)
    assert advice(done(3, pain=(silent,))).why_held == "pain rose"
    none = LoggedPain(joint="patellar-knee", side="left", before=0, next_morning=0)
    assert advice(done(3, pain=(none,))).move == "raise"
    elsewhere = LoggedPain(joint="achilles-ankle", side="left", before=0, worst=4)
    assert "achilles-ankle" not in LIBRARY[SQUAT].stress and advice(done(3, pain=(elsewhere,))).move == "raise"
    morning = LoggedPain(joint="patellar-knee", side="left", before=1, worst=1, next_morning=2)
    assert advice(done(3, pain=(morning,))).why_held == "pain rose"


def test_a_load_that_was_found_is_taken_over() -> None:
    """20 kg x 8 with 3 left, as planned; the same prescription next time takes 20 kg, one of fewer reps more."""
    session = BLOCK.weeks[0].sessions[0]
    lift = next(item for item in session.items if item.movement == SQUAT)
    found_then = lift.model_copy(update={"load_kg": None, "percent": None, "reps": 8, "reps_in_reserve": 3, "sets": 3})
    next_time = found_then.model_copy(update={"id": "w2s1i1", "reps": 5})
    line = LoggedItem.model_construct(item=lift.id, load=20.0, reps=(8, 8, 8), reps_in_reserve=(3,))
    entry = LoggedSession.model_construct(session=session.id, date=session.date, done="as-planned", items=(line,))
    first = session.model_copy(update={"items": (found_then,)})
    second = BLOCK.weeks[1].sessions[0].model_copy(update={"items": (next_time,)})
    weeks = (
        BLOCK.weeks[0].model_copy(update={"sessions": (first,)}),
        BLOCK.weeks[1].model_copy(update={"sessions": (second,)}),
    )
    block = BLOCK.model_copy(update={"weeks": weeks})
    free = Advisor(RULE, LIBRARY, 80.0, False, lambda item: None)
    (found,) = free.for_session(block, second.id, done_sessions(block, log(entry), LIBRARY, LEG))
    assert found.move == "found" and found.load_kg == pytest.approx(20 * (41 / 38), abs=0.01)
    assert isinstance(found.last.date, datetime.date)
