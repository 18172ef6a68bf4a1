"""No week falls under its floor of contacts: springs that rest for weeks lose what they had."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.per_set import contacts
from planner.rules.base import Address, Blamed, Breach, Keys, Loosening, Plan, Row, Rule, Step
from planner.rules.places import weeks_in_words
from planner.rules.wording import counted, each_role, listed, percent


class ContactsFloor(Rule):
    id = "contacts-floor"
    title = "A floor under every week's contacts"
    says = (
        "Each week keeps at least the template's share of the contacts that it aims at; beside a full week of sport "
        "that is a primer."
    )
    source = "common practice, no source"
    unit = "contacts"
    is_floor = True
    always_loosened = True

    def figures(self, template: Template) -> str:
        shares = {role: percent(share) for role, share in template.floors.contacts.items()}
        primer = counted(template.floors.primer_contacts, "contact")
        return f"At least {each_role(template, shares)}; a primer is {primer}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week in problem.weeks:
            landings = problem.week_terms(week, contacts)
            yield self.row(Address(week=week), landings, low=problem.bands[week].floor_contacts)

    def blamed(self, part: Blamed) -> Iterator[tuple[Keys, str]]:
        asked = [f"at least {row.low} in {weeks_in_words([row.at])}" for row in part.rows]
        yield self.field, f"{self.title}: {listed(asked)}"

    def loosenings(self, problem: Problem, row: Row) -> Iterator[Loosening]:
        yield Loosening(self.id, row.at, 1, problem.template.changes.contact, row.low or 0)

    def change_in_words(self, steps: Sequence[Step], problem: Problem) -> str:
        lower = [f"{step.amount} contacts in {weeks_in_words([step.at])}" for step in steps]
        return f"a template whose floor is lower by {listed(lower)}"

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week in plan.weeks:
            least = plan.problem.bands[week.number].floor_contacts
            if week.contacts < least:
                sentence = f"week {week.number}: {week.contacts} contacts; the floor is {least}"
                yield self.breach(week.at, sentence, least - week.contacts)
