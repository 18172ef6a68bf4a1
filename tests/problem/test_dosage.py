"""One set of a movement in the solver's whole units: figures worked by hand, and the audit's own counting."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any, get_args

import pytest

from planner.domain.block import Item
from planner.domain.movement import Movement, side_of
from planner.domain.template_limits import DoseParts
from planner.domain.terms import JOINTS, LEGS, LIFT_QUALITIES, Joint, Leg
from planner.problem.dosage import dose_movement
from planner.problem.model import STRESS_UNITS_PER_POINT, Entry, Problem
from planner.problem.retest import retest_movement
from planner.rules.recount import CountedItem
from planner.solve.extract import extract_weeks
from planner.solve.variable_ranges import variable_ranges
from tests.rules.kept_blocks import shipped_problem
from tests.solve.demos import DEMOS, athlete, problem, shipped_library, template

SETS = 3
TOLERANCE_points = 1e-9


@pytest.mark.parametrize(
    ("movement", "week", "contacts", "leg_contacts", "points"),
    [
        # Two sets of ten, both feet at once: a contact is one landing.
        ("pogo", 1, 10, {"left": 10, "right": 10}, {("achilles-ankle", "left"): 1.0}),
        # Three landings a leg, six in all; tag 3 at the Achilles weighs 4: 3 / 10 x 4.
        ("alternate-bounds-80", 1, 6, {"left": 3, "right": 3}, {("achilles-ankle", "left"): 1.2}),
        # A full approach jump: one landing on the take-off leg.
        ("full-approach-jump-one-leg", 1, 1, {"left": 1}, {("achilles-ankle", "left"): 0.4}),
        # 20 m are two thirds of a dose; running weighs 2 at the Achilles.
        ("acceleration-20", 1, 0, {}, {("achilles-ankle", "right"): 4 / 3, ("patellar-knee", "left"): 2 / 3}),
        # A working set is a dose; the squat weighs 2 at the knee.
        ("back-squat", 1, 0, {}, {("patellar-knee", "left"): 2.0, ("achilles-ankle", "left"): 0.0}),
        # A side plank of 20 s is two thirds of a dose; it weighs 1 at the hip.
        ("side-plank-leg-lift", 1, 0, {}, {("hip-groin", "left"): 2 / 3}),
    ],
)
def test_figures_worked_by_hand(
    movement: str, week: int, contacts: int, leg_contacts: dict[Leg, int], points: dict[tuple[Joint, Leg], float]
) -> None:
    planned = shipped_problem("adult")
    dose = next(e.dosage for e in planned.week_entries(week) if e.movement.id == movement)
    reps = {"alternate-bounds-80": 3, "full-approach-jump-one-leg": 1}
    assert dose.reps == reps.get(movement, dose.reps)
    assert (dose.contacts, dose.leg_contacts) == (contacts, leg_contacts)
    for key, expected in points.items():
        assert dose.stress.get(key, 0) / STRESS_UNITS_PER_POINT == pytest.approx(expected, abs=TOLERANCE_points)


def _entries(planned: Problem) -> Iterator[Entry]:
    """Every movement in every week, once."""
    for week in planned.weeks:
        seen = set()
        for entry in planned.week_entries(week):
            if entry.movement.id not in seen and entry.movement.id != planned.retest.id:
                seen.add(entry.movement.id)
                yield entry


# A coach's own idea of what a tag and a dose are worth.
OTHER_COUNTING = {
    "quality_quarters": [0, 1, 3],
    "stress_weights": [1, 3, 7],
    "contacts_per_dose": 8,
    "hold_s_per_dose": 40,
    "sprint_m_per_dose": 20,
}


def test_a_dose_is_a_whole_number_of_the_solver_s_units() -> None:
    assert all(STRESS_UNITS_PER_POINT % part == 0 for part in get_args(DoseParts))


@pytest.mark.parametrize("counting", [None, OTHER_COUNTING], ids=["shipped", "a coach's own"])
@pytest.mark.parametrize("demo", DEMOS)
def test_a_set_in_the_solver_s_units_is_a_set_as_the_audit_counts_it(
    demo: str, counting: dict[str, Any] | None
) -> None:
    """Printed as an item and counted again: contacts, legs, tiers, sprints, stress and quality shares all agree."""
    planned = problem(demo, template_changes={"counting": counting}) if counting else shipped_problem(demo)
    for entry in _entries(planned):
        dose = entry.dosage
        counted = CountedItem(_printed(planned.athlete.take_off, entry), entry.movement, planned.template.counting)
        where = (demo, entry.week, entry.movement.id)
        assert counted.item.contacts == SETS * dose.contacts, where
        assert counted.working_sets == SETS * int(dose.is_working_set), where
        assert counted.sprint_efforts == SETS * dose.sprints, where
        assert counted.sprint_m == SETS * dose.sprint_m, where
        for quality in LIFT_QUALITIES:
            assert 4 * counted.quality_sets(quality) == SETS * dose.quarter_sets.get(quality, 0), where
        for leg in LEGS:
            assert counted.leg_contacts(leg) == SETS * dose.leg_contacts.get(leg, 0), where
            for joint in JOINTS:
                units = SETS * dose.stress.get((joint, leg), 0)
                assert counted.stress(joint, leg) * STRESS_UNITS_PER_POINT == pytest.approx(units), where
                assert counted.tag3_contacts(joint, leg) == SETS * dose.tag3_contacts.get((joint, leg), 0), where


def _printed(take_off: str, entry: Entry) -> Item:
    movement, dose = entry.movement, entry.dosage
    side = side_of(movement, take_off)  # type: ignore[arg-type]
    per_rep = movement.jump.contacts_per_rep * (2 if side == "each" else 1) if movement.jump else 0
    return Item(
        id="x",
        part=movement.part,
        movement=movement.id,
        name=movement.name,
        side=side,
        sets=SETS,
        reps=dose.reps if dose.hold_s is None else None,
        distance_m=movement.sprint.distance if movement.sprint else None,
        hold_s=dose.hold_s,
        contacts=SETS * (dose.reps or 0) * per_rep,
        tier=movement.jump.tier if movement.jump else None,
    )


def _dose(movement: Movement, take_off: str = "one-leg left", least_reserve: int = 0, week: int = 1):  # type: ignore[no-untyped-def]
    return dose_movement(
        movement,
        template=template("eight-week"),
        week=week,
        take_off=take_off,  # type: ignore[arg-type]
        least_reserve=least_reserve,
        load_table={1: 97.5, 40: 0.0},
    )


def test_a_sprint_of_yards_is_never_less_than_the_audit_counts() -> None:
    movement = shipped_library()["acceleration-10"]
    yards = movement.model_copy(update={"sprint": movement.sprint.model_copy(update={"distance": 9.144})})  # type: ignore[union-attr]
    units = _dose(yards).stress["achilles-ankle", "left"]
    assert units >= 2 * STRESS_UNITS_PER_POINT * 9.144 / 30
    assert units - 2 * STRESS_UNITS_PER_POINT * 9.144 / 30 <= 2  # at most a unit of weight 2 too much


def test_the_take_off_leg_jumps_alone_and_a_two_leg_jumper_s_drills_take_both() -> None:
    jump = shipped_library()["full-approach-jump-one-leg"]
    assert _dose(jump).leg_contacts == {"left": 1}
    assert _dose(jump, "one-leg right").leg_contacts == {"right": 1}
    both = _dose(jump, "two-leg")
    assert both.leg_contacts == {"left": 1, "right": 1}
    assert both.contacts == both.approach_contacts == 2


def test_more_in_reserve_lowers_the_percentage() -> None:
    squat = shipped_library()["back-squat"]
    plain, kept = _dose(squat, week=5), _dose(squat, least_reserve=3, week=5)
    assert (plain.reserve, plain.percent) == (2, 85)
    assert (kept.reserve, kept.percent) == (3, 100 - 2.5 * (4 + 3))


def test_the_test_is_a_movement_of_its_own_with_its_practice_and_counted_jumps() -> None:
    planned = shipped_problem("adult")
    (entry,) = planned.entries[planned.last_week, planned.test_slot]
    assert (entry.dosage.low_sets, entry.dosage.high_sets) == (5, 5)
    assert entry.dosage.leg_contacts == {"left": 1}
    assert entry.dosage.stress == {
        key: units
        for key, units in next(
            e.dosage.stress for e in planned.week_entries(1) if e.movement.id == "full-approach-jump-one-leg"
        ).items()
    }


@pytest.mark.parametrize(
    ("take_off", "steps", "legs", "part"),
    [
        ("one-leg right", 7, "one", "approach-jump"),
        ("two-leg", 4, "both", "approach-jump"),
        ("two-leg", 0, "both", "jump"),
        ("one-leg left", 0, "one", "jump"),
    ],
)
def test_the_test_is_jumped_as_the_target_is(take_off: str, steps: int, legs: str, part: str) -> None:
    who = athlete("in-season-player").model_copy(update={"take_off": take_off})
    who = who.model_copy(update={"approach": who.approach.model_copy(update={"steps": steps})})
    test = retest_movement(who, shipped_library())
    assert (test.legs, test.part, test.kind) == (legs, part, "jump")
    assert any(test.stress.values())


def test_the_test_is_written_as_its_practice_and_its_counted_jumps() -> None:
    planned = problem("in-season")
    values = {key: low for key, (low, _) in variable_ranges(planned).items()}
    last = extract_weeks(planned, values)[-1].sessions[-1]
    assert [(item.sets, item.contacts) for item in last.items] == [(2, 2), (3, 3)]
    assert replace(planned).is_test_day(4, 2)


@pytest.mark.parametrize(
    ("movement", "seconds", "sprints", "hold_units"),
    [
        ("back-squat", 45 + 210, 0, 0),  # both legs at once
        ("rear-foot-split-squat", 2, 0, 0),  # each leg for itself: twice the set's time
        ("acceleration-20", 5 + 175, 1, 0),
        ("side-plank-leg-lift", 2, 0, 80),  # 20 s of 30: two thirds of 120 units at the hip
    ],
)
def test_time_efforts_and_holds_of_a_set(movement: str, seconds: int, sprints: int, hold_units: int) -> None:
    one = shipped_library()[movement]
    dose = _dose(one)
    if seconds == 2:
        assert one.legs == "one"
        seconds = round(2 * one.dose.set_time + one.dose.rest)
    assert (dose.set_seconds, dose.sprints) == (seconds, sprints)
    assert dose.stress.get(("hip-groin", "left"), 0) == hold_units or not hold_units
    assert dose.is_working_set is (one.kind in ("lift", "hold"))


def test_a_sprint_is_fast_from_the_template_s_share_of_top_speed_on() -> None:
    least = template("eight-week").hard_day.sprint_speed_percent
    base = shipped_library()["acceleration-20"]
    assert base.sprint is not None
    for percent, fast in ((least - 1, 0), (least, 1), (100, 1)):
        one = base.model_copy(update={"sprint": base.sprint.model_copy(update={"speed_percent": percent})})
        assert _dose(one).fast_sprints == fast
    squat = _dose(shipped_library()["back-squat"])
    assert (squat.fast_sprints, squat.sprints, squat.approach_contacts, squat.contacts) == (0, 0, 0, 0)
