"""Half of each quality's sets come from its main movements."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.domain.terms import LIFT_QUALITIES, QUALITY_NAMES
from planner.problem.model import Problem
from planner.rules.figure_words import percent
from planner.rules.rule import Address, Breach, Plan, Row, Rule, Term

THOUSANDTHS = 1000
QUARTERS = 4  # of a set


class Tag3Share(Rule):
    id = "tag3-share"
    title = "Half of a quality from its main movements"
    says = "At least the template's share of each quality's working sets comes from movements tagged 3 for it."
    source = "common practice, no source"
    unit = "sets"
    row_units = THOUSANDTHS * QUARTERS

    def figures(self, template: Template) -> str:
        return f"At least {percent(template.tag3_least_share)} of a quality's sets."

    def rows(self, problem: Problem) -> Iterator[Row]:
        share = round(THOUSANDTHS * problem.template.tag3_least_share)
        for week in problem.weeks:
            for quality in LIFT_QUALITIES:
                terms: list[Term] = []
                for entry in problem.week_entries(week):
                    quarters = entry.dosage.quarter_sets.get(quality, 0)
                    if quarters:
                        first = entry.movement.qualities.get(quality, 0) == 3
                        terms.append(((THOUSANDTHS - share if first else -share) * quarters, entry.key))
                yield self.row(Address(week=week, of=quality), terms, low=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        least = plan.problem.template.tag3_least_share
        for week in plan.weeks:
            for quality in LIFT_QUALITIES:
                total = week.quality_sets(quality)
                main = [item for item in week.items if item.movement.qualities.get(quality, 0) == 3]
                first = sum(item.quality_sets(quality) for item in main)
                if first < least * total - 1e-9:
                    sentence = f"week {week.number}: {first:g} of {total:g} sets of {QUALITY_NAMES[quality]} "
                    sentence += f"come from its main movements; at least {least * total:g}"
                    yield self.breach(week.at, sentence, least * total - first)
