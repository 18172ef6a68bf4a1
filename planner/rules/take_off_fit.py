"""Approach jumps are done off the legs that the target jump is done off."""

from __future__ import annotations

from planner.domain.movement import Movement
from planner.problem.model import Problem
from planner.rules.base import ClosingRule


class TakeOffFit(ClosingRule):
    id = "take-off-fit"
    title = "Approach jumps match the take-off"
    says = "Jumps off the run-up, and their drills, use the take-off of the target; without a run-up there are none."
    source = "common practice, no source"
    field = ("take_off",)

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        legs = "two-leg" if problem.athlete.take_off == "two-leg" else "one-leg"
        if movement.take_off not in (None, legs):
            return f"is for a {movement.take_off} take-off; this athlete's is {problem.athlete.take_off}"
        if movement.part not in ("approach-jump", "skill"):
            return None
        if problem.athlete.approach.steps == 0:
            return "belongs to a jump off a run-up; this target is jumped from a stand"
        two_leg_jump = problem.athlete.take_off == "two-leg"
        if movement.part == "approach-jump" and (movement.legs == "both") is not two_leg_jump:
            return f"is not how this athlete takes off ({problem.athlete.take_off})"
        return None
