"""Working sets per quality aim at their band."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from planner.domain.template import LevelPlan, Template
from planner.domain.terms import LIFT_QUALITIES, Quality
from planner.problem.model import Problem
from planner.problem.per_set import quarter_sets
from planner.rules.base import Address, Breach, Plan, Row, Rule
from planner.rules.wording import band_width, each_level, full_week, listed, over_load_weeks, percent, taper_aim


class BandSets(Rule):
    id = "band-sets"
    title = "Working sets in their band"
    says = "Each week's working sets of each quality lie in the band that template, level, days and emphasis give."
    source = "the template; common practice, no source"
    unit = "sets"
    hard = False
    row_units = 4

    def figures(self, template: Template) -> str:
        aimed = [f"{quality} {each_level(template, _load_weeks(template, quality))}" for quality in LIFT_QUALITIES]
        width = band_width(template, template.band_width.least_sets, "set")
        kept = f"maximal strength to be kept, not raised: {percent(template.maintenance_share)} from intensify weeks on"
        aims = f"{'; '.join(aimed)}; {width}{taper_aim(template)}"
        credit = listed(f"{quarters / 4:g}" for quarters in template.counting.quality_quarters)
        counted = f"A set counts {credit} for tags 1, 2 and 3"
        return f"Load weeks {full_week(template)} aim at, in sets: {aims}; {kept}. {counted}."

    def price(self, template: Template) -> dict[str, int]:
        return {"set": self.row_units * template.prices.quarter_set}

    def rows(self, problem: Problem) -> Iterator[Row]:
        price = problem.template.prices.quarter_set
        for week in problem.weeks:
            for quality, band in problem.bands[week].quarter_sets.items():
                terms = problem.week_terms(week, quarter_sets(quality))
                yield self.row(Address(week=week, of=quality), terms, band.low, band.high, price)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week in plan.weeks:
            for quality in LIFT_QUALITIES:
                band = plan.problem.bands[week.number].quarter_sets[quality]
                done, low, high = week.quality_sets(quality), band.low / 4, band.high / 4
                if not low - 1e-9 <= done <= high + 1e-9:
                    sentence = f"week {week.number}: {done:g} {quality} sets; aimed at {low:g} to {high:g}"
                    yield self.breach(week.at, sentence, max(low - done, done - high))


def _load_weeks(template: Template, quality: Quality) -> Callable[[LevelPlan], str]:
    return over_load_weeks(template, lambda week: week.sets.get(quality, 0.0))
