"""Rows as a coach would write them: for a few of each rule, every term and limit, of the in-season player.

He trains on Monday and Wednesday for four weeks; the last of them, the phase 'test', ends with the test on Wednesday.
"""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Sequence
from functools import cache
from typing import Any

import pytest

from planner.problem.model import Problem
from planner.problem.variable import Variable
from planner.rules.registry import rule_named
from planner.rules.rule import Row
from tests.rules.kept_blocks import changed_problem, kept_problem

Lines = dict[str, Any]
MONDAY, TUESDAY, WEDNESDAY, THURSDAY = (datetime.date(2025, 9, day) for day in (8, 9, 10, 11))  # of week 1
SITUATIONS: dict[str, Lines] = {
    "as shipped": {},
    "pins": {"pins": [{"movement": "back-squat"}, {"movement": "tall-pogo", "day": "wed"}]},
    "match on Thursday": {"matches": [{"date": THURSDAY, "minutes": 60, "hardness": "hard"}]},
    "a match every Thursday": {"matches": [{"day": "thu", "minutes": 60, "hardness": "hard"}]},
    "practices all day": {
        "practices": [{"date": day, "minutes": 300, "contacts": 170} for day in (TUESDAY, WEDNESDAY, THURSDAY)]
    },
    "practice on Sunday": {
        "practices": [{"date": datetime.date(2025, 9, 14), "minutes": 60, "contacts": 0}],
        "matches": [],
    },
    "away on Wednesday": {"training": {"away": [WEDNESDAY]}},
    "three days": {"training": {"days": [{"day": day, "minutes": 75} for day in ("mon", "tue", "fri")]}},
    "four days": {"training": {"days": [{"day": day, "minutes": 75} for day in ("mon", "tue", "wed", "fri")]}},
    "novice": {"level": "novice"},
    "23 minutes on Wednesday": {"training": {"days": [{"day": "mon", "minutes": 75}, {"day": "wed", "minutes": 23}]}},
}
# The kept template is older than these limits: a situation "..., with recovery" has them too.
WITH_RECOVERY = ", with recovery"
RECOVERY: Lines = {
    "recovery": {
        "after_hard_day_points": 8,
        "sore_full_jumps_week": 8,
        "sore_days_apart": 3,
        "one_leg_sets_before_jumps": 2,
        "calf_days_apart": 2,
    }
}


@cache
def rows(rule: str, situation: str) -> list[Row]:
    return list(rule_named(rule).rows(planned(situation)))


@cache
def planned(situation: str) -> Problem:
    changes, template = SITUATIONS[situation.removesuffix(WITH_RECOVERY)], None
    if situation.endswith(WITH_RECOVERY):
        template = RECOVERY
    changed = changes or template
    return changed_problem("in-season", changes, template, start=MONDAY) if changed else kept_problem("in-season")


def told(row: Row) -> str:
    """``0 <= sets/w1/d1/back-squat - 2 in/hold/d1/back-squat``."""
    terms = " ".join(_term(coefficient, key) for coefficient, key in row.terms).removeprefix("+ ")
    low = "" if row.low is None else f"{row.low} <= "
    return f"{low}{terms}" + ("" if row.high is None else f" <= {row.high}")


def _term(coefficient: int, key: Variable) -> str:
    size = "" if abs(coefficient) == 1 else f"{abs(coefficient)} "
    return f"{'-' if coefficient < 0 else '+'} {size}{key}"


def names(cases: Sequence[tuple[Any, ...]]) -> list[str]:
    return [f"{rule}/{name}, {situation}" for rule, situation, name, *_ in cases]


