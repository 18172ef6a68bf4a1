"""Which movements are open to the athlete: those that no closing rule closes."""

from __future__ import annotations

from planner.domain.movement import Movement
from planner.problem.model import Problem


def is_open(problem: Problem, movement: Movement) -> bool:
    """Whether the template doses the movement and no closing rule closes it."""
    from planner.rules.registry import all_rules  # here, since the registry loads every rule
    from planner.rules.rule import ClosingRule

    if movement.dose.scheme not in problem.template.schemes:
        return False
    closing = (rule for rule in all_rules() if isinstance(rule, ClosingRule))
    return all(rule.reason(problem, movement) is None for rule in closing)
