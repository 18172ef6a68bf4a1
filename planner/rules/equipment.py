"""Only movements that the gym has the equipment for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planner.domain.athlete import Athlete
from planner.domain.movement import Movement
from planner.problem.model import Problem
from planner.rules.figure_words import listed
from planner.rules.rule import Address, ClosingRule, Loosening, Row, Step


class EquipmentAtHand(ClosingRule):
    id = "equipment"
    title = "Only equipment the gym has"
    says = "A movement is planned only if the gym has every piece of equipment it needs."
    source = "the athlete's file"
    field = ("equipment", "items")
    loosened_in_the_file = True

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        lacking = missing(problem, movement)
        return f"needs {', '.join(lacking)}, which the gym does not have" if lacking else None

    def loosenings(self, problem: Problem, row: Row) -> Iterator[Loosening]:
        for thing in missing(problem, problem.library[row.at.movement or ""]):
            yield Loosening(self.id, Address(of=thing), 1, problem.template.changes.equipment)

    def changed(self, problem: Problem, athlete: Athlete, steps: Sequence[Step]) -> Athlete:
        gym = athlete.equipment
        bought = [step.at.of for step in steps]
        return athlete.model_copy(update={"equipment": gym.model_copy(update={"items": (*gym.items, *bought)})})

    def change_in_words(self, steps: Sequence[Step], problem: Problem) -> str:
        return f"have {listed(step.at.of or '' for step in steps)} in the gym"


def missing(problem: Problem, movement: Movement) -> list[str]:
    """What the movement needs and the gym does not have."""
    return [thing for thing in movement.equipment if thing not in problem.athlete.equipment.kit]
