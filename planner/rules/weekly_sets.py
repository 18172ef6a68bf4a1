"""Every load week holds a few sets of what is easily left out: the hamstrings and the adductors."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.domain.template_weekly import WeeklySets
from planner.problem.model import Problem
from planner.rules.figure_words import counted, listed
from planner.rules.open_movements import is_open
from planner.rules.rule import Address, Breach, Plan, Row, Rule

QUARTERS = 4  # of a set, which has the price


class WeeklySetsRule(Rule):
    id = "weekly-sets"
    title = "Hamstrings and adductors every week"
    says = (
        "Every load week holds the template's least sets of some patterns, if a movement for them is open to the "
        "athlete; a week that loses a training day is exempt."
    )
    source = (
        "van Dyk et al. 2019 for eccentric knee flexion, Presland et al. 2018 for stopping it: from memory; "
        "the figures are common practice, no source"
    )
    unit = "sets"
    hard = False

    def figures(self, template: Template) -> str:
        asked = [f"{counted(one.sets, 'set')} of {one.pattern.replace('-', ' ')}" for one in template.weekly_sets]
        return f"At least {listed(asked)} in every load week." if asked else ""

    def price(self, template: Template) -> dict[str, int]:
        return {"set": QUARTERS * template.prices.quarter_set}

    def rows(self, problem: Problem) -> Iterator[Row]:
        price = QUARTERS * problem.template.prices.quarter_set
        for one in _asked(problem):
            for week in problem.full_load_weeks:
                terms = [(1, e.key) for e in problem.week_entries(week) if _counts(e.movement.patterns, one)]
                yield self.row(Address(week=week, of=one.pattern), terms, low=one.sets, price=price)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for one in _asked(plan.problem):
            for week in plan.problem.full_load_weeks:
                items = plan.week(week).items
                done = sum(item.item.sets for item in items if _counts(item.movement.patterns, one))
                if done < one.sets:
                    what = one.pattern.replace("-", " ")
                    sentence = f"week {week}: {counted(done, 'set')} of {what}; at least {one.sets} belong there"
                    yield self.breach(Address(week=week, of=one.pattern), sentence, one.sets - done)


def _asked(problem: Problem) -> list[WeeklySets]:
    """What the template asks for and some open movement gives."""
    return [
        one
        for one in problem.template.weekly_sets
        if any(_counts(m.patterns, one) and is_open(problem, m) for m in problem.library)
    ]


def _counts(patterns: tuple[str, ...], one: WeeklySets) -> bool:
    return one.pattern in patterns
