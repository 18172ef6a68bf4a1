"""Only movements that the gym has the equipment for."""

from __future__ import annotations

from planner.domain.movement import Movement
from planner.problem.model import Problem
from planner.rules.base import ClosingRule


class EquipmentAtHand(ClosingRule):
    id = "equipment"
    title = "Only equipment that is there"
    says = "A movement is planned only where the gym has every piece of equipment it needs."
    source = "the athlete's file"

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        lacking = missing(problem, movement)
        return f"needs {', '.join(lacking)}, which the gym does not have" if lacking else None


def missing(problem: Problem, movement: Movement) -> list[str]:
    """What the movement needs and the gym does not have."""
    at_hand = _at_hand(problem)
    return [thing for thing in movement.equipment if thing not in at_hand]


def _at_hand(problem: Problem) -> set[str]:
    """What is listed, and what the listed bar, plates and dumbbells amount to."""
    gym = problem.athlete.equipment
    found = set(gym.items)
    if gym.bar is not None:
        found.add("barbell")
    if gym.dumbbells:
        found.add("dumbbells")
    return found
