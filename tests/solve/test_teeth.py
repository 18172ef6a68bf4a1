"""Each hard rule is needed: without its rows the solver finds a block that keeps all others, and its audit says no."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import pytest
from ortools.sat.python import cp_model

from planner.audit import audit
from planner.domain.block import Block
from planner.domain.terms import LEGS
from planner.problem.model import Problem
from planner.problem.per_set import PerSet, fast_sprints, leg_contacts
from planner.rules.base import ClosingRule, Row, Rule
from planner.rules.registry import all_rules, rule_by_id
from planner.solve.cp_model import BlockModel, build_model, solver, values_of
from planner.solve.extract import extract_weeks
from planner.solve.matrix import gather_rows
from planner.solve.shortlist import only, shortlist
from tests.solve.demos import problem

# Rules without rows (side, order and load follow from what is chosen): their cases alone show that they bite.
WITHOUT_ROWS = {"both-sides", "load-agrees", "session-order"}
# No session is written on a date that is away, whatever the values say: the rule's cases show that its audit bites.
HELD_TWICE = {"dates"}
# Variables hang together by these: one row is turned round, and the others stay.
STRUCTURAL = {rule.id for rule in all_rules() if rule.structural}
MOST_ROWS_TRIED = 60
BUDGET = 10.0  # deterministic time for one rule


@dataclass(frozen=True)
class Situation:
    """An athlete for whom the rule can matter."""

    demo: str = "in-season"
    athlete: dict[str, Any] = field(default_factory=dict)
    alike: int = 1  # of movements alike, so many
    also: tuple[str, ...] = ()  # rules that cannot but break with it

    def problem(self) -> Problem:
        return problem(self.demo, self.athlete)


def on(day: int, month: int = 9) -> datetime.date:
    return datetime.date(2025, month, day)


MONDAY_TUESDAY = {"training": {"days": [{"day": "mon", "minutes": 75}, {"day": "tue", "minutes": 75}]}}
QUIET_WEEK = {
    "training": {"days": [{"day": "mon", "minutes": 75}, {"day": "thu", "minutes": 75}]},
    "practices": [],
    "matches": [],
}
SITUATIONS: dict[str, Situation] = {
    "bans": Situation(athlete={"bans": ["back-squat"]}),
    "before-sprints": Situation(athlete=MONDAY_TUESDAY | {"practices": [], "matches": []}),
    "deload": Situation("youth"),
    "hard-days-apart": Situation(athlete={"practices": [{"day": "sun", "minutes": 60, "hardness": "hard"}]}),
    "high-tier-gate": Situation(athlete={"landing": "not-yet"}),
    "match-window": Situation(
        athlete={"matches": [{"date": on(25), "minutes": 60, "hardness": "hard"}]}, also=("steady-progress",)
    ),
    "one-of-family": Situation(alike=2),
    "pain": Situation(athlete={"joints": [{"joint": "patellar-knee", "pain": 4}], "practices": [], "matches": []}),
    "pins": Situation(athlete={"pins": [{"movement": "back-squat"}]}),
    "prerequisites": Situation(athlete={"body_mass": "80 kg"}),
    "runway": Situation(athlete={"equipment": {"runway": "15 m"}}),
    "session-contacts": Situation(athlete={"practices": [{"day": "wed", "minutes": 60, "contacts": 70}]}),
    "session-minutes": Situation("youth"),
    "tag3-contacts": Situation(athlete={"joints": [{"joint": "achilles-ankle", "pain": 1}], "practices": []}),
    "youth-drops": Situation(athlete={"birth_date": datetime.date(2009, 1, 1)} | QUIET_WEEK),
    "youth-jump-days": Situation("youth"),
}
RULES = [rule for rule in all_rules() if rule.hard and rule.id not in WITHOUT_ROWS | HELD_TWICE]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_without_its_rows_a_block_breaks_the_rule_and_no_other(rule: Rule) -> None:
    situation = SITUATIONS.get(rule.id, Situation())
    whole = situation.problem()
    closed = _closed(rule, whole)
    planned = only(whole, {m.id for m in shortlist(whole, situation.alike).movements} | closed)
    block = _breaking(planned, rule, closed)
    assert block is not None, "the other rules leave no block that breaks this one"
    broken = {breach.rule for breach in audit(block, planned) if breach.hard}
    assert rule.id in broken, broken
    if rule.id not in STRUCTURAL and not closed:
        assert broken <= {rule.id, *situation.also}


def _closed(rule: Rule, planned: Problem) -> set[str]:
    """One movement that the rule closes, by as few other rules as may be."""
    if not isinstance(rule, ClosingRule):
        return set()
    closing = [other for other in all_rules() if isinstance(other, ClosingRule)]
    reasons = {m.id: sum(1 for r in closing if r.reason(planned, m)) for m in planned.movements}
    closed = [m.id for m in planned.movements if rule.reason(planned, m)]
    assert closed, "the rule closes nothing here"
    # A jump may be barred by the limits of its contacts as well; a lift shows the closing alone.
    return {min(closed, key=lambda name: (planned.library[name].jump is not None, reasons[name], name))}


def _breaking(planned: Problem, rule: Rule, closed: set[str]) -> Block | None:
    """A block that keeps the rows of all other hard rules and breaks one of this rule's."""
    own = [row for row in rule.rows(planned) if row.terms and _expressible(rule, row)]
    others = [row for row in gather_rows(planned, without={rule.id}) if row.price == 0]
    if closed:  # a movement may be closed twice over; all that closes this one is left out
        (name,) = closed
        others = [row for row in others if not _closes(row, name)]
        own = [row for row in own if row.scope.endswith(f"/{name}")]
    tried = own[:: max(1, len(own) // MOST_ROWS_TRIED)]
    if rule.id in STRUCTURAL:
        return next((block for row in tried if (block := _turned(planned, others, rule, row))), None)
    built = build_model(planned, others, soft=False)
    built.model.add_bool_or([_misses(built, planned, row) for row in tried])
    return _solved(planned, built)


def _turned(planned: Problem, others: list[Row], rule: Rule, row: Row) -> Block | None:
    rest = [other for other in rule.rows(planned) if other.scope != row.scope]
    built = build_model(planned, others + rest, soft=False)
    built.model.add_bool_and([_misses(built, planned, row)])
    return _solved(planned, built)


def _solved(planned: Problem, built: BlockModel) -> Block | None:
    solved = solver(BUDGET)
    if solved.solve(built.model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return Block.model_construct(weeks=extract_weeks(planned, values_of(built, solved)))


def _expressible(rule: Rule, row: Row) -> bool:
    """Whether a block shows that the row is missed, whatever the other rows say."""
    keys = [key for _, key in row.terms]
    if rule.id in ("hard-days-apart", "test-day"):
        return all(key.startswith("hard/") for key in keys)  # the others say what a hard day is
    if rule.id == "session-shape":
        return any(key.startswith("in/") for key in keys)  # which shape a day takes shows in its movements
    return rule.id != "continuity" or not row.scope.endswith("/done")  # chosen and never done: a block does not show it


def _closes(row: Row, movement: str) -> bool:
    closing = isinstance(rule_by_id(row.rule), ClosingRule)
    return closing and all(key.endswith(f"/{movement}") for _, key in row.terms)


def _misses(built: BlockModel, planned: Problem, row: Row) -> cp_model.IntVar:
    """A literal that holds the row's sum outside its limits."""
    sides = []
    expression = cp_model.LinearExpr.weighted_sum(
        [built.variables[key] for _, key in row.terms], [coefficient for coefficient, _ in row.terms]
    )
    if row.low is not None:
        sides.append(_literal(built, expression <= row.low - 1))
    if row.high is not None:
        sides.append(_literal(built, expression >= row.high + 1))
    missed = built.model.new_bool_var("")
    built.model.add_bool_or(sides).only_enforce_if(missed)
    for _, key in row.terms:
        if key.startswith("hard/"):
            _really_hard(built, planned, key, missed)
    return missed


def _really_hard(built: BlockModel, planned: Problem, key: str, missed: cp_model.IntVar) -> None:
    """The day holds what makes it hard: a row may call it hard, and only its work shows in a block."""
    rule = planned.template.hard_day
    week, slot = (int(part[1:]) for part in key.split("/")[1:])
    enough = [_at_least(built, planned, week, slot, leg_contacts("high", leg), rule.high_contacts_leg) for leg in LEGS]
    enough.append(_at_least(built, planned, week, slot, fast_sprints, rule.sprints))
    built.model.add_bool_or(enough).only_enforce_if(missed)


def _at_least(
    built: BlockModel, planned: Problem, week: int, slot: int, per_set: PerSet, least: int
) -> cp_model.IntVar:
    terms: Sequence[tuple[int, str]] = planned.session_terms(week, slot, per_set)
    total = cp_model.LinearExpr.weighted_sum([built.variables[k] for _, k in terms], [c for c, _ in terms])
    return _literal(built, total >= least) if terms else built.model.new_constant(0)


def _literal(built: BlockModel, constraint: Any) -> cp_model.IntVar:
    literal = built.model.new_bool_var("")
    built.model.add(constraint).only_enforce_if(literal)
    return literal
