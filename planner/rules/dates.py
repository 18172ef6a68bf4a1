"""Sessions fall on training days, never on a date when the athlete is away."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence

from planner.domain.athlete import Athlete
from planner.problem.model import Problem
from planner.rules.figure_words import listed
from planner.rules.rule import Address, Breach, Loosening, Plan, Row, Rule, Step


class Dates(Rule):
    id = "dates"
    title = "Sessions fall on training days"
    says = (
        "Each session falls on one of the athlete's training days of its week, one session a day, and never on a date "
        "when the athlete is away."
    )
    source = "the athlete's file"
    unit = "sessions"
    field = ("training", "away")
    often_to_blame = True
    moving_days_may_help = True
    loosened_in_the_file = True

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week, slot in sorted(problem.away):
            for entry in problem.entries[week, slot]:
                yield self.row(Address(week=week, slot=slot, movement=entry.movement.id), [(1, entry.key)], high=0)

    def loosenings(self, problem: Problem, row: Row) -> Iterator[Loosening]:
        """The athlete trains on the date after all: the movement may then have all the sets of its wave."""
        at = Address(week=row.at.week, slot=row.at.slot)
        entries = problem.entries[row.at.week or 0, row.at.slot or 0]
        most = next(entry.dosage.high_sets for entry in entries if entry.movement.id == row.at.movement)
        yield Loosening(self.id, at, most, problem.template.changes.away_date)

    def changed(self, problem: Problem, athlete: Athlete, steps: Sequence[Step]) -> Athlete:
        free = {_date(problem, step.at) for step in steps}
        away = tuple(date for date in athlete.training.away if date not in free)
        return athlete.model_copy(update={"training": athlete.training.model_copy(update={"away": away})})

    def change_in_words(self, steps: Sequence[Step], problem: Problem) -> str:
        return f"train on {listed(_date(problem, step.at).isoformat() for step in steps)}"

    def audit(self, plan: Plan) -> Iterator[Breach]:
        """Every session is on a training day of its own week, one a day, in order, and none after the closing test."""
        before = None
        for week in plan.weeks:
            days = plan.problem.training_days(week.number)
            possible = {plan.problem.dates[week.number, slot] for slot in days}
            for session in week.sessions:
                if session.date not in possible:
                    sentence = f"{session.where} is not a free training day of the athlete in week {week.number}"
                    yield self.breach(session.at, sentence, 1)
                elif before is not None and session.date <= before.date:
                    sentence = f"{session.where} comes after {before.where}; sessions are in order of date, one a day"
                    yield self.breach(session.at, sentence, 1)
                before = session


def _date(problem: Problem, at: Address) -> datetime.date:
    return problem.dates[at.week or 0, at.slot or 0]
