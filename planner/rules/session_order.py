"""Speed before strength before assistance, in the order of the shape."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from planner.problem.model import Problem
from planner.rules.rule import Breach, Plan, Row, Rule


class SessionOrder(Rule):
    id = "session-order"
    title = "Jumps and sprints come before lifts"
    says = "A session's movements follow the order of its shape: fast work first, then lifts, then assistance."
    source = "common practice, no source"
    unit = "movements"

    def rows(self, problem: Problem) -> Iterator[Row]:
        """None: every session is written down in this order."""
        yield from ()

    def audit(self, plan: Plan) -> Iterator[Breach]:
        shapes = {shape.id: shape for shape in plan.problem.template.shapes}
        for session in plan.sessions:
            shape = shapes.get(session.session.focus)
            order: list[str] = [part.part for part in shape.parts] if shape else []
            in_order = [counted for counted in session.items if counted.item.part in order]
            for before, counted in pairwise(in_order):
                first, second = before.item.part, counted.item.part
                if order.index(second) < order.index(first):
                    sentence = f"{session.where}: {counted.name} ({second}) comes after {before.name} ({first})"
                    yield self.breach(session.at_item(counted), sentence, 1)
