"""Maximal jumps off the run-up come after some that build up to them."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.variable import in_key
from planner.rules.open_movements import is_open
from planner.rules.rule import Breach, Plan, Row, Rule


class BuildUpJumps(Rule):
    id = "build-up-jumps"
    title = "Maximal run-up jumps are built up to"
    says = (
        "A session with maximal jumps off the run-up also has the jumps that build up to them, which are counted like "
        "all others."
    )
    source = "common practice, no source"
    unit = "movements"

    def figures(self, template: Template) -> str:
        return (
            ""
            if template.build_up is None
            else f"The planned progression of the jumps before is '{template.build_up.scheme}'."
        )

    def rows(self, problem: Problem) -> Iterator[Row]:
        if not _asked(problem):
            return
        for phase in problem.phases:
            for slot in phase.slots:
                here = problem.movements_on(phase, slot)
                before = [(-1, in_key(phase.id, slot, m.id)) for m in here if builds_up(problem, m)]
                for movement in (m for m in here if m.is_maximal_approach):
                    chosen = in_key(phase.id, slot, movement.id)
                    yield self.row(chosen.at, [(1, chosen), *before], high=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        if not _asked(plan.problem):
            return
        for session in plan.sessions:
            if any(builds_up(plan.problem, item.movement) for item in session.items):
                continue
            for item in session.items:
                if item.works and not item.is_test and item.movement.is_maximal_approach:
                    sentence = f"{item.name} has no jumps before it that build up ({session.where})"
                    yield self.breach(session.at_item(item), sentence, 1)


def builds_up(problem: Problem, movement: Movement) -> bool:
    asked = problem.template.build_up
    return asked is not None and movement.part == "approach-jump" and movement.dose.scheme == asked.scheme


def _asked(problem: Problem) -> bool:
    return any(builds_up(problem, m) and is_open(problem, m) for m in problem.library)