WHOLE: list[tuple[str, str, str, list[str]]] = [
    (
        "continuity",
        "as shipped",
        "w1/d1/back-squat",
        [
            "sets/w1/d1/back-squat - 3 in/hold/d1/back-squat <= 0",
            "0 <= sets/w1/d1/back-squat - 2 in/hold/d1/back-squat",
        ],
    ),
    (
        "continuity",
        "as shipped",
        "hold/d1/back-squat",
        ["0 <= - in/hold/d1/back-squat + sets/w1/d1/back-squat + sets/w2/d1/back-squat + sets/w3/d1/back-squat"],
    ),
    (
        "continuity",
        "away on Wednesday",
        "w1/d2/back-squat",
        ["sets/w1/d2/back-squat - 3 in/hold/d2/back-squat <= 0"],
    ),
    # Barred in every week of a phase: it may not be chosen there.
    (
        "continuity",
        "a match every Thursday",
        "hold/d2/back-squat",
        ["0 <= - in/hold/d2/back-squat + sets/w1/d2/back-squat + sets/w2/d2/back-squat + sets/w3/d2/back-squat"],
    ),
    (
        "steady-progress",
        "as shipped",
        "w2/d1/back-squat/w1",
        ["0 <= sets/w2/d1/back-squat - sets/w1/d1/back-squat <= 1"],
    ),
    ("steady-progress", "as shipped", "w3/d1/tall-pogo/w2", ["0 <= sets/w3/d1/tall-pogo - sets/w2/d1/tall-pogo <= 4"]),
    (
        "steady-progress",
        "away on Wednesday",
        "w3/d2/tall-pogo/w2",
        ["0 <= sets/w3/d2/tall-pogo - sets/w2/d2/tall-pogo <= 4"],
    ),
    ("steady-progress", "away on Wednesday", "w2/d2/tall-pogo/w1", []),
    ("steady-progress", "as shipped", "w4/d1/tall-pogo/w3", []),
    ("pins", "pins", "hold/0/back-squat", ["1 <= in/hold/d1/back-squat + in/hold/d2/back-squat"]),
    ("pins", "pins", "hold/1/tall-pogo", ["1 <= in/hold/d2/tall-pogo"]),
    ("pins", "pins", "test/0/back-squat", []),
    (
        "session-shape",
        "as shipped",
        "d1",
        ["takes/d1/jumps-and-squat-in-season + takes/d1/hinge-and-one-leg-in-season <= 1"],
    ),
    (
        "session-shape",
        "as shipped",
        "1/jumps-and-squat-in-season",
        ["1 <= takes/d1/jumps-and-squat-in-season + takes/d2/jumps-and-squat-in-season <= 1"],
    ),
    (
        "session-shape",
        "as shipped",
        "hold/d1/back-squat",
        ["in/hold/d1/back-squat - takes/d1/jumps-and-squat-in-season <= 0"],
    ),
    ("session-shape", "as shipped", "test/d1/nordic-curl", ["in/test/d1/nordic-curl <= 0"]),
    ("session-shape", "as shipped", "test/d1/back-squat", []),
    (
        "no-new-in-taper",
        "as shipped",
        "test/d1/tall-pogo",
        ["in/test/d1/tall-pogo - in/hold/d1/tall-pogo - in/hold/d2/tall-pogo <= 0"],
    ),
    ("no-new-in-taper", "as shipped", "hold/d1/tall-pogo", []),
    ("match-window", "match on Thursday", "w1/d2/back-squat", ["sets/w1/d2/back-squat <= 0"]),
    ("match-window", "match on Thursday", "w1/d2/tall-pogo", []),
    ("match-window", "match on Thursday", "w1/d1/contacts", []),
    ("match-window", "away on Wednesday", "w1/d2/back-squat", []),
    ("dates", "away on Wednesday", "w1/d2/tall-pogo", ["sets/w1/d2/tall-pogo <= 0"]),
    ("dates", "away on Wednesday", "w2/d2/tall-pogo", []),
    ("hard-days-apart", "match on Thursday", "w1/d2/sport", ["hard/w1/d2 <= 0"]),
    ("hard-days-apart", "match on Thursday", "w1/d1/sport", []),
    ("hard-days-apart", "three days", "w1/d1/w1/d2", ["hard/w1/d1 + hard/w1/d2 <= 1"]),
    ("hard-days-apart", "as shipped", "w1/d1/w1/d2", []),
    ("test-day", "as shipped", "w4/d1", ["hard/w4/d1 <= 0"]),
    ("test-day", "as shipped", "w3/d2", []),
    (
        "before-sprints",
        "three days",
        "w1/d1/nordic-curl/w1/d2/crouch-start-10",
        ["in/hold/d1/nordic-curl + in/hold/d2/crouch-start-10 <= 1"],
    ),
    (
        "before-sprints",
        "three days",
        "w1/d1/straight-bar-hinge/w1/d2/crouch-start-10",
        ["in/hold/d1/straight-bar-hinge + in/hold/d2/crouch-start-10 <= 1"],
    ),
    ("before-sprints", "three days", "w1/d1/back-squat/w1/d2/crouch-start-10", []),
    ("before-sprints", "three days", "w1/d2/nordic-curl/w1/d3/crouch-start-10", []),
    ("before-sprints", "as shipped", "w1/d1/nordic-curl/w1/d2/crouch-start-10", []),
    ("youth-jump-days", "novice", "w4/d1/tall-pogo/w4/d2", ["in/test/d1/tall-pogo <= 0"]),
    ("youth-jump-days", "as shipped", "w4/d1/tall-pogo/w4/d2", []),
    # A row for the closing test only where its day is too short: ten minutes of warm-up, five jumps of 10 s and their
    # rests of 150 s are 23 min 20 s.
    ("session-minutes", "as shipped", "w4/d2", []),
    ("session-minutes", "23 minutes on Wednesday", "w4/d2", [f"160 sets/w4/d2/retest <= {60 * (23 - 10)}"]),
    # New hinges share no day; in the last phase those that the first had on any day are not new.
    (
        "new-hinges",
        "as shipped, with recovery",
        "hold/d1/one-leg-hinge/hold/d1/trap-bar-hinge",
        ["in/hold/d1/one-leg-hinge + in/hold/d1/trap-bar-hinge <= 1"],
    ),
    (
        "new-hinges",
        "as shipped, with recovery",
        "test/d1/one-leg-hinge/test/d1/trap-bar-hinge",
        [
            "in/test/d1/one-leg-hinge + in/test/d1/trap-bar-hinge"
            " - in/hold/d1/one-leg-hinge - in/hold/d1/trap-bar-hinge"
            " - in/hold/d2/one-leg-hinge - in/hold/d2/trap-bar-hinge <= 1"
        ],
    ),
]


