"""What a rule offers where no block is found: a step of it, taken in the athlete's file, moves its row by as much."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from planner.problem.from_files import estimate_and_problem
from planner.problem.model import Problem
from planner.rules.currencies import CONTACTS
from planner.rules.places import named, place_in_words, places_in_words, weeks_in_words
from planner.rules.registry import all_rules, rule_named
from planner.rules.rule import Address, Blamed, Loosening, Row, Rule, Step
from tests.rules.kept_blocks import shipped_problem
from tests.solve.demos import inputs, problem

AWAY = [datetime.date(2025, 9, 17), datetime.date(2025, 10, 1)]
HARD_TO_PLAN: dict[str, Any] = {
    "pins": [{"movement": "pogo", "day": "mon"}, {"movement": "pogo"}, {"movement": "back-squat"}],
    "bans": ["back-squat", "goblet-squat"],
    "training": {"away": AWAY},
    "matches": [{"date": datetime.date(2025, 9, 9), "minutes": 60}, {"day": "fri", "minutes": 60}],
}


@cache
def hard() -> Problem:
    """The in-season player, who trains on Monday and Wednesday: away, at matches, with pins and bans, without a bar."""
    plain = problem("in-season", HARD_TO_PLAN)
    equipment = plain.athlete.equipment.model_copy(update={"bar": None, "plates": (), "items": ("bench",)})
    return rebuilt(plain.athlete.model_copy(update={"equipment": equipment}))


def rebuilt(athlete: Any) -> Problem:
    return estimate_and_problem(replace(inputs("in-season"), athlete=athlete), hard_start())[1]


def hard_start() -> datetime.date:
    return datetime.date(2025, 9, 8)


def offers(rule: Rule, planned: Problem) -> list[tuple[Row, list[Loosening]]]:
    found = [(row, list(rule.loosenings(planned, row))) for row in rule.rows(planned)]
    return [(row, offered) for row, offered in found if offered]


def after(rule: Rule, planned: Problem, steps: Sequence[Step]) -> dict[Any, Row]:
    return {row.key: row for row in rule.rows(rebuilt(rule.changed(planned, planned.athlete, steps)))}


@pytest.mark.parametrize("rule_id", ["bans", "dates", "equipment", "pins"])
def test_a_line_taken_out_of_the_file_takes_its_rows_away_and_no_others(rule_id: str) -> None:
    rule, planned = rule_named(rule_id), hard()
    offered = offers(rule, planned)
    assert offered
    one = offered[0][1][0]
    needs = {row.key for row, all_of in offered if {loose.at for loose in all_of} == {one.at}}
    left = set(after(rule, planned, [Step(rule_id, one.at, 1)]))
    gone = {row.key for row in rule.rows(planned)} - left
    if rule_id == "pins":  # the pins after it move up
        assert len(left) == len(list(rule.rows(planned))) - len(needs)
    else:
        assert gone == needs
    assert needs


def test_a_step_of_a_rule_that_is_no_line_of_the_file_leaves_the_file_as_it_is() -> None:
    """Such as a floor that gives way: the solver moves the row itself."""
    planned = hard()
    others = [rule for rule in all_rules() if not rule.loosened_in_the_file]
    assert others and all(rule.changed(planned, planned.athlete, []) == planned.athlete for rule in others)


def test_a_longer_runway_opens_what_fits_it_and_no_more() -> None:
    """Walk-in jumps need 4 m, starts 20 m, flying sprints 40 to 60 m (templates/limits and the library's run-ups)."""
    rule, planned = rule_named("runway"), problem("in-season", {"equipment": {"runway": "15 m"}})
    offered = {row.at.movement: found for row, found in offers(rule, planned)}
    prices = [one.price for one in offered["flying-10"]]
    assert prices == [planned.template.changes.equipment, 1, 1, 1]  # 20, 25, 30 and 40 m: the shortest that will do
    steps = [Step(rule.id, one.at, 1) for one in offered["sled-acceleration"]]
    assert rule.change_in_words(steps, planned) == "have 25 m of runway"
    assert rule.changed(planned, planned.athlete, steps).equipment.runway == 25
    longer = rebuilt(rule.changed(planned, planned.athlete, steps))
    assert {row.at.movement for row in rule.rows(longer)} == {
        name for name, found in offered.items() if len(found) > len(steps)
    }


def test_minutes_more_move_the_rows_of_their_day_alone() -> None:
    rule, planned = rule_named("session-minutes"), hard()
    offered = offers(rule, planned)
    one = next(loose for row, found in offered for loose in found if row.at.slot == 2)
    assert (one.at, one.size, one.price) == (Address(slot=2), 60, planned.template.changes.minute)
    moved = after(rule, planned, [Step(rule.id, one.at, 7)])
    for row, _ in offered:
        more = 7 * one.size if row.at.slot == 2 else 0
        assert moved[row.key].high == (row.high or 0) + more


@pytest.mark.parametrize("rule_id", ["contacts-floor", "quality-floor", "pattern-cover"])
def test_a_floor_gives_way_by_what_it_asks_and_no_further(rule_id: str) -> None:
    rule, planned = rule_named(rule_id), shipped_problem("in-season")
    changes = planned.template.changes
    price = {
        "contacts-floor": changes.contact,
        "quality-floor": changes.quarter_set,
        "pattern-cover": changes.pattern_week,
    }
    for row, offered in offers(rule, planned):
        assert offered == [Loosening(rule_id, row.at, 1, price[rule_id], row.low or 0)]
    assert offers(rule, planned)


def test_a_date_that_is_free_again_leaves_room_for_all_sets_of_its_movements() -> None:
    rule, planned = rule_named("dates"), hard()
    for row, [one] in offers(rule, planned):
        entry = next(e for e in planned.entries[row.at.week or 0, row.at.slot or 0] if e.movement.id == row.at.movement)
        assert one.size == entry.dosage.high_sets
        assert one.at == Address(week=row.at.week, slot=row.at.slot)


WORDS: list[tuple[str, list[tuple[Address, int]], list[str]]] = [
    (
        "bans",
        [(Address(movement="back-squat"), 1), (Address(movement="goblet-squat"), 1)],
        ["Back squat", "Goblet squat"],
    ),
    ("dates", [(Address(week=2, slot=2), 1)], ["2025-09-17"]),
    ("equipment", [(Address(of="rack"), 1), (Address(of="box"), 1)], ["rack and box"]),
    ("pins", [(Address(entry=2), 1)], ["Back squat"]),
    ("pins", [(Address(entry=0), 1)], ["ankle pogo"]),
    ("session-minutes", [(Address(slot=1), 1), (Address(slot=2), 3)], ["1 more minute on Monday", "3 on Wednesday"]),
    ("session-minutes", [(Address(slot=2), 2)], ["2 more minutes on Wednesday"]),
    ("contacts-floor", [(CONTACTS.at(2), 3)], ["3 contacts in week 2"]),
    ("quality-floor", [(Address(week=2, of="calf-ankle"), 3)], ["0.75 sets of calf strength in week 2"]),
    (
        "pattern-cover",
        [(Address(week=week, of="single-leg-hip"), 1) for week in (1, 2, 3)],
        ["single leg hip in weeks 1 to 3"],
    ),
]


@pytest.mark.parametrize(("rule_id", "steps", "says"), WORDS)
def test_a_change_is_told_by_what_it_changes(rule_id: str, steps: list[tuple[Address, int]], says: list[str]) -> None:
    said = rule_named(rule_id).change_in_words([Step(rule_id, at, amount) for at, amount in steps], hard())
    assert all(words in said for words in says), said


def blamed(rule_id: str, rows: Sequence[Row] | None = None, **more: Any) -> list[tuple[Any, str]]:
    rule = rule_named(rule_id)
    return list(rule.blamed(Blamed(list(rule.rows(hard())) if rows is None else rows, hard(), **more)))


def test_pins_are_blamed_on_their_own_line() -> None:
    found = dict(blamed("pins"))
    assert set(found) == {("pins", number) for number in range(3)}
    assert "on Monday" in found["pins", 0] and "on Monday" not in found["pins", 1]
    assert "session of the template" not in found["pins", 0]
    alone = dict(blamed("pins", alone=True))
    assert all("hold all of these together" in said for said in alone.values())
    [(_, one)] = blamed("pins", [row for row in rule_named("pins").rows(hard()) if row.at.entry == 1], alone=True)
    assert "hold it there" in one


def test_minutes_are_blamed_on_their_day_with_what_its_shortest_session_takes() -> None:
    rows = [row for row in rule_named("session-minutes").rows(hard()) if row.at.week in (1, 2)]
    short = Step("session-minutes", Address(slot=1), 4)
    found = dict(blamed("session-minutes", rows, needs=(short,)))
    gym = {slot.number: slot.gym_minutes for slot in hard().slots}
    assert (
        f"Monday has {gym[1]} min" in found["training", "days", 0] and "weeks 1 and 2" in found["training", "days", 0]
    )
    assert f"takes {gym[1] + 4} min" in found["training", "days", 0]
    assert "shortest" not in found["training", "days", 1]
    assert "week 1" in found["training", "days", 1] and "weeks" not in found["training", "days", 1]  # away in week 2
    [(field, _)] = blamed("session-minutes", [row for row in rows if row.at.slot == 2])
    assert field == ("training", "days", 1)


def test_matches_are_blamed_on_the_line_of_the_first_that_bars_a_day() -> None:
    [(field, said)] = blamed("match-window")
    assert field == ("matches", 0) and "Monday of week 1 is the day before a match" in said
    on = problem("in-season", {"matches": [{"day": "sat", "minutes": 9}, {"day": "wed", "minutes": 60}]})
    rule = rule_named("match-window")
    [(field, said)] = rule.blamed(Blamed(list(rule.rows(on)), on))
    assert field == ("matches", 1) and "Wednesday of weeks 1 to " in said and "is a match day" in said


def test_closed_movements_are_blamed_together_where_the_reason_is_the_same() -> None:
    [(field, said)] = blamed("bans")
    assert field == ("bans", 0)
    assert "each of" in said and "Back squat" in said and "Goblet squat" in said and said.count("banned") == 1
    [(field, said)] = blamed(
        "bans", [row for row in rule_named("bans").rows(hard()) if row.at.movement == "goblet-squat"]
    )
    assert field == ("bans", 1) and "each of" not in said


def test_floors_are_blamed_with_what_they_ask() -> None:
    planned = shipped_problem("in-season")
    for rule_id, unit, per in (("contacts-floor", "contacts in week", 1), ("quality-floor", "sets of", 4)):
        rule = rule_named(rule_id)
        rows = list(rule.rows(planned))[:2]
        [(_, said)] = rule.blamed(Blamed(rows, planned))
        assert all(f"at least {(row.low or 0) / per:g} " in said for row in rows) and said.count(unit) == len(rows)


PLACES: list[tuple[Address, Address | None, str]] = [
    (Address(week=3, slot=1, of="single-leg-hip"), None, "week 3, Monday, single leg hip"),
    (Address(week=3, slot=1), Address(week=3, slot=2), "week 3, Monday and Wednesday"),
    (Address(week=2, slot=2), Address(week=3, slot=1), "week 2, Wednesday and week 3, Monday"),
    (Address(week=3), Address(week=2), "week 3, after week 2"),
]


@pytest.mark.parametrize(("at", "other", "words"), PLACES)
def test_places_in_words(at: Address, other: Address | None, words: str) -> None:
    assert place_in_words(at, other, hard()) == words


def test_weeks_and_names_in_words() -> None:
    assert [
        weeks_in_words([Address(week=week) for week in weeks]) for weeks in ((3,), (4, 3), (1, 2, 4), (1, 2, 3))
    ] == [
        "week 3",
        "weeks 3 and 4",
        "weeks 1, 2 and 4",
        "weeks 1 to 3",
    ]
    assert weeks_in_words([Address(phase="hold")]) == "the phase 'hold'"
    assert weeks_in_words([Address(week=1), Address(phase="hold")]) == "week 1 and the phase 'hold'"
    same = [(Address(week=week, slot=1), None) for week in (1, 2)]
    assert places_in_words([*same, (Address(week=3), None)], hard()) == "Monday, weeks 1 and 2; week 3"
    names = [f"m{number}" for number in range(14)]
    assert named(names[:1]) == "'m0'"
    assert named(names[:2]) == "each of 'm0' and 'm1'"
    assert named(names[:12]).endswith("'m10' and 'm11'")
    assert named(names[:13]).endswith("'m11' and 1 more")
    assert named(names).endswith("'m11' and 2 more")
