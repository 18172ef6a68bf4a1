"""A rule's rows and its audit share no arithmetic, and yet say the same of every block: drawn blocks, rule by rule."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from typing import Any

import pytest

from planner.audit import audit
from planner.domain.address import Address
from planner.problem.model import Problem
from planner.problem.variable import Values, in_key, sets_key
from planner.rules.registry import all_rules, gather_rows, rule_named
from planner.rules.rule import Breach, Row
from planner.solve.extract import extract_weeks
from planner.solve.shortfalls import shortfalls
from planner.solve.variable_ranges import variable_ranges
from tests.rules.as_values import Rows, as_values, rules_of
from tests.rules.cases import AUDIT_ONLY
from tests.rules.kept_blocks import block_of, kept_values
from tests.rules.mutations import drawn, without_barred
from tests.solve.demos import problem

BLOCKS_EACH = 25
PLACES = 6
SOFT = {rule.id for rule in all_rules() if not rule.hard}
Missed = tuple[str, Address]  # a soft rule and the week and currency that it is missed in
MANY_BLOCKS_EACH = 500

HARD_PRACTICES = [
    {"day": "mon", "minutes": 120, "hardness": "hard", "contacts": 20},
    {"day": "wed", "minutes": 150, "hardness": "medium", "contacts": 40},
]
SHORT_SPRINT, SHORT = "acceleration-10", ("long-sprints", "flying-sprints", "speed-deficit")
SITUATIONS: dict[str, tuple[str, dict[str, Any]]] = {
    "in season": ("in-season", {}),
    "youth": ("youth", {}),
    "adult": ("adult", {}),
    "practices on training days": ("in-season", {"practices": HARD_PRACTICES, "matches": []}),
    "matches the day before training": (
        "in-season",
        {"practices": [], "matches": [{"day": "sun", "minutes": 90, "hardness": "hard", "contacts": 80}]},
    ),
    "one match on a training day": (
        "in-season",
        {"matches": [{"date": "2025-09-24", "minutes": 90, "hardness": "hard", "contacts": 80}]},
    ),
    "a training day away": ("in-season", {"training": {"away": ["2025-09-17"]}}),
    "pain": (
        "in-season",
        {
            "joints": [
                {"joint": "achilles-ankle", "side": "left", "pain": 2},
                {"joint": "patellar-knee", "side": "right", "pain": 4},
            ]
        },
    ),
    "a minor on two close days": ("in-season", {"birth_date": "2009-01-01"}),
    "a young beginner in pain, in season": (
        "youth",
        {
            "joints": [{"joint": "achilles-ankle", "side": "left", "pain": 2}],
            "matches": [{"day": "tue", "minutes": 60, "hardness": "hard", "contacts": 80}],
        },
    ),
    "recent load unknown": ("adult", {"recent_load": None}),
}


@pytest.mark.parametrize("situation", SITUATIONS)
def test_rows_and_audit_say_the_same_of_drawn_blocks(situation: str) -> None:
    _agree(*_start(situation), seeds=range(BLOCKS_EACH))


@pytest.mark.long
@pytest.mark.parametrize("situation", SITUATIONS)
def test_rows_and_audit_say_the_same_of_many_drawn_blocks(situation: str) -> None:
    _agree(*_start(situation), seeds=range(MANY_BLOCKS_EACH))


def _start(situation: str) -> tuple[Problem, dict[str, int]]:
    demo, changes = SITUATIONS[situation]
    planned = problem(demo, _with_dates(changes))
    newer = dict.fromkeys(variable_ranges(planned), 0)  # the kept block knows no movement of today's library alone
    return planned, without_barred(planned, {**newer, **kept_values(demo)})


def _agree(planned: Problem, values: dict[str, int], seeds: range) -> None:
    rows = Rows(planned)
    tried = {rule.id for rule in all_rules()} - AUDIT_ONLY
    for seed in seeds:
        block = block_of(extract_weeks(planned, drawn(planned, values, seed)))
        back = as_values(block, planned)
        assert not back.lost
        missed = rows.missed(back.values)
        breaches = audit(block, planned)
        by_rows, by_audit = set(rules_of(missed)) & tried, {breach.rule for breach in breaches} & tried
        only_rows = [row.name for row in missed if row.rule not in by_audit]
        only_audit = [breach.sentence for breach in breaches if breach.rule not in by_rows and breach.rule in tried]
        assert by_rows == by_audit, f"seed {seed}: only the rows: {only_rows[:5]}; only the audit: {only_audit[:5]}"
        assert _missed_by_rows(rows.rows, back.values) == _missed_by_audit(breaches), f"seed {seed}"


def _missed_by_rows(rows: Sequence[Row], values: Values) -> dict[Missed, float]:
    """What the proof's objective is made of, in the rule's unit."""
    missed = {(row.rule, row.at): units for row, units in shortfalls(rows, values)}
    return {key: round(units / rule_named(key[0]).row_units, PLACES) for key, units in missed.items()}


def _missed_by_audit(breaches: Sequence[Breach]) -> dict[Missed, float]:
    """What a coach is told that the block misses."""
    soft = [breach for breach in breaches if breach.rule in SOFT]
    return {(breach.rule, breach.at): round(breach.amount, PLACES) for breach in soft}


def _with_dates(changes: Any) -> Any:
    """Dates are written as dates in a file; here they are plain text."""
    import datetime

    if isinstance(changes, dict):
        return {key: _with_dates(value) for key, value in changes.items()}
    if isinstance(changes, list):
        return [_with_dates(value) for value in changes]
    if isinstance(changes, str) and len(changes) == 10 and changes[4] == changes[7] == "-":
        return datetime.date.fromisoformat(changes)
    return changes


def test_every_soft_rule_is_missed_by_some_drawn_block() -> None:
    """So that rows and audits of soft rules are not compared over nothing."""
    missed: set[str] = set()
    for demo in ("in season", "youth", "adult", "adult, short sprints"):
        planned, values = _start(demo.partition(",")[0])
        if demo.endswith("sprints"):
            planned, values = _with_short_sprints(planned, values)
        rows = [row for row in gather_rows(planned) if row.price]
        for seed in range(BLOCKS_EACH):
            back = as_values(block_of(extract_weeks(planned, drawn(planned, values, seed))), planned)
            by_rows = _missed_by_rows(rows, back.values)
            missed |= {rule for rule, _ in by_rows}
            if demo.endswith("sprints"):
                block = block_of(extract_weeks(planned, drawn(planned, values, seed)))
                by_audit = _missed_by_audit(audit(block, planned))
                assert {k: v for k, v in by_audit.items() if k[0] in SHORT} == {
                    k: v for k, v in by_rows.items() if k[0] in SHORT
                }
    assert missed == SOFT


def _with_short_sprints(planned: Problem, values: Values) -> tuple[Problem, Values]:
    """The adult with ten-metre starts for every other sprint, no drop jump, and a template that asks for speed."""
    found = dict(values)
    for key in values:
        movement = planned.library.movements.get(key.at.movement or "")
        fast = movement is not None and (movement.sprint is not None or (movement.jump and movement.jump.rebound))
        if fast and key.kind in ("in", "sets"):
            found[key] = 0
    first, later = planned.load_phases[:2]
    for phase in (first, later):
        found[in_key(phase.id, 1, SHORT_SPRINT)] = 1
        found.update({sets_key(week, 1, SHORT_SPRINT): 4 for week in phase.weeks})
    work = planned.template.sprint_work
    assert work is not None
    asked = planned.template.model_copy(update={"sprint_work": work.model_copy(update={"short_of_speed": 0.0})})
    return dataclasses.replace(planned, template=asked), found
