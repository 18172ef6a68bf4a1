"""What the audit counts of single items and sessions, by hand: legs, doses, hard days, minutes, lost days."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from planner.domain.terms import LEGS
from planner.rules.recount import CountedItem, CountedSession, Plan, count_block
from planner.rules.session_minutes import counted_minutes
from tests.rules.edits import edited
from tests.rules.kept_blocks import kept_block, shipped_problem
from tests.solve.demos import problem

PER_CONTACTS, PER_HOLD_s, PER_SPRINT_m = 10, 30, 30  # a dose of each: templates/limits/standard.yaml
WEIGHTS = {1: 1, 2: 2, 3: 4}  # of the stress tags, there too


def plan(demo: str = "in-season", *edits: Any, planned: Any = None) -> Plan:
    block = edited(kept_block(demo), shipped_problem(demo), edits)
    return count_block(block, planned or shipped_problem(demo))


def item(movement: str, demo: str = "in-season", **changes: Any) -> CountedItem:
    """The item of the kept block's first session that has it, with some fields changed."""
    found = next(one for week in plan(demo).weeks for one in week.items if one.movement.id == movement)
    return CountedItem(found.item.model_copy(update=changes), found.movement, found.counting)


@pytest.mark.parametrize(
    ("side", "left", "right"), [("both", 24, 24), ("each", 12, 12), ("left", 24, 0), ("right", 0, 24)]
)
def test_landings_on_each_leg(side: str, left: float, right: float) -> None:
    bounds = item("alternate-bounds-80", side=side, contacts=24)
    assert [bounds.leg_contacts(leg) for leg in LEGS] == [left, right]
    assert [bounds.tag3_contacts("achilles-ankle", leg) for leg in LEGS] == [left, right]
    assert [bounds.tag3_contacts("patellar-knee", leg) for leg in LEGS] == [0, 0]  # tag 2


# What is counted in doses, its tag on the joint, and the doses of two sets on the left and the right leg.
DOSES: list[tuple[str, dict[str, Any], str, int, float, float]] = [
    ("back-squat", {}, "patellar-knee", 2, 2, 2),
    ("back-squat", {}, "achilles-ankle", 0, 0, 0),
    ("one-leg-hinge", {"extra_set": "left"}, "hamstring", 2, 3, 2),
    ("one-leg-hinge", {"extra_set": "right"}, "hamstring", 2, 2, 3),
    ("one-leg-hinge", {"side": "left"}, "hamstring", 2, 2, 0),
    ("one-leg-calf-hold", {"hold_s": 45}, "achilles-ankle", 2, 90 / PER_HOLD_s, 90 / PER_HOLD_s),
    ("one-leg-calf-hold", {"hold_s": 45, "extra_set": "right"}, "achilles-ankle", 2, 90 / PER_HOLD_s, 135 / PER_HOLD_s),
    ("alternate-bounds-80", {"contacts": 12}, "achilles-ankle", 3, 6 / PER_CONTACTS, 6 / PER_CONTACTS),
    ("drop-jump-20", {"contacts": 6}, "hip-groin", 1, 6 / PER_CONTACTS, 6 / PER_CONTACTS),
    ("crouch-start-10", {}, "hamstring", 2, 20 / PER_SPRINT_m, 20 / PER_SPRINT_m),
    ("crouch-start-10", {"distance_m": None}, "hamstring", 2, 0, 0),
]


@pytest.mark.parametrize(("movement", "changes", "joint", "tag", "left", "right"), DOSES)
def test_stress_is_the_tag_s_weight_times_doses(
    movement: str, changes: dict[str, Any], joint: Any, tag: int, left: float, right: float
) -> None:
    counted = item(movement, **{"sets": 2, **changes})
    assert counted.movement.stress.get(joint, 0) == tag
    weight = WEIGHTS.get(tag, 0)
    assert [counted.stress(joint, leg) for leg in LEGS] == pytest.approx([weight * left, weight * right])


def test_a_skill_drill_puts_no_stress_on_a_joint_that_it_has_a_tag_for() -> None:
    drill = item("curved-run-through", sets=2)
    tagged = drill.movement.model_copy(update={"stress": {"achilles-ankle": 3}})
    assert CountedItem(drill.item, tagged, drill.counting).stress("achilles-ankle", "left") == 0


@pytest.mark.parametrize(
    ("movement", "sets", "quality", "credited"),
    [
        ("back-squat", 3, "maximal-strength", 3),
        ("back-squat", 3, "knee-dominant", 1.5),
        ("band-abduction", 3, "unilateral-hip", 0.75),
        ("back-squat", 3, "calf-ankle", 0),
        ("drop-jump-20", 3, "calf-ankle", 0),  # a jump has no working sets
    ],
)
def test_sets_are_credited_by_tag(movement: str, sets: int, quality: Any, credited: float) -> None:
    assert item(movement, sets=sets).quality_sets(quality) == credited


