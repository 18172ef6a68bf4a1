"""What was done is a plan's own sessions with other figures, counted by the same code: by hand on a kept block."""

from __future__ import annotations

import datetime
from typing import Any

from planner.domain.block import Block
from planner.domain.training_log import LoggedBlock, LoggedItem, LoggedSession, TrainingLog
from planner.past.done import differs, done_sessions, done_weeks, last_day, not_logged
from planner.prescription.tally import week_tally
from planner.rules.recount import CountedWeek, count_week
from tests.rules.kept_blocks import kept_block, kept_problem

BLOCK, PROBLEM = kept_block("adult"), kept_problem("adult")
LIBRARY, LEG = PROBLEM.library, PROBLEM.athlete.take_off


def log(*entries: LoggedSession) -> TrainingLog:
    return TrainingLog(file="log/1", block=LoggedBlock(path="b.yaml", plan_sha256="0"), sessions=entries)


def entry(session: str = "w1s1", **more: Any) -> LoggedSession:
    planned = next(s for s in BLOCK.sessions if s.id == session)
    return LoggedSession.model_construct(
        session=session, date=more.pop("date", planned.date), done=more.pop("done", "changed"), **more
    )


def item(of: str, **more: Any) -> LoggedItem:
    """A line on the first item of w1s1 with this movement."""
    planned = next(one for one in BLOCK.weeks[0].sessions[0].items if one.movement == of)
    return LoggedItem.model_construct(item=planned.id, **more)


def counted(*entries: LoggedSession, week: int = 1) -> CountedWeek:
    return count_week(done_weeks(BLOCK, log(*entries), LIBRARY, LEG)[week - 1], PROBLEM)


PLANNED = count_week(BLOCK.weeks[0], PROBLEM)


def test_as_planned_is_the_plan() -> None:
    weeks = done_weeks(BLOCK, log(entry(done="as-planned")), LIBRARY, LEG)
    assert weeks == BLOCK.weeks
    (done,) = done_sessions(BLOCK, log(entry(done="as-planned")), LIBRARY, LEG)
    assert done.session == done.planned == BLOCK.weeks[0].sessions[0]


def test_a_missed_session_is_zero_and_keeps_its_items() -> None:
    missed = entry(done="missed", why="ill", date=None)
    (done,) = done_sessions(BLOCK, log(missed), LIBRARY, LEG)
    assert done.missed and done.date == done.planned.date
    assert [one.id for one in done.session.items] == [one.id for one in done.planned.items]
    others = [session for session in PLANNED.sessions if session.session.id != "w1s1"]
    now = counted(missed)
    assert now.contacts == sum(session.contacts for session in others)
    assert now.working_sets == sum(session.working_sets for session in others)
    assert now.sprint_efforts == sum(session.sprint_efforts for session in others)


def test_fewer_sets_fewer_reps_and_none() -> None:
    """The kept block: 3 sets of back squats, 2 drop jump sets of 4, 4 sprints on w1s1."""
    items = {one.movement: one for one in BLOCK.weeks[0].sessions[0].items}
    assert (items["back-squat"].sets, items["acceleration-30"].sets) == (3, 4)
    drops = items["drop-jump-20"]
    now = counted(
        entry(
            items=(
                item("back-squat", sets=2),
                item("drop-jump-20", reps=(drops.reps, 1)),  # of two sets
                item("acceleration-30", sets=0),
            )
        )
    )
    assert now.working_sets == PLANNED.working_sets - 1
    assert now.quality_sets("maximal-strength") == PLANNED.quality_sets("maximal-strength") - 1
    assert now.contacts == PLANNED.contacts - (drops.reps or 0) + 1
    assert now.sprint_efforts == PLANNED.sprint_efforts - 4
    assert now.sprint_m == PLANNED.sprint_m - 120
    change = PLANNED.stress("patellar-knee", "left") - now.stress("patellar-knee", "left")
    assert change > 0


def test_the_tally_on_cards_counts_the_same() -> None:
    week = done_weeks(BLOCK, log(entry(items=(item("drop-jump-20", sets=1),))), LIBRARY, LEG)[0]
    now = count_week(week, PROBLEM)
    assert week_tally(week).all_contacts == now.contacts
    assert week_tally(week).working_sets == now.working_sets


