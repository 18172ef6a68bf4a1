"""How many cards of a running block must be printed again, as a limit on a model."""

from __future__ import annotations

from collections.abc import Mapping

from ortools.sat.python import cp_model

from planner.problem.model import Problem
from planner.problem.variable import Variable
from planner.solve.cp_model import BlockModel


def limit_cards(built: BlockModel, old: Mapping[Variable, int], problem: Problem, most: int) -> None:
    """At most ``most`` days still to come have other sets of any movement than ``old``."""
    cards: list[cp_model.IntVar] = []
    for week in range(problem.first_week, problem.last_week + 1):
        for slot in problem.working_days(week):
            keys = [entry.key for entry in problem.entries[week, slot] if entry.key in built.variables]
            if problem.is_past(week, slot) or not keys:
                continue
            card = built.model.new_bool_var(f"card/{week}/{slot}")
            cards.append(card)
            for key in keys:
                low, high = built.ranges[key]
                built.model.add(built.variables[key] - old[key] <= max(high - old[key], 0) * card)
                built.model.add(old[key] - built.variables[key] <= max(old[key] - low, 0) * card)
    built.model.add(cp_model.LinearExpr.sum(cards) <= most)
