"""Approach jumps use the take-off of the target jump."""

from __future__ import annotations

from planner.domain.movement import Movement
from planner.problem.model import Problem
from planner.rules.rule import ClosingRule


class TakeOffFit(ClosingRule):
    id = "take-off-fit"
    title = "Approach jumps match the take-off"
    says = "Approach jumps and drills use the take-off and the line of the target; a standing target has neither."
    source = "common practice, no source"
    field = ("take_off",)

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        legs = "two-leg" if problem.athlete.take_off == "two-leg" else "one-leg"
        if movement.take_off not in (None, legs):
            return f"is for a {movement.take_off} take-off; this athlete's is {problem.athlete.take_off}"
        if movement.line not in (None, problem.athlete.approach.line):
            return f"is for a {movement.line} run-up; this athlete's is {problem.athlete.approach.line}"
        if movement.part not in ("approach-jump", "skill"):
            return None
        if problem.athlete.approach.steps == 0:
            return "is for an approach jump; this target is a standing jump"
        two_leg_jump = problem.athlete.take_off == "two-leg"
        if movement.part == "approach-jump" and (movement.legs == "both") is not two_leg_jump:
            return f"does not match this athlete's take-off ({problem.athlete.take_off})"
        return None
