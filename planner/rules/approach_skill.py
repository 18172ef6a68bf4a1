"""A day with maximal approach jumps begins with a drill for the approach or the penultimate step."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.movement import is_maximal_run_up_jump
from planner.problem.model import Problem
from planner.problem.variable import in_key
from planner.rules.rule import Breach, Plan, Row, Rule, Term


class ApproachSkill(Rule):
    id = "approach-skill"
    title = "Skill before maximal approach jumps"
    says = "A day with maximal approach jumps also has a drill for the approach or the penultimate step."
    source = "common practice, no source"
    unit = "movements"

    def rows(self, problem: Problem) -> Iterator[Row]:
        skills: dict[tuple[str, int], list[Term]] = {}
        for phase, slot, movement in problem.choices:
            if problem.library[movement].part == "skill":
                skills.setdefault((phase, slot), []).append((-1, in_key(phase, slot, movement)))
        for phase, slot, movement in problem.choices:
            if is_maximal_run_up_jump(problem.library[movement]):
                jump = in_key(phase, slot, movement)
                yield self.row(jump.at, [(1, jump), *skills.get((phase, slot), [])], high=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for session in plan.sessions:
            maximal = [i for i in session.items if i.works and not i.is_test and is_maximal_run_up_jump(i.movement)]
            if maximal and not any(item.movement.part == "skill" for item in session.items):
                sentence = f"{session.where} has {maximal[0].name} and no approach drill before it"
                yield self.breach(session.at_item(maximal[0]), sentence, 1)
