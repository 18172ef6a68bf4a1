"""Speed before strength before assistance, in the shape's order."""

from __future__ import annotations

from collections.abc import Iterator

from planner.problem.model import Problem
from planner.rules.base import Breach, Plan, Row, Rule


class SessionOrder(Rule):
    id = "session-order"
    title = "Jumps and sprints come before lifts"
    says = "The movements of a session stand in the order of its shape: fast work first, then lifts, then assistance."
    source = "common practice, no source"
    unit = "movements"

    def rows(self, problem: Problem) -> Iterator[Row]:
        """None: the session is written down in this order whatever is chosen."""
        yield from ()

    def audit(self, plan: Plan) -> Iterator[Breach]:
        shapes = {shape.id: shape for shape in plan.problem.template.shapes}
        for week in plan.weeks:
            for session in week.sessions:
                shape = shapes.get(session.session.focus)
                order: list[str] = [part.part for part in shape.parts] if shape else []
                before = None
                for counted in session.items:
                    part = counted.item.part
                    if before is not None and part in order and order.index(part) < order.index(before.item.part):
                        sentence = (
                            f"{session.where}: {counted.name} ({part}) stands after {before.name} ({before.item.part})"
                        )
                        yield self.breach(session.at_item(counted), sentence, 1)
                    before = counted if part in order else before
