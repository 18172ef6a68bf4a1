"""A deload week is light in every currency."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from planner.domain.template import Template
from planner.problem.model import Problem, scaled
from planner.problem.per_set import PerSet, contacts, sprints, tier_contacts, working_sets
from planner.rules.base import Address, Breach, CountedWeek, Plan, Row, Rule
from planner.rules.wording import percent, weeks_of

THOUSANDTHS = 1000

PER_SET: dict[str, PerSet] = {
    "working sets": working_sets,
    "contacts": contacts,
    "high-tier contacts": tier_contacts("high"),
    "sprints": sprints,
}
COUNTED: dict[str, Callable[[CountedWeek], float]] = {
    "working sets": lambda w: w.working_sets,
    "contacts": lambda w: w.contacts,
    "high-tier contacts": lambda w: w.tier_contacts("high"),
    "sprints": lambda w: w.sprint_efforts,
}
MAY_VANISH = ("high-tier contacts", "sprints")


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
            for what, per_set in PER_SET.items():
                at = Address(week=week, of=what)
                now = scaled(problem.week_terms(week, per_set), THOUSANDTHS)
                then = problem.week_terms(before, per_set)
                high = scaled(then, -round(THOUSANDTHS * shares.high))
                yield self.row(at, now + high, high=0)
                if what not in MAY_VANISH and not problem.lost_days(week):
                    low = scaled(then, -round(THOUSANDTHS * shares.low))
                    yield self.row(at, now + low, low=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        shares = plan.problem.template.deload
        for number, before in _pairs(plan.problem):
            for what, count in COUNTED.items():
                now, then = count(plan.week(number)), count(plan.week(before))
                least = 0.0 if what in MAY_VANISH or plan.lost_days(number) else shares.low * then
                if not least - 1e-9 <= now <= shares.high * then + 1e-9:
                    sentence = f"week {number} (deload): {now:g} {what} after {then:g} in week {before}; "
                    sentence += f"between {least:.1f} and {shares.high * then:.1f}"
                    yield self.breach(
                        Address(week=number, of=what), sentence, max(least - now, now - shares.high * then)
                    )


def _pairs(problem: Problem) -> Iterator[tuple[int, int]]:
    for week in problem.weeks:
        before = problem.last_load_week_before(week)
        if problem.role(week) == "deload" and before is not None:
            yield week, before