@pytest.mark.parametrize(("rule", "situation", "name", "wanted"), WHOLE, ids=names(WHOLE))
def test_a_short_row_has_these_terms_and_limits(rule: str, situation: str, name: str, wanted: list[str]) -> None:
    assert [told(row) for row in rows(rule, situation) if row.name == f"{rule}/{name}"] == wanted


# Of long rows some terms, and the limits: what a set of each adds.
SOME: list[tuple[str, str, str, dict[str, int], tuple[int | None, int | None]]] = [
    (
        "approach-skill",
        "as shipped",
        "hold/d1/full-approach-jump-two-leg",
        {
            "in/hold/d1/full-approach-jump-two-leg": 1,
            "in/hold/d1/curved-run-through": -1,
            "in/hold/d1/gather-and-pop": -1,
        },
        (None, 0),
    ),
    (
        "one-of-family",
        "as shipped",
        "hold/d1/accelerations",
        {"in/hold/d1/acceleration-10": 1, "in/hold/d1/falling-start-15": 1},
        (None, 1),
    ),
    (
        "hard-days-apart",
        "as shipped",
        "w1/d1/high/left",
        {"sets/w1/d1/drop-jump-20": 3, "sets/w1/d1/full-approach-jump-two-leg": 1, "hard/w1/d1": -200},
        (None, 5),
    ),
    (
        "hard-days-apart",
        "as shipped",
        "w1/d1/sprints",
        {"sets/w1/d1/crouch-start-10": 1, "hard/w1/d1": -100},
        (None, 2),
    ),
    ("match-window", "match on Thursday", "w1/d2/contacts", {"sets/w1/d2/tall-pogo": 8}, (None, 20)),
    ("session-contacts", "as shipped", "w1/d2", {"sets/w1/d2/tall-pogo": 8, "sets/w1/d2/drop-jump-20": 3}, (None, 100)),
    ("session-contacts", "practices all day", "w1/d2", {"sets/w1/d2/tall-pogo": 8}, (None, 0)),
    # 75 minutes less 10 for own work; the warm-up takes 10, in the last week whatever is chosen.
    ("session-minutes", "as shipped", "w1/d1", {"takes/d1/jumps-and-squat-in-season": 60 * 10}, (None, 60 * 65)),
    ("session-minutes", "as shipped", "w4/d1", {}, (None, 60 * 55)),
    # In parts of 1/120 point: 72 points, less 8 for an hour of practice on the last day of week 1.
    ("joint-stress", "practice on Sunday", "w1/achilles-ankle/left", {}, (None, 120 * (72 - 8))),
    ("joint-stress", "practice on Sunday", "w2/achilles-ankle/left", {}, (None, 120 * 72)),
    # Fifteen hours of practice are over every ceiling, and leave nothing.
    ("joint-stress", "practices all day", "w1/achilles-ankle/left", {}, (None, 0)),
    ("joint-stress", "practices all day", "w1/d2/with the next day/achilles-ankle/left", {}, (None, 0)),
    ("joint-stress", "practices all day", "w1/d2/with the day before/achilles-ankle/left", {}, (None, 0)),
    ("pattern-cover", "as shipped", "w1/squat", {"sets/w1/d1/back-squat": 1, "sets/w1/d2/front-squat": 1}, (1, None)),
    # Half of the sets: a main movement's count half for it, the others' half against it, in thousandths of a quarter.
    (
        "tag3-share",
        "as shipped",
        "w1/knee-dominant",
        {"sets/w1/d1/front-squat": 2000, "sets/w1/d1/back-squat": -1000, "sets/w1/d1/split-squat": -500},
        (0, None),
    ),
    (
        "growth",
        "as shipped",
        "w2/contacts",
        {"sets/w2/d1/tall-pogo": 8000, "sets/w1/d1/tall-pogo": -8800},
        (None, 10000),
    ),
    ("growth", "as shipped", "w3/sprints", {"sets/w3/d1/crouch-start-10": 1000}, (None, 3000)),
    ("stress-growth", "as shipped", "w2/patellar-knee/left", {"sets/w2/d1/back-squat": 240000}, (None, 480000)),
    ("start-load", "as shipped", "w1/contacts", {"sets/w1/d1/tall-pogo": 8}, (None, 100)),
    ("quality-floor", "as shipped", "w1/maximal-strength", {"sets/w1/d1/back-squat": 4}, (12, None)),
    ("contacts-floor", "as shipped", "w1/contacts", {"sets/w1/d1/tall-pogo": 8}, (24, None)),
    ("band-approach", "as shipped", "w1/approach", {"sets/w1/d1/full-approach-jump-two-leg": 1}, (2, 6)),
    ("band-sprints", "as shipped", "w1/sprints", {"sets/w1/d1/crouch-start-10": 1}, (4, 6)),
    ("tag3-contacts", "as shipped", "w1/d1/achilles-ankle/left", {"sets/w1/d1/alternate-bounds-80": 3}, (None, 20)),
    ("tag3-contacts", "as shipped", "w1/achilles-ankle/left", {"sets/w1/d2/alternate-bounds-80": 3}, (None, 45)),
    # Monday and Tuesday are too close for calf lifts on both, in the last phase too: there are seven to choose from.
    (
        "calf-days",
        "three days, with recovery",
        "test/d1/seated-calf-raise/test/d2",
        {"in/test/d1/seated-calf-raise": 7, "in/test/d2/seated-calf-raise": 1, "in/test/d2/band-shin-raise": 1},
        (None, 7),
    ),
    # Two sets of one-leg lifts on the day before, if that is followed by jumps of any tier but the low one.
    (
        "fresh-legs",
        "four days, with recovery",
        "w1/d2/jumps-and-squat-in-season/w1/d3",
        {"sets/w1/d2/dumbbell-split-squat": 1, "takes/d3/jumps-and-squat-in-season": 100},
        (None, 2 + 100),
    ),
]


