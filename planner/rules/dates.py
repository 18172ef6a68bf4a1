"""Sessions fall on training days, never on a date the athlete is away."""

from __future__ import annotations

from collections.abc import Iterator

from planner.problem.model import Problem
from planner.rules.base import Breach, Plan, Row, Rule


class Dates(Rule):
    id = "dates"
    title = "Sessions fall on training days"
    says = "A session stands on one of the athlete's training days, and on no date the athlete is away."
    source = "the athlete's file"
    unit = "sessions"
    repair_price = 60

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week, slot in sorted(problem.away):
            for entry in problem.entries[week, slot]:
                yield self.row(f"w{week}/d{slot}/{entry.movement.id}", [(1, entry.key)], high=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        possible = {date for key, date in plan.problem.dates.items() if key not in plan.problem.away}
        for week in plan.weeks:
            for session in week.sessions:
                if session.date not in possible:
                    yield self.breach(session.where, f"{session.where} is not a free training day of the athlete", 1)
