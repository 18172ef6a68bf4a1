"""No drop jumps on a tendon that hurts more than slightly."""

from __future__ import annotations

from planner.domain.movement import Movement, side_of
from planner.domain.template import Template
from planner.domain.terms import JOINT_NAMES, LEGS, Joint, Leg
from planner.problem.ceilings import pain_at, pain_step
from planner.problem.model import SORE_TENDONS, Problem
from planner.rules.figure_words import listed, pain_steps
from planner.rules.rule import ClosingRule, Keys


class SoreTendonDrops(ClosingRule):
    id = "sore-tendon-drops"
    title = "No drop jumps on a sore tendon"
    says = (
        "Where pain in an Achilles tendon or a knee closes its tag-3 work, drop jumps on that leg are closed, whatever "
        "the box: they load the tendon fast, even where the peak is low. Landings and jumps from the floor stay. No "
        "allowance opens what pain closes."
    )
    source = "common practice, no source: fast loading of a tendon comes back last"
    field = ("joints",)

    def figures(self, template: Template) -> str:
        closing = [pain for pain, step in pain_steps(template) if step.tag3_share == 0]
        return f"Closed at pain {listed(closing)} of 10." if closing else ""

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        found = _sore(problem, movement)
        if found is None:
            return None
        joint, leg = found
        pain = pain_at(problem.athlete.joints, joint, leg)
        return f"is a drop jump, and the {leg} {JOINT_NAMES[joint]} reports pain {pain} of 10"

    def closing_field(self, problem: Problem, movement: Movement) -> Keys:
        """The entry of the joint that hurts."""
        found = _sore(problem, movement)
        for number, state in enumerate(problem.athlete.joints):
            if found is not None and state.joint == found[0] and state.pain and state.side in (None, found[1]):
                return (*self.field, number)
        return self.field


def _sore(problem: Problem, movement: Movement) -> tuple[Joint, Leg] | None:
    """The tendon that hurts too much for this drop jump, with its leg; None also for any other movement."""
    if movement.jump is None or movement.jump.drop is None or not movement.jump.rebound:
        return None
    side = side_of(movement, problem.athlete.take_off)
    for joint in SORE_TENDONS:
        for leg in LEGS:
            step = pain_step(problem.template, pain_at(problem.athlete.joints, joint, leg))
            if side in ("both", "each", leg) and (step is None or step.tag3_share == 0):
                return joint, leg
    return None
