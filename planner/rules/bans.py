"""Movements that the coach keeps out of this athlete's block."""

from __future__ import annotations

from planner.domain.movement import Movement
from planner.problem.model import Problem
from planner.rules.base import ClosingRule


class Bans(ClosingRule):
    id = "bans"
    title = "Banned movements stay out"
    says = "A movement in the athlete's bans is never planned."
    source = "the athlete's file"

    def reason(self, problem: Problem, movement: Movement) -> str | None:
        return "is banned in the athlete's file" if movement.id in problem.athlete.bans else None
