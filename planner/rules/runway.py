"""Sprints and run-ups fit the runway, with room to slow down."""

from __future__ import annotations

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.problem.model import Problem
from planner.rules.rule import ClosingRule


class Runway(ClosingRule):
    id = "runway"
    title = "Sprints and run-ups fit the runway"
    says = "A sprint needs its distance, its fly-in and room to slow down; an approach jump needs its run-up."
    source = "common practice, no source"
    field = ("equipment", "runway")
    may_be_opened = True

    def figures(self, template: Template) -> str:
        stop, approach = f"{template.gates.sprint_run_out_m:g} m", f"{template.gates.approach_runway_m:g} m"
        return f"{stop} to slow down after a sprint; at least {approach} for an approach jump."

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        there_m = problem.athlete.equipment.runway or 0.0
        needed_m = _needed_m(problem, movement)
        return f"needs {needed_m:g} m of runway; the gym has {there_m:g} m" if needed_m > there_m else None


def _needed_m(problem: Problem, movement: Movement) -> float:
    gates = problem.template.gates
    if movement.sprint is not None:
        return movement.sprint.distance + movement.sprint.fly_in + gates.sprint_run_out_m
    if movement.jump is not None and movement.jump.approach == "run-up":
        return max(movement.runway, gates.approach_runway_m)
    return movement.runway
