"""No quality falls under its floor, whatever the emphasis."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planner.domain.template import Template
from planner.domain.terms import LIFT_QUALITIES
from planner.problem.model import Problem
from planner.problem.per_set import quarter_sets
from planner.rules.base import Address, Blamed, Breach, Keys, Loosening, Plan, Row, Rule, Step
from planner.rules.places import weeks_in_words
from planner.rules.wording import each_role, listed, percent


class QualityFloor(Rule):
    id = "quality-floor"
    title = "A floor under every quality"
    says = "Each quality keeps, in every week, at least the template's share of its working sets before the emphasis."
    source = "common practice, no source"
    unit = "sets"
    row_units = 4
    is_floor = True
    always_loosened = True

    def figures(self, template: Template) -> str:
        shares = {role: percent(share) for role, share in template.floors.sets.items()}
        return f"At least {each_role(template, shares)}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week in problem.weeks:
            bands = problem.bands[week]
            for quality in LIFT_QUALITIES:
                terms = problem.week_terms(week, quarter_sets(quality))
                yield self.row(Address(week=week, of=quality), terms, low=bands.floor_quarter_sets[quality])

    def blamed(self, part: Blamed) -> Iterator[tuple[Keys, str]]:
        asked = [f"at least {(r.low or 0) / 4:g} sets of {r.at.of} in {weeks_in_words([r.at])}" for r in part.rows]
        yield self.field, f"{self.title}: {listed(asked)}"

    def loosenings(self, problem: Problem, row: Row) -> Iterator[Loosening]:
        yield Loosening(self.id, row.at, 1, problem.template.changes.quarter_set, row.low or 0)

    def change_in_words(self, steps: Sequence[Step], problem: Problem) -> str:
        lower = [f"{step.amount / 4:g} sets of {step.at.of} in {weeks_in_words([step.at])}" for step in steps]
        return f"a template whose floor is lower by {listed(lower)}"

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week in plan.weeks:
            bands = plan.problem.bands[week.number]
            for quality in LIFT_QUALITIES:
                done, least = week.quality_sets(quality), bands.floor_quarter_sets[quality] / 4
                if done < least - 1e-9:
                    sentence = f"week {week.number}: {done:g} {quality} sets; its floor is {least:g}"
                    yield self.breach(week.at, sentence, least - done)
