"""Sprints and run-ups fit the runway, with room to slow down."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from planner.domain.athlete import Athlete
from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.estimate.words import words_of
from planner.problem.model import Problem
from planner.rules.rule import Address, ClosingRule, Loosening, Row, Step
from planner.units import YARD_m


class Runway(ClosingRule):
    id = "runway"
    title = "Sprints and run-ups fit the runway"
    says = "A sprint needs its distance, its fly-in and room to slow down; an approach jump needs its run-up."
    source = "common practice, no source"
    field = ("equipment", "runway")
    loosened_in_the_file = True

    def figures(self, template: Template) -> str:
        stop, approach = f"{template.gates.sprint_run_out_m:g} m", f"{template.gates.approach_runway_m:g} m"
        return f"{stop} to slow down after a sprint; at least {approach} for an approach jump."

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        there_m = problem.athlete.equipment.runway or 0.0
        needed_m = _needed_m(problem, movement)
        if needed_m <= there_m:
            return None
        there = words_of(problem.athlete).run(there_m)
        return f"needs {_enough(needed_m, problem)} of runway; the gym has {there}"

    def loosenings(self, problem: Problem, row: Row) -> Iterator[Loosening]:
        """A longer runway; then each longer one that a movement needs, up to this one's, since the shortest will do."""
        needed_m, first = _needed_m(problem, problem.library[row.at.movement or ""]), problem.template.changes.equipment
        for entry, length_m in enumerate(_longer_m(problem)):
            if length_m <= needed_m:
                yield Loosening(self.id, Address(entry=entry), 1, price=1 if entry else first)

    def changed(self, problem: Problem, athlete: Athlete, steps: Sequence[Step]) -> Athlete:
        gym = athlete.equipment.model_copy(update={"runway": _runway_m(steps, problem)})
        return athlete.model_copy(update={"equipment": gym})

    def change_in_words(self, steps: Sequence[Step], problem: Problem) -> str:
        return f"have {_enough(_runway_m(steps, problem), problem)} of runway"


def _enough(length_m: float, problem: Problem) -> str:
    """A runway in the athlete's unit, yards rounded up, so that what is typed is long enough."""
    half_m = YARD_m / 2
    inches = problem.athlete.print_as.length == "in"
    return words_of(problem.athlete).run(math.ceil(round(length_m / half_m, 6)) * half_m if inches else length_m)


def _runway_m(steps: Sequence[Step], problem: Problem) -> float:
    return _longer_m(problem)[max(step.at.entry or 0 for step in steps)]


def _longer_m(problem: Problem) -> list[float]:
    """The runways, longer than the gym's, that movements of the library need, shortest first."""
    there_m = problem.athlete.equipment.runway or 0.0
    return sorted({needed for m in problem.movements if (needed := _needed_m(problem, m)) > there_m})


def _needed_m(problem: Problem, movement: Movement) -> float:
    gates = problem.template.gates
    if movement.sprint is not None:
        return movement.sprint.distance + movement.sprint.fly_in + gates.sprint_run_out_m
    if movement.jump is not None and movement.jump.approach == "run-up":
        return max(movement.runway, gates.approach_runway_m)
    return movement.runway
