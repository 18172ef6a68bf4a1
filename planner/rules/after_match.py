"""The day after a match has no maximal jump."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from planner.problem.model import Problem
from planner.problem.training_days import ONE_DAY
from planner.rules.figure_words import counted
from planner.rules.rule import Address, Breach, Plan, Row, Rule


class AfterMatch(Rule):
    id = "after-match"
    title = "No maximal jump after a match"
    says = "The day after a match has no jump of the high tier."
    source = "common practice, no source"
    unit = "contacts"
    field = ("matches",)
    moving_days_may_help = True
    sport_to_ease = ("no match",)

    def rows(self, problem: Problem) -> Iterator[Row]:
        if problem.template.recovery is None:
            return
        for week, slot in problem.programmed_days():
            if _has_match(problem, problem.dates[week, slot] - ONE_DAY):
                for entry in problem.entries[week, slot]:
                    if entry.dosage.tier == "high" and entry.dosage.high_sets:
                        at = Address(week=week, slot=slot, movement=entry.movement.id)
                        yield self.row(at, [(1, entry.key)], high=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        if plan.problem.template.recovery is None:
            return
        for session in plan.sessions:
            if not _has_match(plan.problem, session.date - ONE_DAY):
                continue
            for item in session.items:
                if item.works and not item.is_test and item.item.tier == "high":
                    contacts = counted(item.item.contacts, "contact")
                    sentence = f"{session.where} has {contacts} of {item.name} the day after a match"
                    yield self.breach(session.at_item(item), sentence, item.item.contacts)


def _has_match(problem: Problem, date: datetime.date) -> bool:
    day = problem.sport.get(date)
    return day is not None and day.match
