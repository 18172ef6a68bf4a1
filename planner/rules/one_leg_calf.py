"""Who raises the heel often enough on one leg does no calf work on two legs without a load."""

from __future__ import annotations

from planner.domain.measure import HeelRaiseTest
from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.domain.terms import LEGS
from planner.problem.ceilings import pain_at
from planner.problem.model import Problem
from planner.rules.rule import ClosingRule, Keys


class OneLegCalf(ClosingRule):
    id = "one-leg-calf"
    title = "Calf work is hard enough to count"
    says = (
        "Where every test of one-leg heel raises shows enough of them, calf work on two legs without a load is closed: "
        "one leg, or a load, is needed to train. With pain at the Achilles tendon or ankle it stays open."
    )
    source = "common practice, no source"
    field = ("tests",)
    may_be_opened = True

    def figures(self, template: Template) -> str:
        gate = template.gates.one_leg_raises
        return "" if gate is None else f"From {gate.strict} strict raises on each leg, or {gate.free} in free form."

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        easy = movement.part == "calf" and movement.legs == "both" and movement.dose.load == "none"
        if not easy or not _raises_enough(problem) or any(_hurts(problem)):
            return None
        return "is on two legs without a load, and the test shows enough raises on one"

    def closing_field(self, problem: Problem, movement: Movement) -> Keys:
        """The first test of heel raises."""
        return self.line_of_test(problem, lambda test: isinstance(test, HeelRaiseTest))


def _raises_enough(problem: Problem) -> bool:
    """Whether there is a test of heel raises, and each leg passes the gate in each of them."""
    gate = problem.template.gates.one_leg_raises
    tests = [test for test in problem.athlete.tests if isinstance(test, HeelRaiseTest)]
    if gate is None or not tests:
        return False
    counts = [(test.form, count) for test in tests for count in (test.left, test.right) if count is not None]
    return bool(counts) and all(count >= (gate.strict if form == "strict" else gate.free) for form, count in counts)


def _hurts(problem: Problem) -> list[bool]:
    return [pain_at(problem.athlete.joints, "achilles-ankle", leg) > 0 for leg in LEGS]