@pytest.mark.parametrize(("rule", "situation", "name", "wanted", "limits"), SOME, ids=names(SOME))
def test_a_long_row_has_these_limits_and_among_its_terms_these(
    rule: str, situation: str, name: str, wanted: dict[str, int], limits: tuple[int | None, int | None]
) -> None:
    [row] = [row for row in rows(rule, situation) if row.name == f"{rule}/{name}"]
    terms = {key.name: coefficient for coefficient, key in row.terms}
    assert {name: terms.get(name) for name in wanted} == wanted
    assert (row.low, row.high) == limits


def test_a_shape_that_a_day_does_not_take_asks_nothing_of_it() -> None:
    """The fewest and the most of a part are asked through the shape's variable; 40 is more than any day holds."""
    found = {}
    for row in rows("session-shape", "as shipped"):
        if row.at.phase == "hold" and row.at.slot == 1 and row.at.of == "jumps-and-squat-in-season":
            [takes] = [coefficient for coefficient, key in row.terms if key.kind == "takes"]
            assert {coefficient for coefficient, key in row.terms if key.kind != "takes"} <= {1}
            found[row.at.entry, row.high] = takes
    shape = next(one for one in planned("as shipped").shapes if one.id == "jumps-and-squat-in-season")
    wanted = {**{number: part.items for number, part in enumerate(shape.parts)}, None: shape.items}
    for entry, (least, most) in wanted.items():
        assert found.get((entry, None)) == (-least if least else None)
        assert found[entry, 40] == 40 - most


def test_choices_are_counted_one_by_one() -> None:
    """A row over what is chosen alone says how many, so that a row that is tight can be told in words."""
    counted = {"approach-skill", "no-new-in-taper", "one-of-family", "equipment", "level", "runway", "take-off-fit"}
    for rule in sorted(counted):
        assert {abs(coefficient) for row in rows(rule, "as shipped") for coefficient, _ in row.terms} == {1}, rule


def test_every_family_of_two_or_more_on_a_day_has_its_row_and_no_other_has() -> None:
    there = planned("as shipped")
    on_monday = [movement for phase, slot, movement in there.choices if (phase, slot) == ("hold", 1)]
    sizes = Counter(there.library.families[movement] for movement in on_monday)
    found = {
        row.at.of: len(row.terms)
        for row in rows("one-of-family", "as shipped")
        if (row.at.phase, row.at.slot) == ("hold", 1)
    }
    assert found == {family: size for family, size in sizes.items() if size >= 2}
    assert 2 in sizes.values()
