"""The day before a match takes only a primer."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.per_set import contacts
from planner.problem.primer import is_primer
from planner.rules.base import Breach, Plan, Row, Rule
from planner.rules.wording import counted


class MatchWindow(Rule):
    id = "match-window"
    title = "Only a primer before a match"
    says = "On a match day and the day before it, only a short primer of low contacts is planned."
    source = "common practice, no source"
    unit = "movements"

    def figures(self, template: Template) -> str:
        return f"A primer of at most {counted(template.floors.primer_contacts, 'contact')}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        most = problem.template.floors.primer_contacts
        for (week, slot), entries in problem.entries.items():
            barred = [e for e in entries if e.barred and (week, slot) not in problem.away]
            for entry in barred:
                yield self.row(f"w{week}/d{slot}/{entry.movement.id}", [(1, entry.key)], high=0)
            if barred:
                terms = problem.session_terms(week, slot, contacts)
                yield self.row(f"w{week}/d{slot}/contacts", terms, high=most)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        match_dates = {date for date, day in plan.problem.sport.items() if day.match}
        most = plan.problem.template.floors.primer_contacts
        for week in plan.weeks:
            for session in week.sessions:
                gaps = [(match - session.date).days for match in match_dates]
                if not any(gap in (0, 1) for gap in gaps):
                    continue
                for item in session.items:
                    if item.works and not item.is_test and not is_primer(item.movement):
                        sentence = f"{session.where} has {item.name} within a day of a match; only a primer fits there"
                        yield self.breach(session.where, sentence, 1)
                if session.contacts > most and not session.is_test:
                    sentence = (
                        f"{session.where} has {session.contacts} contacts within a day of a match; at most {most}"
                    )
                    yield self.breach(session.where, sentence, session.contacts - most)
