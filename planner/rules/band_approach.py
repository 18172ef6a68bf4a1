"""Maximal jumps off the run-up aim at their band."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.per_set import approach_contacts
from planner.rules.base import Address, Breach, Plan, Row, Rule
from planner.rules.wording import band_width, full_week, taper_aim, week_by_week


class BandApproach(Rule):
    id = "band-approach"
    title = "Maximal approach jumps in their band"
    says = (
        "Part of the high tier is maximal jumps off the run-up, ramped from week to week; none where the target is "
        "jumped from a stand."
    )
    source = "the template; common practice, no source"
    unit = "contacts"
    hard = False

    def figures(self, template: Template) -> str:
        aims = week_by_week(template, lambda week: week.approach)
        width = band_width(template, template.band_width.least_approach, "contact")
        return f"Week by week {full_week(template)}: {aims}; {width}{taper_aim(template)}."

    def price(self, template: Template) -> dict[str, int]:
        return {"contact": template.prices.high_contact}

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week in problem.weeks:
            band = problem.bands[week].approach
            terms = problem.week_terms(week, approach_contacts)
            yield self.row(Address(week=week), terms, band.low, band.high, problem.template.prices.high_contact)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week in plan.weeks:
            band, done = plan.problem.bands[week.number].approach, week.approach_contacts
            if not band.low <= done <= band.high:
                sentence = f"week {week.number}: {done} maximal approach jumps; aimed at {band.low} to {band.high}"
                yield self.breach(week.at, sentence, max(band.low - done, done - band.high))
