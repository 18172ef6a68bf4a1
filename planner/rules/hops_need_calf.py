"""One-leg forward hops wait for the calf."""

from __future__ import annotations

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.problem.model import Problem
from planner.rules.figure_words import percent
from planner.rules.rule import ClosingRule


class HopsNeedCalf(ClosingRule):
    id = "hops-need-calf"
    title = "One-leg forward hops need a strong calf"
    says = "One-leg forward hops, which load the Achilles tendon most, close if tests show too little calf strength."
    source = "load after Baxter et al. 2021, MSSE 53:124; the percentage is common practice, no source"
    field = ("tests",)
    may_be_opened = True
    allowed_one_by_one = True

    def figures(self, template: Template) -> str:
        asked = template.jump_progress
        return f"Closed where calf strength is more than {percent(asked.hops_calf_short)} short." if asked else ""

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        asked, calf, jump = problem.template.jump_progress, problem.deficits.get("calf-ankle"), movement.jump
        if asked is None or calf is None or calf.deficit <= asked.hops_calf_short or jump is None:
            return None
        if self.is_allowed(problem, movement):
            return None
        if movement.part == "jump" and movement.legs == "one" and jump.direction == "horizontal":
            return f"hops forward on one leg, and calf strength is {100 * calf.deficit:.0f} % short"
        return None
