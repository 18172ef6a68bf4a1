"""Why there is no block: a smallest set of rules that cannot hold together, found by leaving rules out one by one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ortools.sat.python import cp_model

from planner.problem.model import Problem
from planner.rules.base import Row
from planner.solve.cp_model import build_model, solver

CHECK_BUDGET = 5.0  # deterministic time for one question "can these hold together?"


@dataclass(frozen=True)
class Conflict:
    """Rows that cannot hold together. ``minimal``: confirmed that without any one group of them there is a block."""

    rows: tuple[Row, ...]
    minimal: bool

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
    by_rule = _group(hard, lambda row: row.rule)
    kept, rules_sure = _shrink(problem, by_rule)
    by_scope = _group([row for group in kept for row in group], lambda row: f"{row.rule}|{_coarse(row.scope)}")
    kept, scopes_sure = _shrink(problem, by_scope)
    return Conflict(tuple(row for group in kept for row in group), rules_sure and scopes_sure)


def _coarse(scope: str) -> str:
    """The week, day or phase that a row speaks of: its scope without the movement."""
    return "/".join(scope.split("/")[:2])


def _group(rows: Sequence[Row], key: object) -> list[list[Row]]:
    name = key if callable(key) else str
    groups: dict[str, list[Row]] = {}
    for row in rows:
        groups.setdefault(name(row), []).append(row)
    return list(groups.values())


def _shrink(problem: Problem, groups: list[list[Row]]) -> tuple[list[list[Row]], bool]:
    """Leave out ever smaller runs of groups while the rest still cannot hold together (a deletion filter by halves)."""
    kept, sure, size = list(groups), True, max(1, len(groups) // 2)
    while True:
        index, removed = 0, False
        while index < len(kept):
            rest = kept[:index] + kept[index + size :]
            holds = _holds(problem, [row for group in rest for row in group])
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
    built = build_model(problem, rows)
    status = solver(CHECK_BUDGET).solve(built.model)
    if status == cp_model.INFEASIBLE:
        return False
    return True if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None
