"""What all floor rules have in common: the least of a currency that every week holds."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterator, Sequence
from typing import ClassVar

from planner.domain.template_prices import ChangePrices
from planner.problem.model import Problem
from planner.rules.currencies import Currency
from planner.rules.figure_words import listed
from planner.rules.places import weeks_in_words
from planner.rules.rule import Address, Blamed, Breach, Keys, Loosening, Plan, Row, Rule, Step


class FloorRule(Rule):
    is_floor = True
    always_loosened = True
    currencies: ClassVar[tuple[Currency, ...]]

    @abstractmethod
    def step_price(self, prices: ChangePrices) -> int:
        """What it costs to lower the floor by one of the solver's units."""

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week in problem.weeks:
            for one in self.currencies:
                if one.floor is not None:
                    yield self.row(one.at(week), one.terms(problem, week), low=one.floor(problem.bands[week]))

    def blamed(self, part: Blamed) -> Iterator[tuple[Keys, str]]:
        asked = listed(f"at least {self._amount(row.low or 0, row.at)}" for row in part.rows)
        yield self.field, f"{self.title}: {asked}"

    def loosenings(self, problem: Problem, row: Row) -> Iterator[Loosening]:
        yield Loosening(self.id, row.at, 1, self.step_price(problem.template.changes), row.low or 0)

    def change_in_words(self, steps: Sequence[Step], problem: Problem) -> str:
        return f"a template with a floor lower by {listed(self._amount(step.amount, step.at) for step in steps)}"

    def _amount(self, units: int, at: Address) -> str:
        one = next(one for one in self.currencies if one.of == at.of)
        return f"{units / one.whole:g} {one.words} in {weeks_in_words([at])}"

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week in plan.weeks:
            for one in self.currencies:
                if one.floor is None:
                    continue
                done, least = one.done(week), one.floor(plan.problem.bands[week.number]) / one.whole
                if done < least - 1e-9:
                    sentence = f"week {week.number}: {done:g} {one.words}; the floor is {least:g}"
                    yield self.breach(one.at(week.number), sentence, least - done)
