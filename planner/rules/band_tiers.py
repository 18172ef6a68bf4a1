"""Contacts of each tier aim at their band: the mix of low, medium and high."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.domain.terms import TIERS
from planner.problem.model import Problem
from planner.problem.per_set import tier_contacts
from planner.rules.base import Address, Breach, Plan, Row, Rule
from planner.rules.wording import band_width, each_level, full_week, over_load_weeks, taper_aim, week_by_week


class BandTiers(Rule):
    id = "band-tiers"
    title = "The mix of tiers in its bands"
    says = "Each week's low, medium and high contacts lie in their bands; the high tier ramps from week to week."
    source = "the template; common practice, no source"
    unit = "contacts"
    hard = False

    def figures(self, template: Template) -> str:
        high = week_by_week(template, lambda week: week.high)
        medium = each_level(template, over_load_weeks(template, lambda week: week.medium))
        low = each_level(template, over_load_weeks(template, lambda week: week.contacts - week.medium - week.high))
        width = band_width(template, template.band_width.least_contacts, "contact")
        return (
            f"High tier week by week {full_week(template)}: {high}. In load weeks {medium} of the medium tier; {low} "
            f"of the low, before the sport's own come off. Each {width}{taper_aim(template)}."
        )

    def price(self, template: Template) -> dict[str, int]:
        return {"high-tier contact": template.prices.high_contact, "other contact": template.prices.contact}

    def rows(self, problem: Problem) -> Iterator[Row]:
        prices = problem.template.prices
        for week in problem.weeks:
            for tier, band in problem.bands[week].tiers.items():
                terms = problem.week_terms(week, tier_contacts(tier))
                price = prices.high_contact if tier == "high" else prices.contact
                yield self.row(Address(week=week, of=tier), terms, band.low, band.high, price)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week in plan.weeks:
            for tier in TIERS:
                band, done = plan.problem.bands[week.number].tiers[tier], week.tier_contacts(tier)
                if not band.low <= done <= band.high:
                    sentence = f"week {week.number}: {done} {tier} contacts; aimed at {band.low} to {band.high}"
                    yield self.breach(week.at, sentence, max(band.low - done, done - band.high))
