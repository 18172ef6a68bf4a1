"""Drop jumps are not from a lower box than the one that was tested and held."""

from __future__ import annotations

from statistics import median

from planner.domain.measure import DropJumpTest
from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.estimate.words import words_of
from planner.problem.model import Problem
from planner.rules.open_movements import is_open
from planner.rules.rule import ClosingRule, Keys

SAME_BOX_m = 0.011  # boxes of the same height, as they are measured


class TestedBox(ClosingRule):
    __test__ = False
    id = "tested-box"
    title = "Drop jumps start from the tested box"
    says = "A drop jump on two legs is not from a lower box than one from which a test's contact was short enough."
    source = "common practice, no source"
    field = ("tests",)
    may_be_opened = True
    allowed_one_by_one = True

    def figures(self, template: Template) -> str:
        asked = template.jump_progress
        return f"A contact of {asked.held_contact_s:g} s or less was held." if asked else ""

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        drop = box_of(movement)
        if drop is None or self.is_allowed(problem, movement):
            return None
        held_m = _held_m(problem)
        if held_m is None or drop > held_m - SAME_BOX_m:
            return None
        boxes = [m for m in problem.library if (box_of(m) or 0.0) > held_m - SAME_BOX_m]
        if not any(is_open(problem, m) for m in boxes):
            return None
        words = words_of(problem.athlete)
        return f"drops from {words.box(drop)}, and the test was held from {words.box(held_m)}"

    def closing_field(self, problem: Problem, movement: Movement) -> Keys:
        """The first test from the box that was held."""
        held_m = _held_m(problem)
        return self.line_of_test(problem, lambda test: isinstance(test, DropJumpTest) and test.drop == held_m)


def box_of(movement: Movement) -> float | None:
    """The box of a drop jump on two legs, in metres; None for any other movement."""
    jump = movement.jump
    return jump.drop if jump is not None and jump.rebound and movement.legs == "both" else None


def _held_m(problem: Problem) -> float | None:
    """The highest box of a test whose middle contact was held."""
    asked = problem.template.jump_progress
    tests = [test for test in problem.athlete.tests if isinstance(test, DropJumpTest)]
    if asked is None:
        return None
    held = [test.drop for test in tests if median(trial.contact for trial in test.trials) <= asked.held_contact_s]
    return max(held, default=None)
