"""Sprint efforts aim at their band."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.per_set import sprints
from planner.rules.base import Address, Breach, Plan, Row, Rule
from planner.rules.wording import band_width, full_week, taper_aim, week_by_week


class BandSprints(Rule):
    id = "band-sprints"
    title = "Sprint efforts in their band"
    says = "Each week's sprint efforts lie in the band that template, level, days and emphasis give."
    source = "the template, ramped well under Haugen et al. 2019, Sports Med Open 5:44, table 2"
    unit = "efforts"
    hard = False

    def figures(self, template: Template) -> str:
        aims = week_by_week(template, lambda week: week.sprints)
        width = band_width(template, template.band_width.least_sprints, "effort")
        return f"Week by week {full_week(template)}: {aims}; {width}{taper_aim(template)}."

    def price(self, template: Template) -> dict[str, int]:
        return {"effort": template.prices.sprint}

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week in problem.weeks:
            band = problem.bands[week].sprints
            terms = problem.week_terms(week, sprints)
            yield self.row(Address(week=week), terms, band.low, band.high, problem.template.prices.sprint)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week in plan.weeks:
            band, done = plan.problem.bands[week.number].sprints, week.sprint_efforts
            if not band.low <= done <= band.high:
                sentence = f"week {week.number}: {done} sprint efforts; aimed at {band.low} to {band.high}"
                yield self.breach(week.at, sentence, max(band.low - done, done - band.high))
