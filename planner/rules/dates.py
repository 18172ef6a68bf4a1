"""Sessions fall on training days, never on a date the athlete is away."""

from __future__ import annotations

from collections.abc import Iterator

from planner.problem.model import Problem
from planner.rules.base import Breach, Plan, Row, Rule


class Dates(Rule):
    id = "dates"
    title = "Sessions fall on training days"
    says = (
        "A session stands on one of the athlete's training days of its week, alone on its date, and on no date the "
        "athlete is away."
    )
    source = "the athlete's file"
    unit = "sessions"

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week, slot in sorted(problem.away):
            for entry in problem.entries[week, slot]:
                yield self.row(f"w{week}/d{slot}/{entry.movement.id}", [(1, entry.key)], high=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        """Dates of the week itself, one session each, in order, and none after the closing test."""
        before = None
        for week in plan.weeks:
            days = plan.problem.training_days(week.number)
            possible = {plan.problem.dates[week.number, slot] for slot in days}
            for session in week.sessions:
                if session.date not in possible:
                    sentence = f"{session.where} is not a free training day of the athlete in week {week.number}"
                    yield self.breach(session.where, sentence, 1)
                elif before is not None and session.date <= before.date:
                    sentence = f"{session.where} stands after {before.where}; sessions stand in order, one a date"
                    yield self.breach(session.where, sentence, 1)
                before = session
