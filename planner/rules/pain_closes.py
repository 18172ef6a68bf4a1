"""More than slight pain in a joint closes the hardest work on it."""

from __future__ import annotations

from planner.domain.movement import Movement, side_of
from planner.domain.template import Template
from planner.domain.terms import JOINT_NAMES, LEGS, Joint, Leg
from planner.problem.ceilings import pain_at, pain_step
from planner.problem.model import Problem
from planner.rules.figure_words import listed, pain_steps, refused_pain
from planner.rules.rule import ClosingRule, Keys


class PainCloses(ClosingRule):
    id = "pain"
    title = "Pain closes the hardest work on a joint"
    says = (
        "Where the template allows no tag-3 work at this level of pain, movements with stress tag 3 on that joint are "
        "closed, and the joint's ceilings fall. Holds and slow work stay. No allowance opens what pain closes."
    )
    source = (
        "Silbernagel et al. 2007, AJSM 35:897 for training with low pain; the cut-offs are common practice, no source"
    )
    field = ("joints",)

    def figures(self, template: Template) -> str:
        closing = [pain for pain, step in pain_steps(template) if step.tag3_share == 0]
        closed = f"at pain {listed(closing)} of 10" if closing else "at no level of pain"
        return f"Closed {closed}; {refused_pain(template)}."

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        found = _hurt(problem, movement)
        if found is None:
            return None
        joint, leg, pain = found
        return f"loads the {JOINT_NAMES[joint]} hard, and the {leg} side reports pain {pain} of 10"

    def closing_field(self, problem: Problem, movement: Movement) -> Keys:
        """The entry of the joint that hurts."""
        joint, leg, pain = _hurt(problem, movement) or (None, None, None)
        for number, state in enumerate(problem.athlete.joints):
            if state.joint == joint and state.pain == pain and state.side in (None, leg):
                return (*self.field, number)
        return self.field


def _hurt(problem: Problem, movement: Movement) -> tuple[Joint, Leg, int] | None:
    """A joint that the movement loads hard and that hurts too much for it, with its leg and the pain."""
    side = side_of(movement, problem.athlete.take_off)
    for joint, tag in movement.stress.items():
        for leg in LEGS:
            pain = pain_at(problem.athlete.joints, joint, leg)
            step = pain_step(problem.template, pain)
            hard_work = tag == 3 and movement.kind != "hold" and side in ("both", "each", leg)
            if hard_work and (step is None or step.tag3_share == 0):
                return joint, leg, pain
    return None
