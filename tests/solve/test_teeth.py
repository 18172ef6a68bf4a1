"""Each hard rule is needed: without its rows the solver finds a block that keeps all others, and its audit says no."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest
from ortools.sat.python import cp_model

from planner.audit import audit
from planner.domain.block import Block
from planner.domain.movement import Movement
from planner.domain.terms import LEGS
from planner.problem.model import Problem
from planner.problem.per_set import PerSet, fast_sprints, leg_contacts
from planner.problem.variable import Term, Variable
from planner.rules.registry import all_rules, gather_rows, rule_by_id
from planner.rules.rule import ClosingRule, Row, Rule
from planner.solve.cp_model import BlockModel, build_model, solver, values_of
from planner.solve.extract import extract_weeks
from planner.solve.preferences import movement_cost
from planner.solve.shortlist import only
from tests.rules.cases import AUDIT_ONLY, situation_of, toothless

# Variables hang together by these: one row is turned round, and the others stay.
STRUCTURAL = {rule.id for rule in all_rules() if rule.structural}
MOST_ROWS_TRIED = 60
BUDGET = 10.0  # deterministic time for one rule


RULES = [rule for rule in all_rules() if rule.hard and rule.id not in AUDIT_ONLY and toothless(rule.id) is None]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_without_its_rows_a_block_breaks_the_rule_and_no_other(rule: Rule) -> None:
    situation = situation_of(rule.id)
    whole = situation.problem()
    closed = _closed(rule, whole)
    planned = only(whole, _few(whole, situation.alike) | closed)
    block = _breaking(planned, rule, closed)
    assert block is not None, "the other rules leave no block that breaks this one"
    broken = {breach.rule for breach in audit(block, planned) if breach.hard}
    assert rule.id in broken, broken
    if rule.id not in STRUCTURAL and not closed:
        assert broken <= {rule.id, *situation.also}


def _few(planned: Problem, alike: int) -> set[str]:
    """Of open movements of one family, part, pattern, tier and wave so many: enough to break a rule with, and quick."""
    closing = [rule for rule in all_rules() if isinstance(rule, ClosingRule)]
    groups: dict[tuple[object, ...], list[Movement]] = {}
    for movement in planned.movements:
        if all(rule.reason(planned, movement) is None for rule in closing):
            tier = movement.jump.tier if movement.jump else None
            family = planned.library.families[movement.id]
            group = (family, movement.part, movement.patterns, tier, movement.dose.scheme)
            groups.setdefault(group, []).append(movement)
    kept = {pin.movement for pin in planned.athlete.pins}
    for members in groups.values():
        kept |= {m.id for m in sorted(members, key=lambda m: (movement_cost(planned, m), m.id))[:alike]}
    return kept


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
    others = [row for row in gather_rows(planned) if row.rule != rule.id and row.price == 0]
    if closed:  # a movement may be closed twice over; all that closes this one is left out
        (name,) = closed
        others = [row for row in others if not _closes(row, name)]
        own = [row for row in own if row.at.movement == name]
    tried = own[:: max(1, len(own) // MOST_ROWS_TRIED)]
    if rule.id in STRUCTURAL:
        return next((block for row in tried if (block := _turned(planned, others, rule, row))), None)
    built = build_model(planned, others, soft=False)
    built.model.add_bool_or([_misses(built, planned, row) for row in tried])
    return _solved(planned, built)


def _turned(planned: Problem, others: list[Row], rule: Rule, row: Row) -> Block | None:
    rest = [other for other in rule.rows(planned) if other.key != row.key]
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
        return all(key.kind == "hard" for key in keys)  # the others say what a hard day is
    if rule.id == "session-shape":
        return any(key.kind == "in" for key in keys)  # which shape a day takes shows in its movements
    return rule.id != "continuity" or row.at.week is not None  # chosen and never done: a block does not show it


def _closes(row: Row, movement: str) -> bool:
    closing = isinstance(rule_by_id(row.rule), ClosingRule)
    return closing and row.at.movement == movement


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
        if key.kind == "hard":
            _really_hard(built, planned, key, missed)
    return missed


def _really_hard(built: BlockModel, planned: Problem, key: Variable, missed: cp_model.IntVar) -> None:
    """The day holds what makes it hard: a row may call it hard, and only its work shows in a block."""
    rule = planned.template.hard_day
    week, slot = key.at.week or 0, key.at.slot or 0
    enough = [_at_least(built, planned, week, slot, leg_contacts("high", leg), rule.high_contacts_leg) for leg in LEGS]
    enough.append(_at_least(built, planned, week, slot, fast_sprints, rule.sprints))
    built.model.add_bool_or(enough).only_enforce_if(missed)


def _at_least(
    built: BlockModel, planned: Problem, week: int, slot: int, per_set: PerSet, least: int
) -> cp_model.IntVar:
    terms: Sequence[Term] = planned.session_terms(week, slot, per_set)
    total = cp_model.LinearExpr.weighted_sum([built.variables[k] for _, k in terms], [c for c, _ in terms])
    return _literal(built, total >= least) if terms else built.model.new_constant(0)


def _literal(built: BlockModel, constraint: Any) -> cp_model.IntVar:
    literal = built.model.new_bool_var("")
    built.model.add(constraint).only_enforce_if(literal)
    return literal
