"""No week falls below its floor of contacts: tendons that rest for weeks lose what they had."""

from __future__ import annotations

from planner.domain.template import Template
from planner.domain.template_prices import ChangePrices
from planner.rules.currencies import CONTACTS
from planner.rules.figure_words import counted, each_role, percent
from planner.rules.floor_rule import FloorRule


class ContactsFloor(FloorRule):
    id = "contacts-floor"
    title = "A floor under every week's contacts"
    says = (
        "Each week keeps at least the template's share of the contacts it aims at; in a week full of sport that comes "
        "down to a primer."
    )
    source = "common practice, no source"
    unit = "contacts"
    currencies = (CONTACTS,)

    def figures(self, template: Template) -> str:
        shares = {role: percent(share) for role, share in template.floors.contacts.items()}
        primer = counted(template.floors.primer_contacts, "contact")
        return f"At least {each_role(template, shares)}; a primer is {primer}."

    def step_price(self, prices: ChangePrices) -> int:
        return prices.contact
