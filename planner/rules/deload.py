"""A deload week is light in every currency."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.problem.model import Problem, scaled
from planner.rules.base import Breach, Plan, Row, Rule
from planner.rules.currencies import MAY_VANISH, WEEKLY
from planner.rules.wording import percent, weeks_of

THOUSANDTHS = 1000


class Deload(Rule):
    id = "deload"
    title = "A deload week is light"
    says = (
        "A deload week holds, of sets, contacts, high tier and sprints, no more than its share of the last load week, "
        "and of sets and contacts no less than its least share unless away dates take days out of it."
    )
    source = "Bell et al. 2023 for cutting sets, reps and effort; the shares are common practice, no source"
    unit = "sets, contacts or sprints"
    row_units = THOUSANDTHS

    def figures(self, template: Template) -> str:
        weeks, shares = weeks_of(template, "deload"), template.deload
        if not weeks:
            return "No week of it is a deload."
        return (
            f"{weeks.capitalize()}: at most {percent(shares.high)} of the last load week, and at least "
            f"{percent(shares.low)} of its sets and contacts; aimed at no more than "
            f"{percent(shares.high - shares.aim_under)}."
        )

    def rows(self, problem: Problem) -> Iterator[Row]:
        shares = problem.template.deload
        for week, before in _pairs(problem):
            for one in WEEKLY:
                now, then = scaled(one.terms(problem, week), THOUSANDTHS), one.terms(problem, before)
                high = scaled(then, -round(THOUSANDTHS * shares.high))
                yield self.row(one.at(week), now + high, high=0)
                if one not in MAY_VANISH and not problem.lost_days(week):
                    low = scaled(then, -round(THOUSANDTHS * shares.low))
                    yield self.row(one.at(week), now + low, low=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        shares = plan.problem.template.deload
        for week in plan.weeks:
            before = plan.last_load_week_before(week.number)
            if week.week.role != "deload" or before is None:
                continue
            for one in WEEKLY:
                now, then = one.done(week), one.done(before)
                least = 0.0 if one in MAY_VANISH or plan.lost_days(week.number) else shares.low * then
                if not least - 1e-9 <= now <= shares.high * then + 1e-9:
                    sentence = f"week {week.number} (deload): {now:g} {one.words} after {then:g} in week "
                    sentence += f"{before.number}; between {least:.1f} and {shares.high * then:.1f}"
                    yield self.breach(one.at(week.number), sentence, max(least - now, now - shares.high * then))


def _pairs(problem: Problem) -> Iterator[tuple[int, int]]:
    for week in problem.weeks:
        before = problem.last_load_week_before(week)
        if problem.role(week) == "deload" and before is not None:
            yield week, before
