"""No drop jumps for novices and youth."""

from __future__ import annotations

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.problem.model import Problem
from planner.rules.rule import ClosingRule


class YouthDrops(ClosingRule):
    id = "youth-drops"
    title = "No drop jumps for novices and youth"
    says = (
        "Drop and depth jumps are closed to novices and to athletes under the template's age; no allowance opens them."
    )
    source = "common practice, no source"

    def figures(self, template: Template) -> str:
        return f"Youth are under {template.youth.under_years}."

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        rebounds = movement.jump is not None and movement.jump.drop is not None and movement.jump.rebound
        return "is a drop jump, which novices and youth do not do" if problem.youth and rebounds else None
