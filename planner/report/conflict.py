"""Why there is no block, in a coach's words: the conflicting rules, the lines behind them, and the cheapest change."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from planner.domain.findings import Finding
from planner.problem.model import Problem
from planner.report.change_words import change_words
from planner.rules.base import Blamed, Keys, Rule
from planner.rules.registry import rule_named
from planner.rules.wording import listed

if TYPE_CHECKING:
    from planner.solve.conflict import Conflict

Locate = Callable[[Keys], tuple[str, int, int]]


def conflict_findings(
    conflict: Conflict | None, problem: Problem, path: str, locate: Locate | None = None
) -> list[Finding]:
    """One finding that says there is no block and what would help, then one for each line or rule of the conflict."""
    if conflict is None:
        message = "no block was found, but the search ran out of budget before it could prove that none exists"
        return [Finding(path, 0, 0, "no-block", message, "raise --budget")]
    sure = "" if conflict.minimal else " (perhaps not all of them are part of the conflict)"
    if not conflict.confirmed:
        sure += " (a second search could not confirm it)"
    titles = listed([f"'{rule.title}'" for rule in _rules(conflict)])
    first = "no block keeps this rule" if len(conflict.rules) == 1 else "no block keeps these rules together"
    found = [Finding(path, 0, 0, "no-block", f"{first}{sure}: {titles}", change_words(conflict, problem))]
    for rule in _rules(conflict):
        rows = [row for row in conflict.rows if row.rule == rule.id]
        part = Blamed(rows, problem, alone=len(conflict.rules) == 1, needs=conflict.needs)
        for keys, sentence in rule.blamed(part):
            where = locate(keys) if locate is not None and keys else (path, 0, 0)
            found.append(Finding(*where, rule.id, sentence, f"see jumpblock rules {rule.id}"))
    return found


def _rules(conflict: Conflict) -> list[Rule]:
    return [rule_named(name) for name in conflict.rules]
