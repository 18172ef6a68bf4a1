"""No movement above the athlete's level."""

from __future__ import annotations

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.domain.terms import LEVELS
from planner.problem.model import Problem
from planner.rules.figure_words import listed
from planner.rules.rule import ClosingRule


class LevelGate(ClosingRule):
    id = "level"
    title = "No movement above the athlete's level"
    says = "Movements are of the athlete's level or below. A coach's allowance opens one, except for youth and novices."
    source = "common practice, no source"
    field = ("level",)
    may_be_opened = True
    allowed_one_by_one = True

    def figures(self, template: Template) -> str:
        levels = listed(level for level in LEVELS if level in template.levels)
        return f"For {levels} athletes; youth, under {template.youth.under_years}, are planned as novices."

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        level = "novice" if problem.youth else problem.athlete.level
        if LEVELS.index(movement.level) <= LEVELS.index(level):
            return None
        if not problem.youth and self.is_allowed(problem, movement):
            return None
        return f"is for {movement.level} athletes; this one is planned as {level}"

    def opens_for(self, problem: Problem) -> bool:
        return not problem.youth
