"""An athlete whose landings do not hold yet lands in every session that jumps."""

from __future__ import annotations

from collections.abc import Iterator

from planner.problem.model import Problem
from planner.problem.variable import in_key
from planner.rules.rule import Breach, Plan, Row, Rule, Term


class LandingWork(Rule):
    id = "landing-work"
    title = "Landings are practised until they hold"
    says = "If landings do not hold yet, every session with jumps has landing work, to the end of the block."
    source = "common practice, no source"
    unit = "movements"
    field = ("landing",)

    def rows(self, problem: Problem) -> Iterator[Row]:
        if problem.template.jump_progress is None or problem.athlete.landing == "holds":
            return
        landings: dict[tuple[str, int], list[Term]] = {}
        for phase, slot, movement in problem.choices:
            if "landing" in problem.library[movement].patterns:
                landings.setdefault((phase, slot), []).append((-1, in_key(phase, slot, movement)))
        for phase, slot, movement in problem.choices:
            if problem.library[movement].jump is not None and "landing" not in problem.library[movement].patterns:
                chosen = in_key(phase, slot, movement)
                yield self.row(chosen.at, [(1, chosen), *landings.get((phase, slot), [])], high=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        if plan.problem.template.jump_progress is None or plan.problem.athlete.landing == "holds":
            return
        for session in plan.sessions:
            jumps = [item for item in session.items if item.works and not item.is_test and item.item.contacts]
            if jumps and not any("landing" in item.movement.patterns for item in session.items if item.works):
                sentence = f"{session.where} has {jumps[0].name} and no landing work"
                yield self.breach(session.at_item(jumps[0]), sentence, 1)
