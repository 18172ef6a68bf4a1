"""All rows of all rules, in canonical order: what every solver of the block starts from."""

from __future__ import annotations

from collections.abc import Collection

from planner.problem.model import Problem
from planner.rules.base import Row
from planner.rules.registry import all_rules


def gather_rows(problem: Problem, without: Collection[str] = ()) -> list[Row]:
    """The rows of every rule but those named in ``without``; rules stand in the order of their ids."""
    return [row for rule in all_rules() if rule.id not in without for row in rule.rows(problem)]
