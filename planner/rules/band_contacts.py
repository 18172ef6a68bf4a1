"""All contacts of a week aim at their band."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.per_set import contacts
from planner.rules.base import Address, Breach, Plan, Row, Rule
from planner.rules.wording import band_width, full_week, taper_aim, week_by_week


class BandContacts(Rule):
    id = "band-contacts"
    title = "Contacts in their band"
    says = "Each week's contacts lie in the band that template, level, days and sport give."
    source = "the template; common practice, no source"
    unit = "contacts"
    hard = False

    def figures(self, template: Template) -> str:
        aims = week_by_week(template, lambda week: week.contacts)
        width = band_width(template, template.band_width.least_contacts, "contact")
        week = f"Week by week {full_week(template)}, before the sport's own come off"
        return f"{week}: {aims}; {width}{taper_aim(template)}."

    def price(self, template: Template) -> dict[str, int]:
        return {"contact": template.prices.contact}

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week in problem.weeks:
            band = problem.bands[week].contacts
            terms = problem.week_terms(week, contacts)
            yield self.row(Address(week=week), terms, band.low, band.high, problem.template.prices.contact)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week in plan.weeks:
            band = plan.problem.bands[week.number].contacts
            if not band.low <= week.contacts <= band.high:
                sentence = f"week {week.number}: {week.contacts} contacts; aimed at {band.low} to {band.high}"
                yield self.breach(week.at, sentence, max(band.low - week.contacts, week.contacts - band.high))
