"""What a rule says and offers where no block is found: whose line it is, what stays closed, what is too close."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from planner.domain.movement import Movement
from planner.problem.model import Problem
from planner.rules.currencies import CONTACTS
from planner.rules.registry import rule_named
from planner.rules.rule import MOST_REASONS, Address, Blamed, ClosingRule, Loosening, Row, Step
from tests.rules.kept_blocks import shipped_problem
from tests.solve.demos import problem

MONDAY = datetime.date(2025, 9, 8)
CLOSE_DAYS = {"training": {"days": [{"day": day, "minutes": 75} for day in ("mon", "tue", "fri")]}}


def close(**more: Any) -> Problem:
    """The in-season player on Monday, Tuesday and Friday, without a match."""
    return problem("in-season", {**CLOSE_DAYS, "practices": [], "matches": [], **more}, start=MONDAY)


def blamed(rule: str, planned: Problem, rows: list[Row] | None = None) -> list[tuple[Any, str]]:
    found = list(rule_named(rule).rows(planned)) if rows is None else rows
    return list(rule_named(rule).blamed(Blamed(found, planned)))


def about_two_days(rule: str, planned: Problem, week: int) -> list[Row]:
    found = [row for row in rule_named(rule).rows(planned) if row.other is not None]
    return [row for row in found if row.at.week in (week, None) and row.other and row.other.week in (week, None)]


def test_hard_days_too_close_are_told_by_their_names() -> None:
    planned = close()
    [(field, said)] = blamed("hard-days-apart", planned, about_two_days("hard-days-apart", planned, 1))
    assert field == ("training", "days")
    assert said.endswith(": hard days must be 2 days apart, and Monday and Tuesday are closer")


def test_jump_days_too_close_are_told_by_their_names() -> None:
    planned = close(level="novice")
    rows = [row for row in about_two_days("youth-jump-days", planned, 1) if row.at.phase == "hold"]
    pairs = {(row.at.slot, row.other.slot) for row in rows if row.other}
    assert pairs == {(1, 2)}  # Friday is three days from either: Tuesday before it, Monday after it
    [(field, said)] = blamed("youth-jump-days", planned, rows)
    assert field == ("training", "days")
    assert said.endswith(": jump days must be 3 days apart, and Monday and Tuesday are closer")


def test_a_row_at_its_limit_says_what_may_not_be_hard() -> None:
    rule, planned = rule_named("hard-days-apart"), close(matches=[{"date": MONDAY, "minutes": 60, "hardness": "hard"}])
    rows = list(rule.rows(planned))
    for row in rows:
        both, sport = row.other is not None, row.at.of == "sport"
        wanted = "only one of the two may be hard" if both else "it may not be hard" if sport else None
        assert rule.at_limit(row) == wanted, row.name
    assert {row.at.of for row in rows} == {None, "sport", "high", "sprints"}


@pytest.mark.parametrize(("wanted", "number"), [("back-squat", 2), ("rear-foot-split-squat", 3), ("front-squat", None)])
def test_a_missing_strength_is_blamed_on_the_first_test_of_its_lift(wanted: str, number: int | None) -> None:
    movement = _requiring(f"{wanted} >= 3 body mass")
    field = rule_named("prerequisites").closing_field(shipped_problem("in-season"), movement)  # type: ignore[attr-defined]
    assert field == (("tests",) if number is None else ("tests", number))


@pytest.mark.parametrize(
    ("rule", "movement", "kind"),
    [
        ("main-lift-loaded", "goblet-squat", "back-squat"),
        ("one-leg-calf", "calf-hold", "heel-raise"),
        ("tested-box", "drop-jump-20", "drop-jump"),
    ],
)
def test_a_closed_movement_is_blamed_on_the_test_that_closes_it(rule: str, movement: str, kind: str) -> None:
    planned = shipped_problem("adult")
    field = rule_named(rule).closing_field(planned, planned.library[movement])  # type: ignore[attr-defined]
    test = planned.athlete.tests[field[1]]
    assert kind in (test.kind, getattr(test, "movement", None))


def test_of_two_legs_tested_the_stronger_shows_what_is_required() -> None:
    tests = [
        {"kind": "touch", "date": "2025-09-03", "take_off": "two-leg", "run_up": True, "trials": ["2.97 m"]},
        {"kind": "contact-time", "date": "2025-09-03", "take_off": "two-leg", "trials": ["0.32 s"]},
        *(
            {
                "kind": "lift",
                "date": "2025-09-01",
                "movement": "rear-foot-split-squat",
                "side": side,
                "load": f"{kg} kg",
                "reps": 1,
                "reps_in_reserve": 0,
            }
            for side, kg in (("left", 20), ("right", 71))
        ),
    ]
    planned, rule = problem("in-season", {"tests": tests}), rule_named("prerequisites")
    best_kg = max(kg for (lift, _), kg in planned.one_rm_kg.items() if lift == "rear-foot-split-squat")
    body_kg = planned.athlete.body_mass
    for share, open_to in ((best_kg / body_kg - 0.01, True), (best_kg / body_kg + 0.01, False)):
        reason = rule.reason(planned, _requiring(f"rear-foot-split-squat >= {share:.4f} body mass"))  # type: ignore[attr-defined]
        assert (reason is None) == open_to, reason


def _requiring(text: str) -> Movement:
    return shipped_problem("in-season").library["back-squat"].model_copy(update={"requires": (text,)})


def test_what_may_be_opened_is_opened_to_adults_alone() -> None:
    novice = problem("in-season", {"level": "novice"})
    row = Row("", Address(phase="hold", slot=1, movement="drop-jump-20"), (), None, 0)
    price = novice.template.changes.movement
    for rule_id, adult_only in (("high-tier-gate", True), ("level", True), ("tested-box", False), ("pain", None)):
        rule = rule_named(rule_id)
        offer = [Loosening(rule_id, Address(movement="drop-jump-20"), 1, price)]
        assert list(rule.loosenings(shipped_problem("in-season"), row)) == ([] if adult_only is None else offer)
        assert list(rule.loosenings(novice, row)) == (offer if adult_only is False else [])


def test_what_is_opened_is_named_with_the_reason_that_it_was_closed() -> None:
    planned = shipped_problem("in-season")
    step = Step("level", Address(movement="one-leg-strapped-curl"), 1)
    assert rule_named("level").change_in_words([step], planned) == (
        "a coach's allowance for Strapped leg curl, one leg, which is for advanced athletes; "
        "this one is planned as intermediate"
    )


def test_a_floor_of_none_asks_for_none() -> None:
    planned = shipped_problem("in-season")
    row = rule_named("contacts-floor").row(CONTACTS.at(2), [], low=0)
    [(_, said)] = blamed("contacts-floor", planned, [row])
    assert said.endswith(": at least 0 contacts in week 2")
    [offer] = rule_named("contacts-floor").loosenings(planned, row)
    assert offer.most == 0


def test_a_joint_that_hurts_is_blamed_on_its_own_entry() -> None:
    joints = [
        {"joint": "patellar-knee", "pain": 0},
        {"joint": "achilles-ankle", "side": "right", "pain": 4},
        {"joint": "achilles-ankle", "side": "left", "pain": 1},
    ]
    planned, rule = problem("in-season", {"joints": joints}), rule_named("pain")
    bounds = planned.library["alternate-bounds-80"]
    assert rule.closing_field(planned, bounds) == ("joints", 1)  # type: ignore[attr-defined]
    assert rule.closing_field(planned, planned.library["back-squat"]) == ("joints",)  # type: ignore[attr-defined]


def test_each_day_is_blamed_on_the_match_that_bars_it() -> None:
    """Saturday's match bars Friday as the day before, Tuesday's the Monday before it and the Tuesday itself."""
    matches = [{"day": "sat", "minutes": 60}, {"date": datetime.date(2025, 9, 9), "minutes": 60}]
    planned = close(matches=matches)
    found = {field: said for field, said in blamed("match-window", planned) if "Monday" in said or "Friday" in said}
    assert set(found) == {("matches", 0), ("matches", 1)}
    assert "Friday of weeks 1 to 3 is the day before a match" in found["matches", 0]
    assert "Monday of week 1 is the day before a match" in found["matches", 1]


def test_a_weeks_joint_stress_says_what_sport_takes_of_it() -> None:
    """Two practices of 90 minutes at 8 points an hour, and a match of 60 at 10: 34 points."""
    practices = [{"day": day, "minutes": 90, "hardness": "medium"} for day in ("tue", "thu")]
    matches = [{"day": "sun", "minutes": 60, "hardness": "hard"}]
    planned = problem("in-season", {"practices": practices, "matches": matches})
    rows = [row for row in rule_named("joint-stress").rows(planned) if row.at.joint == "patellar-knee"]
    weekly = [row for row in rows if row.at.leg == "left" and row.at.week == 2 and row.at.slot is None]
    [_, (field, said)] = blamed("joint-stress", planned, weekly)
    assert field == ("practices",) and "alone put 34 points on the left knee (ceiling 72)" in said
    [_] = blamed("joint-stress", planned, [row for row in rows if row.at.slot is not None])
    [_] = blamed("joint-stress", close(), [row for row in rule_named("joint-stress").rows(close()) if row.at.week == 2])


def test_of_many_reasons_the_first_are_told_and_the_other_movements_counted() -> None:
    planned = close(equipment={"items": [], "runway": "1 m"})
    rule = rule_named("equipment")
    assert isinstance(rule, ClosingRule)
    rows = list(rule.rows(planned))
    closed = {row.at.movement or "": rule.reason(planned, planned.library[row.at.movement or ""]) for row in rows}
    [(field, said)] = blamed("equipment", planned, rows)
    told = {reason for reason in closed.values() if f"{reason};" in said}
    left = sum(reason not in told for reason in closed.values())
    assert field == ("equipment", "items") and len(told) == MOST_REASONS
    assert said.endswith(f"; {left} more for other reasons")
    assert said.count("'") < 100  # of two for each name
