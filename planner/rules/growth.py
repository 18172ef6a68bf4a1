"""Load weeks grow by no more than the level allows, against the last load week."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from planner.domain.template import Growth, LevelPlan, Template
from planner.domain.terms import LEGS, LOAD_ROLES, TIERS
from planner.problem.model import Problem, scaled
from planner.problem.per_set import PerSet, contacts, leg_contacts, sprints, working_sets
from planner.rules.base import Address, Breach, CountedWeek, Plan, Row, Rule
from planner.rules.wording import each_level, percent

THOUSANDTHS = 1000  # ratios are given to three places; rows are whole numbers

CURRENCIES = {
    "working sets": "sets",
    "contacts": "contacts",
    "low contacts a leg": "low",
    "medium contacts a leg": "medium",
    "high contacts a leg": "high",
    "sprints": "sprints",
}


class GrowthLimit(Rule):
    id = "growth"
    title = "Load weeks grow step by step"
    says = (
        "Working sets, contacts, each tier on each leg and sprints grow from the last load week by no more than the "
        "level's ratio and step; a week that loses days to away dates is no measure for the next. The acute:chronic "
        "ratio is not used: it does not predict injury."
    )
    source = "common practice, no source; Impellizzeri et al. 2021, Sports Med 51:581 on the ratio not used"
    unit = "sets, contacts or sprints"
    row_units = THOUSANDTHS

    def figures(self, template: Template) -> str:
        limits = {name: each_level(template, _words(field)) for name, field in CURRENCIES.items()}
        return f"At most, over the last load week: {'; '.join(f'{name} {more}' for name, more in limits.items())}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week in problem.weeks:
            before = problem.last_load_week_before(week)
            if before is None or problem.role(week) not in LOAD_ROLES:
                continue
            limits = problem.level.growth
            yield self._grow(problem, Address(week=week, of="sets"), before, limits.sets, working_sets)
            yield self._grow(problem, Address(week=week, of="contacts"), before, limits.contacts, contacts)
            yield self._grow(problem, Address(week=week, of="sprints"), before, limits.sprints, sprints)
            for tier in TIERS:
                for leg in LEGS:
                    limit = getattr(limits, tier)
                    at = Address(week=week, of=tier, leg=leg)
                    yield self._grow(problem, at, before, limit, leg_contacts(tier, leg))

    def _grow(self, problem: Problem, at: Address, before: int, limit: Growth, per_set: PerSet) -> Row:
        now = scaled(problem.week_terms(at.week or 0, per_set), THOUSANDTHS)
        then = scaled(problem.week_terms(before, per_set), -round(THOUSANDTHS * limit.ratio))
        return self.row(at, now + then, high=THOUSANDTHS * limit.step)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        limits = plan.problem.level.growth
        for week in plan.weeks:
            before = plan.last_load_week_before(week.number)
            if before is None or not week.is_load:
                continue
            yield from self._over(week, before, "working sets", limits.sets, week.working_sets, before.working_sets)
            yield from self._over(week, before, "contacts", limits.contacts, week.contacts, before.contacts)
            yield from self._over(week, before, "sprints", limits.sprints, week.sprint_efforts, before.sprint_efforts)
            for tier in TIERS:
                for leg in LEGS:
                    now, then = week.leg_tier_contacts(tier, leg), before.leg_tier_contacts(tier, leg)
                    yield from self._over(week, before, f"{tier} contacts, {leg} leg", getattr(limits, tier), now, then)

    def _over(
        self, week: CountedWeek, before: CountedWeek, what: str, limit: Growth, now: float, then: float
    ) -> Iterator[Breach]:
        most = limit.ratio * then + limit.step
        if now > most + 1e-9:
            sentence = f"week {week.number}: {now:g} {what} after {then:g} in week {before.number}; at most {most:.1f}"
            yield self.breach(week.at, sentence, now - most)


def _words(currency: str) -> Callable[[LevelPlan], str]:
    """For the manual: '10 % and 2 more', '8 more', 'no more'."""

    def words(level: LevelPlan) -> str:
        limit: Growth = getattr(level.growth, currency)
        parts = [percent(round(limit.ratio - 1, 6))] if limit.ratio > 1 else []
        parts += [f"{limit.step}"] if limit.step else []
        more = f"{' and '.join(parts) or 'no'} more"
        return more if limit.ratio >= 1 else f"{percent(limit.ratio)} of them and {more}"

    return words
