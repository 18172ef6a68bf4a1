"""No quality falls under its floor, whatever the emphasis."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.domain.terms import LIFT_QUALITIES
from planner.problem.model import Problem
from planner.problem.per_set import quarter_sets
from planner.rules.base import Breach, Plan, Row, Rule
from planner.rules.wording import each_role, percent


class QualityFloor(Rule):
    id = "quality-floor"
    title = "A floor under every quality"
    says = "Each quality keeps, in every week, at least the template's share of its working sets before the emphasis."
    source = "common practice, no source"
    unit = "sets"
    row_units = 4

    def figures(self, template: Template) -> str:
        shares = {role: percent(share) for role, share in template.floors.sets.items()}
        return f"At least {each_role(template, shares)}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week in problem.weeks:
            bands = problem.bands[week]
            for quality in LIFT_QUALITIES:
                terms = problem.week_terms(week, quarter_sets(quality))
                yield self.row(f"w{week}/{quality}", terms, low=bands.floor_quarter_sets[quality])

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week in plan.weeks:
            bands = plan.problem.bands[week.number]
            for quality in LIFT_QUALITIES:
                done, least = week.quality_sets(quality), bands.floor_quarter_sets[quality] / 4
                if done < least - 1e-9:
                    sentence = f"week {week.number}: {done:g} {quality} sets; its floor is {least:g}"
                    yield self.breach(f"week {week.number}", sentence, least - done)