def test_what_a_session_and_a_week_add_up_to() -> None:
    first = plan().weeks[0]
    monday, wednesday = first.sessions
    # Monday: 3 full approach jumps, 4 sprints of 10 m, 2 sets of 3 drop jumps, 2 sets each of squat, hinge and calf.
    assert (monday.contacts, monday.working_sets, monday.sprint_efforts, monday.sprint_m) == (9, 6, 4, 40)
    assert (monday.approach_contacts, monday.tier_contacts("high"), monday.tier_contacts("low")) == (3, 9, 0)
    assert monday.leg_tier_contacts("high", "left") == 9
    assert (monday.fast_sprints(100), monday.fast_sprints(101)) == (4, 0)
    # Wednesday: 2 sets of 8 pogos, 4 sets of 3 bounds a leg, 9 working sets.
    assert (wednesday.contacts, wednesday.working_sets, wednesday.sprint_efforts) == (40, 9, 0)
    assert wednesday.leg_tier_contacts("medium", "right") == 12
    assert wednesday.tag3_contacts("achilles-ankle", "left") == 12
    assert (first.contacts, first.working_sets) == (49, 15)


@pytest.mark.parametrize(
    ("session", "changes", "hard"),
    [
        (2, [], False),
        (2, [("full-approach-jump-two-leg", 5)], False),
        (2, [("full-approach-jump-two-leg", 6)], True),
        (2, [("crouch-start-10", 2)], False),
        (2, [("crouch-start-10", 3)], True),
        (2, [("crouch-start-10", 2), ("full-approach-jump-two-leg", 5)], False),
    ],
)
def test_a_day_is_hard_from_six_high_contacts_on_a_leg_or_three_fast_sprints(
    session: int, changes: list[tuple[str, int]], hard: bool
) -> None:
    edits = [{"add": {"week": 1, "session": session, "item": name, "sets": sets}} for name, sets in changes]
    assert plan("in-season", *edits).weeks[0].sessions[session - 1].is_hard(shipped_problem("in-season")) == hard


def _primer(**changes: Any) -> CountedSession:
    """The adult's last session before the test: 2 sets of ten pogos of 15 s, a minute after each, a warm-up of 12."""
    session = plan("adult").weeks[7].sessions[2]
    [pogo] = session.items
    changed = CountedItem(pogo.item.model_copy(update=changes), pogo.movement, pogo.counting)
    return CountedSession(session.session, (changed,))


def test_minutes_of_a_session() -> None:
    adult = shipped_problem("adult")
    warm_up = _primer().session.warm_up_minutes
    assert counted_minutes(adult, _primer()) == warm_up + 2 * (15 + 60) / 60
    assert counted_minutes(adult, _primer(sets=0)) == warm_up
    # An extra set is one of one side. The pogo is of both legs: "each" doubles no work that both legs do at once.
    assert counted_minutes(adult, _primer(extra_set="left")) == warm_up + 3 * (15 + 60) / 60
    assert counted_minutes(adult, _primer(side="each")) == warm_up + 2 * (15 + 60) / 60
    # 2 sets of each leg, 45 s of work and 2 minutes of rest, and two minutes of ramp-up sets.
    session = plan().weeks[0].sessions[0]
    [hinge] = [one for one in session.items if one.movement.id == "one-leg-hinge"]
    alone = CountedSession(session.session, (hinge,))
    wanted = session.session.warm_up_minutes + (2 * (2 * 45 + 120) + 120) / 60
    assert counted_minutes(shipped_problem("in-season"), alone) == wanted


AWAY = [datetime.date(2025, 9, 17)]  # the Wednesday of week 2


def test_a_week_that_loses_a_day_is_no_measure_for_the_next() -> None:
    away = plan(planned=problem("in-season", {"training": {"away": AWAY}}))
    assert [away.lost_days(number) for number in (1, 2, 3, 4)] == [False, True, False, False]
    before = [away.last_load_week_before(number) for number in (1, 2, 3, 4)]
    assert [week and week.number for week in before] == [None, 1, 1, 3]
    assert [(week.number, last.number) for week, last in away.compared(["build"])] == [(2, 1), (3, 1)]
    assert [(week.number, last.number) for week, last in away.compared(["taper"])] == [(4, 3)]


@pytest.mark.parametrize("day", [15, 21])
def test_the_first_and_the_last_day_of_a_week_are_its_own(day: int) -> None:
    changes = {
        "training": {
            "away": [datetime.date(2025, 9, day)],
            "days": [{"day": "mon", "minutes": 75}, {"day": "sun", "minutes": 75}],
        }
    }
    away = plan(planned=problem("in-season", {**changes, "matches": []}, start=datetime.date(2025, 9, 8)))
    assert [away.lost_days(number) for number in (1, 2, 3)] == [False, True, False]


def test_items_without_sets_and_the_test_do_no_work() -> None:
    found = plan("in-season", {"change": {"week": 1, "session": 1, "item": "back-squat", "sets": 0}})
    working = [(week.number, one.movement.id) for week, _, one in found.working_items()]
    assert (1, "back-squat") not in working and (2, "back-squat") in working
    assert found.problem.retest.id not in {movement for _, movement in working}
    assert [session.is_test for session in found.sessions] == [False] * 7 + [True]
