"""All contacts of a week aim at their weekly range."""

from __future__ import annotations

from planner.domain.template import Template
from planner.rules.band_rule import BandRule
from planner.rules.currencies import CONTACTS
from planner.rules.figure_words import band_width, full_week, taper_aim, week_by_week


class BandContacts(BandRule):
    id = "band-contacts"
    title = "Contacts in their weekly range"
    says = "Each week's contacts stay in the range set by template, level, training days and sport."
    source = "the template; common practice, no source"
    unit = "contacts"
    currencies = (CONTACTS,)

    def figures(self, template: Template) -> str:
        aims = week_by_week(template, lambda week: week.contacts)
        width = band_width(template, template.band_width.least_contacts, "contact")
        week = f"Week by week {full_week(template)}, before the sport's own are taken off"
        return f"{week}: {aims}; {width}{taper_aim(template)}."
