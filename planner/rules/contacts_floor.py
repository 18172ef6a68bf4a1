"""No week falls under its floor of contacts: springs that rest for weeks lose what they had."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.per_set import contacts
from planner.rules.base import Breach, Plan, Row, Rule
from planner.rules.wording import counted, each_role, percent


class ContactsFloor(Rule):
    id = "contacts-floor"
    title = "A floor under every week's contacts"
    says = (
        "Each week keeps at least the template's share of the contacts that it aims at; beside a full week of sport "
        "that is a primer."
    )
    source = "common practice, no source"
    unit = "contacts"

    def figures(self, template: Template) -> str:
        shares = {role: percent(share) for role, share in template.floors.contacts.items()}
        primer = counted(template.floors.primer_contacts, "contact")
        return f"At least {each_role(template, shares)}; a primer is {primer}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week in problem.weeks:
            landings = problem.week_terms(week, contacts)
            yield self.row(f"w{week}", landings, low=problem.bands[week].floor_contacts)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week in plan.weeks:
            least = plan.problem.bands[week.number].floor_contacts
            if week.contacts < least:
                sentence = f"week {week.number}: {week.contacts} contacts; the floor is {least}"
                yield self.breach(f"week {week.number}", sentence, least - week.contacts)
