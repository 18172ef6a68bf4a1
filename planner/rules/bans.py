"""Movements that the coach keeps out of this athlete's block."""

from __future__ import annotations

from collections.abc import Sequence

from planner.domain.athlete import Athlete
from planner.domain.movement import Movement
from planner.problem.model import Problem
from planner.rules.figure_words import listed
from planner.rules.rule import ClosingRule, Keys, Step


class Bans(ClosingRule):
    id = "bans"
    title = "Banned movements stay out"
    says = "A movement in the athlete's bans is never planned."
    source = "the athlete's file"
    field = ("bans",)
    may_be_opened = True
    loosened_in_the_file = True

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        return "is banned in the athlete's file" if movement.id in problem.athlete.bans else None

    def closing_field(self, problem: Problem, movement: Movement) -> Keys:
        return ("bans", problem.athlete.bans.index(movement.id))

    def changed(self, problem: Problem, athlete: Athlete, steps: Sequence[Step]) -> Athlete:
        lifted = {step.at.movement for step in steps}
        return athlete.model_copy(update={"bans": tuple(ban for ban in athlete.bans if ban not in lifted)})

    def change_in_words(self, steps: Sequence[Step], problem: Problem) -> str:
        return f"lift the ban on {listed(problem.library[step.at.movement or ''].name for step in steps)}"
