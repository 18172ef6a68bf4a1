"""Why there is no block: a smallest set of rules that cannot hold together, and the cheapest change that would do.

A single "infeasible" is a claim to be checked, so every step asks again, without an objective; what the budget could
not answer is never taken for an answer.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from ortools.sat.python import cp_model

from planner.problem.model import Problem
from planner.rules.base import ClosingRule, Row
from planner.rules.registry import rule_by_id
from planner.solve.cp_model import build_model, solver, values_of
from planner.solve.stages import units_missed

CHECK_BUDGET = 4.0  # deterministic time for one question "can these hold together?"
REPAIR_BUDGET = 8.0
# Rules whose rows follow from the template are tried without first: what stays is then more often something that the
# athlete's file says, and that a coach can change.
ATHLETES_OWN = (
    "bans",
    "dates",
    "equipment",
    "match-window",
    "pain",
    "pins",
    "prerequisites",
    "high-tier-gate",
    "runway",
    "level",
    "session-minutes",
    "pattern-cover",
)


@dataclass(frozen=True)
class Change:
    """One row given way: by how much, in the rule's unit."""

    row: Row
    amount: float


@dataclass(frozen=True)
class Conflict:
    """Rows that cannot hold together. ``minimal``: confirmed that without any one group of them there is a block.

    ``changes``: what would have to give way for a block, all other rules kept; empty where that was not found.
    ``cheapest``: no cheaper change of these rules does it.
    """

    rows: tuple[Row, ...]
    minimal: bool
    changes: tuple[Change, ...] = ()
    cheapest: bool = False

    @property
    def rules(self) -> list[str]:
        return list(dict.fromkeys(row.rule for row in self.rows))


def find_conflict(problem: Problem, rows: Sequence[Row]) -> Conflict | None:
    """Shrink an infeasible set of hard rows, first by rule, then by scope inside the rules left.

    Returns None where infeasibility cannot be confirmed within the budget.
    """
    hard = [row for row in rows if row.price == 0]
    if _holds(problem, hard) is not False:
        return None
    frame = [row for row in hard if _is_structural(row)]
    blamed = [row for row in hard if not _is_structural(row)]
    by_rule = _group(sorted(blamed, key=_template_first), lambda row: row.rule)
    kept, rules_sure = _shrink(problem, frame, by_rule)
    by_scope = _group([row for group in kept for row in group], lambda row: f"{row.rule}|{coarse(row)}")
    kept, scopes_sure = _shrink(problem, frame, by_scope)
    found = [row for group in kept for row in group]
    changes, cheapest = _cheapest_change(problem, hard, found)
    return Conflict(tuple(found), rules_sure and scopes_sure, changes, cheapest)


def coarse(row: Row) -> str:
    """What a row speaks of: a closed movement, or the week, day or phase without the movement."""
    parts = row.scope.split("/")
    return parts[-1] if isinstance(rule_by_id(row.rule), ClosingRule) else "/".join(parts[:2])


def _is_structural(row: Row) -> bool:
    rule = rule_by_id(row.rule)
    return rule is not None and rule.structural


def _template_first(row: Row) -> tuple[bool, str]:
    return row.rule in ATHLETES_OWN, row.rule


def _group(rows: Sequence[Row], key: Callable[[Row], str]) -> list[list[Row]]:
    groups: dict[str, list[Row]] = {}
    for row in rows:
        groups.setdefault(key(row), []).append(row)
    return list(groups.values())


def _shrink(problem: Problem, frame: list[Row], groups: list[list[Row]]) -> tuple[list[list[Row]], bool]:
    """Leave out ever smaller runs of groups while the rest still cannot hold together (a deletion filter by halves)."""
    kept, sure, size = list(groups), True, max(1, len(groups) // 2)
    while True:
        index, removed = 0, False
        while index < len(kept):
            rest = kept[:index] + kept[index + size :]
            holds = _holds(problem, frame + [row for group in rest for row in group])
            if holds is False:
                kept, removed = rest, True
            else:
                sure = sure and (holds is not None or size > 1)
                index += size
        if size == 1 and not removed:
            return kept, sure
        size = max(1, size // 2)


def _holds(problem: Problem, rows: Sequence[Row]) -> bool | None:
    """Whether the rows can hold together; None where the budget did not suffice to say."""
    status = solver(CHECK_BUDGET).solve(build_model(problem, rows).model)
    if status == cp_model.INFEASIBLE:
        return False
    return True if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None


def _cheapest_change(problem: Problem, hard: Sequence[Row], conflict: Sequence[Row]) -> tuple[tuple[Change, ...], bool]:
    """The conflicting rules may give way anywhere, of closed movements those of the conflict; all other rules hold."""
    rules = {row.rule for row in conflict if not isinstance(rule_by_id(row.rule), ClosingRule)}
    closed = {(row.rule, coarse(row)) for row in conflict}
    elastic = [_with_price(row) if row.rule in rules or (row.rule, coarse(row)) in closed else row for row in hard]
    built = build_model(problem, elastic)
    built.model.minimize(built.penalty())
    solved = solver(REPAIR_BUDGET)
    status = solved.solve(built.model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return (), False
    values = values_of(built, solved)
    changes = []
    for row in elastic:
        missed = units_missed(row, values) if row.price else 0
        if missed:
            rule = rule_by_id(row.rule)
            changes.append(Change(row, missed / (rule.row_units if rule else 1)))
    return _one_a_movement(changes), status == cp_model.OPTIMAL


def _with_price(row: Row) -> Row:
    rule = rule_by_id(row.rule)
    if rule is None:
        return row
    # Prices are per unit of the rule, slacks in its rows' whole numbers: a common multiple keeps both whole.
    price = max(1, round(rule.repair_price * 120 / rule.row_units))
    return Row(row.rule, row.scope, row.terms, row.low, row.high, price)


def _one_a_movement(changes: list[Change]) -> tuple[Change, ...]:
    """A movement opened on several days and phases is one change, not many."""
    seen: dict[tuple[str, str], Change] = {}
    for change in changes:
        closing = isinstance(rule_by_id(change.row.rule), ClosingRule)
        key = (change.row.rule, change.row.scope.split("/")[-1] if closing else change.row.scope)
        seen.setdefault(key, change)
    return tuple(seen.values())
