"""A movement's own conditions of strength are met by a test."""

from __future__ import annotations

from collections.abc import Sequence

from planner.domain.movement import Movement
from planner.domain.prerequisite import parse_requirement
from planner.problem.model import Problem
from planner.rules.base import ClosingRule, Keys, Step, coachs_word


class Prerequisites(ClosingRule):
    id = "prerequisites"
    title = "A movement's conditions are met by a test"
    says = (
        "Where the library asks for a lift of so many body masses, a test must show it, or a coach's word stand for it."
    )
    source = "the library's requires line; NSCA for jumps from a height, seen in second-hand copies"
    field = ("tests",)
    may_be_opened = True

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

    def closing_field(self, problem: Problem, movement: Movement) -> Keys:
        """The first test of a lift that the movement asks for."""
        lifts = {parse_requirement(text).lift for text in movement.requires}
        tested = (n for n, test in enumerate(problem.athlete.tests) if getattr(test, "movement", None) in lifts)
        first = next(tested, None)
        return self.field if first is None else (*self.field, first)

    def change_in_words(self, steps: Sequence[Step], problem: Problem) -> str:
        return coachs_word(self, steps, problem)
