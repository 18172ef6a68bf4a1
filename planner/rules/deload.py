"""A deload week is light in every currency."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.problem.model import Problem, scaled
from planner.rules.currencies import MAY_VANISH, WEEKLY
from planner.rules.figure_words import percent, weeks_of
from planner.rules.rule import Breach, Plan, Row, Rule

THOUSANDTHS = 1000


class Deload(Rule):
    id = "deload"
    title = "A deload week is light"
    says = (
        "A deload week has at most its share of the last load week's sets, contacts, high tier and sprints, and at "
        "least its lower share of the sets and contacts unless away dates take days out of it."
    )
    source = "Bell et al. 2023 for cutting sets, reps and effort; the shares are common practice, no source"
    unit = "sets, contacts or sprints"
    row_units = THOUSANDTHS

    def figures(self, template: Template) -> str:
        weeks, shares = weeks_of(template, "deload"), template.deload
        if not weeks:
            return "It has no deload week."
        return (
            f"{weeks.capitalize()}: at most {percent(shares.high)} of the last load week, and at least "
            f"{percent(shares.low)} of its sets and contacts; aimed at no more than "
            f"{percent(shares.high - shares.aim_under)}."
        )

    def rows(self, problem: Problem) -> Iterator[Row]:
        shares = problem.template.deload
        for week, before in problem.compared(["deload"]):
            for one in WEEKLY:
                now, then = scaled(one.terms(problem, week), THOUSANDTHS), one.terms(problem, before)
                high = scaled(then, -round(THOUSANDTHS * shares.high))
                yield self.row(one.at(week), now + high, high=0)
                if one not in MAY_VANISH and not problem.lost_days(week):
                    low = scaled(then, -round(THOUSANDTHS * shares.low))
                    yield self.row(one.at(week), now + low, low=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        shares = plan.problem.template.deload
        for week, before in plan.compared(["deload"]):
            for one in WEEKLY:
                now, then = one.done(week), one.done(before)
                least = 0.0 if one in MAY_VANISH or plan.lost_days(week.number) else shares.low * then
                if not least - 1e-9 <= now <= shares.high * then + 1e-9:
                    sentence = f"week {week.number} (deload): {now:g} {one.words} after {then:g} in week "
                    sentence += f"{before.number}; should be {least:.1f} to {shares.high * then:.1f}"
                    yield self.breach(one.at(week.number), sentence, max(least - now, now - shares.high * then))
