"""Contacts of each tier aim at their weekly range: the mix of low, medium and high."""

from __future__ import annotations

from planner.domain.template import Template
from planner.rules.band_rule import BandRule
from planner.rules.currencies import TIER_CONTACTS
from planner.rules.figure_words import band_width, each_level, full_week, over_load_weeks, taper_aim, week_by_week


class BandTiers(BandRule):
    id = "band-tiers"
    title = "The mix of tiers in its weekly ranges"
    says = (
        "Each week's low, medium and high contacts stay in their weekly ranges; the high tier builds from week to week."
    )
    source = "the template; common practice, no source"
    unit = "contacts"
    currencies = TIER_CONTACTS

    def figures(self, template: Template) -> str:
        high = week_by_week(template, lambda week: week.high)
        medium = each_level(template, over_load_weeks(template, lambda week: week.medium))
        low = each_level(template, over_load_weeks(template, lambda week: week.contacts - week.medium - week.high))
        width = band_width(template, template.band_width.least_contacts, "contact")
        return (
            f"High tier week by week {full_week(template)}: {high}. In load weeks {medium} of the medium tier; {low} "
            f"of the low, before the sport's own are taken off. Each {width}{taper_aim(template)}."
        )

    def price(self, template: Template) -> dict[str, int]:
        return {"high-tier contact": template.prices.high_contact, "other contact": template.prices.contact}
