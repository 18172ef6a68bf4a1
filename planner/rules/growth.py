"""Load weeks grow by no more than the level allows over the last load week."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from planner.domain.template import Growth, LevelPlan, Template
from planner.domain.terms import LEGS, LOAD_ROLES, TIERS
from planner.problem.model import Problem, scaled
from planner.rules.currencies import CONTACTS, SETS, SPRINTS, Currency, leg_contacts
from planner.rules.figure_words import each_level, percent
from planner.rules.rule import Breach, Plan, Row, Rule

THOUSANDTHS = 1000  # ratios are given to three places; rows are whole numbers

NAMES = {
    "sets": "working sets",
    "contacts": "contacts",
    "low": "low contacts a leg",
    "medium": "medium contacts a leg",
    "high": "high contacts a leg",
    "sprints": "sprints",
}

# The template's limit and what it limits.
LIMITED: tuple[tuple[str, Currency], ...] = (
    ("sets", SETS),
    ("contacts", CONTACTS),
    ("sprints", SPRINTS),
    *((tier, leg_contacts(tier, leg)) for tier in TIERS for leg in LEGS),
)


class GrowthLimit(Rule):
    id = "growth"
    title = "Load weeks grow step by step"
    says = (
        "Working sets, contacts, each tier on each leg and sprints grow by at most the level's ratio and step over the "
        "last load week; a week that loses days to away dates is not used for comparison. Week 1 grows so from a block "
        "before. The acute:chronic ratio is not used: it does not predict injury."
    )
    source = "common practice, no source; Impellizzeri et al. 2021, Sports Med 51:581 on the ratio not used"
    unit = "sets, contacts or sprints"
    row_units = THOUSANDTHS

    def figures(self, template: Template) -> str:
        limits = {name: each_level(template, _words(field)) for field, name in NAMES.items()}
        return f"At most, over the last load week: {'; '.join(f'{name} {more}' for name, more in limits.items())}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week, before in problem.compared(LOAD_ROLES):
            for field, one in LIMITED:
                limit: Growth = getattr(problem.level.growth, field)
                now = scaled(one.terms(problem, week), THOUSANDTHS)
                then = scaled(one.terms(problem, before), -round(THOUSANDTHS * limit.ratio))
                yield self.row(one.at(week), now + then, high=THOUSANDTHS * limit.step)
        for week in problem.load_weeks if problem.before else ():
            for one, _, most in _from_the_block_before(problem):
                if problem.last_load_week_before(week) is None:
                    terms = scaled(one.terms(problem, week), THOUSANDTHS)
                    yield self.row(one.at(week), terms, high=int(THOUSANDTHS * most))

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week, before in plan.compared(LOAD_ROLES):
            for field, one in LIMITED:
                limit: Growth = getattr(plan.problem.level.growth, field)
                now, then = one.done(week), one.done(before)
                most = limit.ratio * then + limit.step
                if now > most + 1e-9:
                    sentence = f"week {week.number}: {now:g} {one.words} after {then:g} in week {before.number}; "
                    yield self.breach(one.at(week.number), f"{sentence}at most {most:.1f}", now - most)
        for week in plan.weeks:
            if week.is_load and plan.last_load_week_before(week.number) is None:
                for one, then, most in _from_the_block_before(plan.problem):
                    if (now := one.done(week)) > most + 1e-9:
                        sentence = f"week {week.number}: {now:g} {one.words} after {then:g} in a usual week of the "
                        sentence += f"block before; at most {most:.1f}"
                        yield self.breach(one.at(week.number), sentence, now - most)


def _from_the_block_before(problem: Problem) -> Iterator[tuple[Currency, float, float]]:
    """Each tier on each leg, what a usual week of the block before held, and the most that the first week may.

    Sets, contacts in all and sprints are start limits of the Problem.
    """
    if problem.before is None:
        return
    for tier in TIERS:
        limit: Growth = getattr(problem.level.growth, tier)
        for leg in LEGS:
            then = getattr(problem.before.usual_week.leg_contacts[tier], leg)
            yield leg_contacts(tier, leg), then, limit.ratio * then + limit.step


def _words(currency: str) -> Callable[[LevelPlan], str]:
    """For the manual: '10 % and 2 more', '8 more', 'no more'."""

    def words(level: LevelPlan) -> str:
        limit: Growth = getattr(level.growth, currency)
        parts = [percent(round(limit.ratio - 1, 6))] if limit.ratio > 1 else []
        parts += [f"{limit.step}"] if limit.step else []
        more = f"{' and '.join(parts) or 'no'} more"
        return more if limit.ratio >= 1 else f"{percent(limit.ratio)} of them and {more}"

    return words
