"""What is done on one leg is done on the other."""

from __future__ import annotations

from collections.abc import Iterator

from planner.problem.dosage import side_of
from planner.problem.model import Problem
from planner.rules.base import Breach, Plan, Row, Rule


class BothSides(Rule):
    id = "both-sides"
    title = "Both legs get the same"
    says = "One-leg lifts, holds and hops are done on each leg; only jumps off the run-up stay on the take-off leg."
    source = "common practice, no source"
    unit = "movements"

    def rows(self, problem: Problem) -> Iterator[Row]:
        """None: the side follows from the movement, whatever is chosen."""
        yield from ()

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for _, session, item in plan.working_items():
            side = side_of(item.movement, plan.problem.athlete.take_off)
            if item.item.side != side:
                sentence = f"{item.name} in {session.where} is set for side '{item.item.side}'; it is done '{side}'"
                yield self.breach(session.where, sentence, 1)
