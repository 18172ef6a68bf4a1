"""A test shows the strength that a movement requires."""

from __future__ import annotations

from planner.domain.measure import LiftTest
from planner.domain.movement import Movement
from planner.domain.prerequisite import parse_requirement
from planner.problem.model import Problem
from planner.rules.rule import ClosingRule, Keys


class Prerequisites(ClosingRule):
    id = "prerequisites"
    title = "Tests show the strength a movement requires"
    says = (
        "Where the library requires a lift as a multiple of body mass, a test must show it or the coach must allow the "
        "movement."
    )
    source = "the library's requires line; NSCA for jumps from a height, seen in second-hand copies"
    field = ("tests",)
    may_be_opened = True
    allowed_one_by_one = True

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        if not problem.youth and self.is_allowed(problem, movement):
            return None
        for text in movement.requires:
            wanted = parse_requirement(text)
            best_kg = max((kg for (lift, _), kg in problem.one_rm_kg.items() if lift == wanted.lift), default=None)
            lift = problem.library.get(wanted.lift)
            asked = f"{wanted.body_masses:g} times body mass in the {lift.name_inside if lift else wanted.lift}"
            if best_kg is None:
                return f"requires {asked}, which is not tested"
            if best_kg < wanted.body_masses * problem.athlete.body_mass:
                return f"requires {asked}; the test shows {best_kg / problem.athlete.body_mass:.2f}"
        return None

    def closing_field(self, problem: Problem, movement: Movement) -> Keys:
        """The first test of a lift that the movement requires."""
        lifts = {parse_requirement(text).lift for text in movement.requires}
        return self.line_of_test(problem, lambda test: isinstance(test, LiftTest) and test.movement in lifts)
