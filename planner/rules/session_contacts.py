"""A session's contacts and those of the day's sport stay under the level's ceiling."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.per_set import contacts
from planner.rules.figure_words import each_level
from planner.rules.rule import Address, Breach, Plan, Row, Rule


class SessionContacts(Rule):
    id = "session-contacts"
    title = "A ceiling on a session's contacts"
    says = "The landings of one day, practice and match included, stay under the level's ceiling."
    source = "NSCA Essentials; that its figures are per session is from memory"
    unit = "contacts"

    def figures(self, template: Template) -> str:
        return f"At most {each_level(template, lambda level: str(level.session_contacts))} contacts."

    def rows(self, problem: Problem) -> Iterator[Row]:
        for (week, slot), date in problem.dates.items():
            if problem.is_test_day(week, slot):
                continue
            terms = problem.session_terms(week, slot, contacts)
            if terms:
                yield self.row(Address(week=week, slot=slot), terms, high=self._left(problem, date))

    def audit(self, plan: Plan) -> Iterator[Breach]:
        ceiling = plan.problem.level.session_contacts
        for session in plan.sessions:
            left = self._left(plan.problem, session.date)
            if session.contacts > left and not session.is_test:
                sport = f" plus {ceiling - left} of sport" if left < ceiling else ""
                sentence = f"{session.where} has {session.contacts} contacts{sport}; the ceiling is {ceiling}"
                yield self.breach(session.at, sentence, session.contacts - left)

    @staticmethod
    def _left(problem: Problem, date: datetime.date) -> int:
        sport = problem.sport.get(date)
        return max(0, problem.level.session_contacts - (sport.contacts if sport else 0))
