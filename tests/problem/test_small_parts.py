"""Small parts of a Problem, each by hand: days of a week, refusals in words, what a set counts as."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from planner.domain.findings import UserError
from planner.domain.terms import DAYS, LOAD_ROLES
from planner.problem.ceilings import growth_of
from planner.problem.from_files import estimate_and_problem
from planner.problem.not_plannable import refuse_age
from planner.problem.per_set import approach_contacts, fast_sprints, quarter_sets, tier_contacts
from planner.problem.training_days import sport_days
from tests.problem.test_ceilings import statures
from tests.solve.demos import athlete, inputs, problem, template
from tests.solve.test_extra_set import WEAK_LEFT_CALF

PLAYER, YOUTH = "in-season-player", "youth-two-leg-jumper"
MONDAY = datetime.date(2025, 9, 8)


@pytest.mark.parametrize("shift", range(7))
def test_a_week_of_the_block_begins_on_its_first_day_and_days_count_from_there(shift: int) -> None:
    start = MONDAY + datetime.timedelta(days=shift)
    planned = problem("in-season", start=start)
    for week in planned.weeks:
        assert (planned.week_start(week) - start).days == 7 * (week - 1)
        for slot in planned.slots:
            date = planned.week_start(week) + datetime.timedelta(days=planned.day_offset(slot.number))
            assert date == planned.dates[week, slot.number]
            assert DAYS[date.weekday()] == slot.day and 0 <= planned.day_offset(slot.number) < 7


@pytest.mark.parametrize(
    ("state", "says", "not_said"),
    [
        ({"pain": 8}, "pain 8 of 10 in the Achilles and ankle: no block", "morning"),
        ({"pain": 8, "side": "right"}, "pain 8 of 10 in the right Achilles and ankle: no block", "morning"),
        (
            {"pain": 1, "worse_next_morning": True},
            "Achilles and ankle that is worse the next morning: no block",
            "right",
        ),
    ],
)
def test_pain_is_refused_with_its_joint_its_side_and_the_morning(
    state: dict[str, Any], says: str, not_said: str
) -> None:
    with pytest.raises(UserError) as refused:
        problem("in-season", {"joints": [{"joint": "achilles-ankle", **state}]})
    (finding,) = refused.value.findings
    assert says in finding.message and not_said not in finding.message
    assert (finding.keys, finding.line, finding.column) == (("joints", 0, "pain"), 0, 0)


@pytest.mark.parametrize(("birth", "refused"), [("1935-09-08", False), ("1934-09-08", True), ("2018-09-08", False)])
def test_ages_from_seven_to_ninety_are_planned_the_ends_too(birth: str, refused: bool) -> None:
    changes = {"birth_date": datetime.date.fromisoformat(birth)}
    if not refused:
        assert problem("youth", changes, start=MONDAY).start == MONDAY
        return
    with pytest.raises(UserError) as why:
        problem("youth", changes, start=MONDAY)
    (finding,) = why.value.findings
    assert (finding.code, finding.keys, finding.line, finding.column) == ("age", ("birth_date",), 0, 0)


@pytest.mark.parametrize(("birth", "says"), [("2025-09-08", "0 years old"), ("2025-09-09", "not born yet")])
def test_a_start_before_the_birth_is_told_as_such(birth: str, says: str) -> None:
    with pytest.raises(UserError) as why:
        refuse_age(athlete(YOUTH).model_copy(update={"birth_date": datetime.date.fromisoformat(birth)}), MONDAY)
    assert why.value.findings[0].message.endswith(f"the athlete is {says}")


def test_one_hard_practice_makes_a_day_hard_whatever_else_is_on_it() -> None:
    both = [{"day": "mon", "minutes": 60, "hardness": hardness} for hardness in ("light", "hard")]
    for practices, hard in ((both, True), (both[:1], False), (both[1:], True)):
        found = sport_days(athlete(PLAYER, {"practices": practices, "matches": []}), MONDAY, 1)
        assert found[MONDAY].hard is hard


def test_as_many_readings_as_the_template_asks_for_are_enough_and_older_ones_do_not_count() -> None:
    youth = template("youth-eight-week").youth
    three = athlete(YOUTH, {"stature_records": statures(167.0, 169.0, 171.0, days=42)}).stature_records
    assert len(three) == youth.growth_readings and growth_of(three, youth) is not None  # twelve weeks to the day
    late = athlete(YOUTH, {"stature_records": statures(167.0, 169.0, 171.0, days=43)}).stature_records
    assert growth_of(late, youth) is None  # the first is two days too old, and two are too few


def test_what_a_set_counts_as_is_its_own_dosage() -> None:
    planned = problem("adult")
    entries = [entry for row in planned.entries.values() for entry in row]
    assert any(fast_sprints(e) for e in entries) and any(approach_contacts(e) for e in entries)
    for entry in entries:
        assert fast_sprints(entry) == entry.dosage.fast_sprints <= entry.dosage.sprints
        assert approach_contacts(entry) == entry.dosage.approach_contacts <= entry.dosage.contacts
        if entry.dosage.tier != "high":
            assert tier_contacts("high")(entry) == 0
        if "calf-ankle" not in entry.dosage.quarter_sets:
            assert quarter_sets("calf-ankle")(entry) == 0


def test_a_weaker_leg_s_extra_set_is_of_load_weeks_and_stresses_that_leg_alone() -> None:
    estimate, planned = estimate_and_problem(inputs("in-season", {**WEAK_LEFT_CALF, "weaker_leg": "extra-set"}))
    assert set(estimate.weaker_legs.values()) == {"left"}
    extras = {e.week: e for row in planned.entries.values() for e in row if e.dosage.extra is not None}
    assert {planned.role(week) for week in extras} <= set(LOAD_ROLES) and extras
    for entry in extras.values():
        extra = entry.dosage.extra
        assert extra is not None and extra.leg == "left"
        assert extra.stress == {joint: units for (joint, leg), units in entry.dosage.stress.items() if leg == "left"}