def test_another_movement_counts_with_its_own_tags() -> None:
    """Two-leg pogos (low) in place of drop jumps (high): as many reps, one landing each."""
    planned = next(one for one in BLOCK.weeks[0].sessions[0].items if one.movement == "drop-jump-20")
    now = counted(entry(items=(item("drop-jump-20", movement="pogo", reps=(10, 10)),)))
    assert now.tier_contacts("low") == PLANNED.tier_contacts("low") + 20
    assert now.tier_contacts(planned.tier or "high") == PLANNED.tier_contacts(planned.tier or "high") - planned.contacts


def test_one_leg_jumps_in_place_of_two_leg_ones_count_on_each_leg() -> None:
    done = done_sessions(
        BLOCK, log(entry(items=(item("drop-jump-20", movement="one-leg-pogo", reps=(6,)),))), LIBRARY, LEG
    )
    replaced = next(one for one in done[0].session.items if one.movement == "one-leg-pogo")
    assert (replaced.side, replaced.contacts) == ("each", 12)


def test_a_session_done_in_the_next_week_counts_there() -> None:
    saturday = BLOCK.weeks[0].sessions[-1]
    later = entry(saturday.id, done="as-planned", date=BLOCK.weeks[1].start)
    moved = next(session for session in PLANNED.sessions if session.session.id == saturday.id)
    next_week = count_week(BLOCK.weeks[1], PROBLEM)
    assert counted(later).contacts == PLANNED.contacts - moved.contacts
    assert counted(later, week=2).contacts == next_week.contacts + moved.contacts


def test_an_unfinished_entry_is_not_done_yet() -> None:
    begun = log(entry(done="unfinished"), entry("w1s2", done="as-planned"))
    assert [one.planned.id for one in done_sessions(BLOCK, begun, LIBRARY, LEG)] == ["w1s2"]
    after = BLOCK.weeks[0].sessions[2].date
    assert [one.id for one in not_logged(BLOCK, begun, after)] == ["w1s1"]


def test_first_set_speaks_for_the_load() -> None:
    squat = item("back-squat", loads=(110.0, 110.0, 105.0), reps=(6, 6, 5), reps_in_reserve=(3, 2))
    (done,) = done_sessions(BLOCK, log(entry(items=(squat,))), LIBRARY, LEG)
    lifted = next(one for one in done.session.items if one.movement == "back-squat")
    assert (lifted.sets, lifted.load_kg, lifted.reps, lifted.reps_in_reserve, lifted.percent) == (3, 110.0, 6, 3, None)


def test_other_work_differs_and_another_load_does_not() -> None:
    squat = next(one for one in BLOCK.weeks[0].sessions[0].items if one.movement == "back-squat")
    reps = squat.reps or 0
    same = [
        item("back-squat", load=200.0),
        item("back-squat", sets=squat.sets, reps_in_reserve=(0,)),
        item("back-squat", reps=(reps,) * squat.sets),
        item("back-squat", movement="back-squat", reps=(reps + 1, reps - 1, reps)),
    ]
    other = [
        item("back-squat", sets=squat.sets - 1),
        item("back-squat", reps=(reps,) * (squat.sets - 1)),
        item("back-squat", reps=(*(reps,) * (squat.sets - 1), reps - 1)),
        item("back-squat", movement="front-squat"),
    ]
    assert [differs(squat, one) for one in same] == [False] * 4
    assert [differs(squat, one) for one in other] == [True] * 4
    hold = squat.model_copy(update={"reps": None})
    assert not differs(hold, item("back-squat", reps=(3,) * squat.sets))


def test_another_movement_brings_its_own_implement_and_distance() -> None:
    for movement in ("front-squat", "acceleration-30", "pogo", "nordic-curl"):
        (done,) = done_sessions(BLOCK, log(entry(items=(item("back-squat", movement=movement, sets=2),))), LIBRARY, LEG)
        replaced = next(one for one in done.session.items if one.id == item("back-squat").item)
        of = LIBRARY[movement]
        assert replaced.implement == (None if of.dose.load == "none" else of.dose.implement)
        assert replaced.distance_m == (of.sprint.distance if of.sprint else None)
        assert (replaced.part, replaced.tier) == (of.part, of.jump.tier if of.jump else None)
        assert (replaced.load_kg, replaced.sets) == (None, 2)


def test_the_last_day_of_a_log() -> None:
    block: Block = BLOCK
    assert last_day(log(), block) is None
    assert last_day(log(entry(), entry("w1s3", done="missed", date=None)), block) == BLOCK.weeks[0].sessions[2].date
    assert isinstance(last_day(log(entry()), block), datetime.date)
