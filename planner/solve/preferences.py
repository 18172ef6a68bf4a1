"""Stage 2: among blocks equally good by their bands, the one a coach would rather run. Asked for, never promised.

Costs are points without a unit, weighed by feel (common practice, no source): a movement more to learn, a level too
far, a lift whose load is not known, stress for the same dose.
"""

from __future__ import annotations

from planner.domain.movement import Movement
from planner.domain.terms import LEVELS
from planner.problem.loads import own_maximum_kg
from planner.problem.model import STRESS_UNITS_PER_POINT, Problem, in_key
from planner.rules.base import Term, choices

NEW_MOVEMENT = 12
LEVEL_STEP = 6
UNTESTED_LOAD = 5
TESTED_LOAD = -6
POINTS_PER_STRESS_POINT = 1


def movement_cost(problem: Problem, movement: Movement) -> int:
    """What it costs to put the movement on one day of one phase."""
    level = "novice" if problem.youth else problem.athlete.level
    cost = NEW_MOVEMENT + LEVEL_STEP * abs(LEVELS.index(movement.level) - LEVELS.index(level))
    if movement.dose.load == "percent":
        cost += TESTED_LOAD if own_maximum_kg(problem, movement) is not None else UNTESTED_LOAD
    return cost


def preference_terms(problem: Problem) -> list[Term]:
    costs = {movement.id: movement_cost(problem, movement) for movement in problem.movements}
    terms: list[Term] = [(costs[m] * STRESS_UNITS_PER_POINT, in_key(p, s, m)) for p, s, m in choices(problem)]
    for week in problem.weeks:
        for entry in problem.week_entries(week):
            stress = sum(entry.dosage.stress.values())
            if stress:
                terms.append((POINTS_PER_STRESS_POINT * stress // 10, entry.key))
    return terms
