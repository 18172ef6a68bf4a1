"""A movement's own conditions of strength are met by a test."""

from __future__ import annotations

from planner.domain.movement import Movement
from planner.domain.prerequisite import parse_requirement
from planner.problem.model import Problem
from planner.rules.base import ClosingRule


class Prerequisites(ClosingRule):
    id = "prerequisites"
    title = "A movement's conditions are met by a test"
    says = (
        "Where the library asks for a lift of so many body masses, a test must show it, or a coach's word stand for it."
    )
    source = "the library's requires line; NSCA for jumps from a height, seen in second-hand copies"

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        allowed = {allowance.movement for allowance in problem.athlete.allow}
        if movement.id in allowed and not problem.youth:
            return None
        for text in movement.requires:
            wanted = parse_requirement(text)
            best_kg = max((kg for (lift, _), kg in problem.one_rm_kg.items() if lift == wanted.lift), default=None)
            if best_kg is None:
                return f"asks for {text}, and {wanted.lift} is not tested"
            if best_kg < wanted.body_masses * problem.athlete.body_mass:
                return f"asks for {text}; the test shows {best_kg / problem.athlete.body_mass:.2f}"
        return None
