"""The day before a match takes only a primer."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from planner.domain.template import Template
from planner.domain.terms import DAYS
from planner.problem.model import Problem
from planner.problem.per_set import contacts
from planner.problem.primer import is_primer
from planner.rules.figure_words import counted
from planner.rules.places import DAY_NAMES, day_of, weeks_in_words
from planner.rules.rule import Address, Blamed, Breach, Keys, Plan, Row, Rule


class MatchWindow(Rule):
    id = "match-window"
    title = "Only a primer before a match"
    says = "On a match day and the day before it, only a short primer of low contacts is planned."
    source = "common practice, no source"
    unit = "movements"
    field = ("matches",)
    often_to_blame = True
    moving_days_may_help = True
    sport_to_ease = ("no match",)

    def figures(self, template: Template) -> str:
        return f"A primer of at most {counted(template.floors.primer_contacts, 'contact')}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        most = problem.template.floors.primer_contacts
        for (week, slot), entries in problem.entries.items():
            barred = [e for e in entries if e.barred and (week, slot) not in problem.away]
            for entry in barred:
                yield self.row(Address(week=week, slot=slot, movement=entry.movement.id), [(1, entry.key)], high=0)
            if barred:
                terms = problem.session_terms(week, slot, contacts)
                yield self.row(Address(week=week, slot=slot, of="contacts"), terms, high=most)

    def blamed(self, part: Blamed) -> Iterator[tuple[Keys, str]]:
        """The training days on or before a match, with the line of the first match that bars one."""
        days: dict[int, list[Address]] = {}
        for at in dict.fromkeys(Address(week=row.at.week, slot=row.at.slot) for row in part.rows):
            days.setdefault(at.slot or 0, []).append(at)
        for slot, weeks in days.items():
            number, same_day = _match_of(part.problem, part.problem.dates[weeks[0].week or 0, slot])
            said = f"{DAY_NAMES[day_of(part.problem, slot)]} of {weeks_in_words(weeks)} is "
            said += "a match day" if same_day else "the day before a match"
            yield (*self.field, number), f"{self.title}: {said}, and takes only a primer"

    def audit(self, plan: Plan) -> Iterator[Breach]:
        match_dates = {date for date, day in plan.problem.sport.items() if day.match}
        most = plan.problem.template.floors.primer_contacts
        for session in plan.sessions:
            if not any((match - session.date).days in (0, 1) for match in match_dates):
                continue
            for item in session.items:
                if item.works and not item.is_test and not is_primer(item.movement):
                    sentence = f"{session.where} has {item.name} within a day of a match; only a primer fits there"
                    yield self.breach(session.at_item(item), sentence, 1)
            if session.contacts > most and not session.is_test:
                sentence = f"{session.where} has {session.contacts} contacts within a day of a match; at most {most}"
                yield self.breach(session.at, sentence, session.contacts - most)


def _match_of(problem: Problem, date: datetime.date) -> tuple[int, bool]:
    """The number of the match on this date or the next, and whether it is on this one."""
    for later in (0, 1):
        on = date + datetime.timedelta(days=later)
        for number, match in enumerate(problem.athlete.matches):
            if match.date == on or match.day == DAYS[on.weekday()]:
                return number, later == 0
    return 0, False
