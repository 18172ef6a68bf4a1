"""What all band rules have in common: a week's currency between two numbers, which a miss has a price for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import ClassVar

from planner.domain.template import Template
from planner.problem.model import Problem
from planner.rules.currencies import Currency
from planner.rules.rule import Breach, Plan, Row, Rule

EPSILON_sets = 1e-9


class BandRule(Rule):
    hard = False
    currencies: ClassVar[tuple[Currency, ...]]

    def price(self, template: Template) -> dict[str, int]:
        one = self.currencies[0]
        return {self.unit.removesuffix("s"): one.whole * one.price(template.prices)} if one.price is not None else {}

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week in problem.weeks:
            for one in self.currencies:
                if one.band is not None and one.price is not None:
                    band, price = one.band(problem.bands[week]), one.price(problem.template.prices)
                    yield self.row(one.at(week), one.terms(problem, week), band.low, band.high, price)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week in plan.weeks:
            for one in self.currencies:
                if one.band is None:
                    continue
                band, done = one.band(plan.problem.bands[week.number]), one.done(week)
                low, high = band.low / one.whole, band.high / one.whole
                if not low - EPSILON_sets <= done <= high + EPSILON_sets:
                    off = f"{low - done:g} under" if done < low else f"{done - high:g} over"
                    sentence = f"week {week.number}: {done:g} {one.words}, {off}; weekly range {low:g} to {high:g}"
                    yield self.breach(one.at(week.number), sentence, max(low - done, done - high))
