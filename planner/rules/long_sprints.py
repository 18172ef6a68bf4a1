"""After the first load phase, a share of the sprints is long."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.estimate.words import words_of
from planner.problem.model import Problem
from planner.problem.per_set import sprints
from planner.rules.figure_words import counted, percent
from planner.rules.open_movements import is_open
from planner.rules.rule import Address, Breach, Plan, Row, Rule

TENTHS = 10


class LongSprints(Rule):
    id = "long-sprints"
    title = "Sprints get longer"
    says = (
        "After the first load phase a share of the week's sprints is long, fly-in included, if the runway allows it; a "
        "week that loses a training day, or is easy after days lost, is exempt."
    )
    source = "Haugen et al. 2019, Sports Med Open 5:44, for speed work; the figures are common practice, no source"
    unit = "efforts"
    hard = False
    row_units = TENTHS

    def figures(self, template: Template) -> str:
        asked = template.sprint_work
        if asked is None:
            return ""
        return f"At least {percent(asked.long_share)} of the sprints are {asked.long_m:g} m or longer."

    def price(self, template: Template) -> dict[str, int]:
        return {"effort": TENTHS * _price_of_a_tenth(template)}

    def rows(self, problem: Problem) -> Iterator[Row]:
        asked = problem.template.sprint_work
        if asked is None:
            return
        share = round(TENTHS * asked.long_share)
        for week in _weeks(problem):
            terms = [
                ((TENTHS - share if _is_long(problem, e.movement) else -share) * sprints(e), e.key)
                for e in problem.week_entries(week)
                if sprints(e)
            ]
            yield self.row(Address(week=week), terms, low=0, price=_price_of_a_tenth(problem.template))

    def audit(self, plan: Plan) -> Iterator[Breach]:
        asked = plan.problem.template.sprint_work
        if asked is None:
            return
        for number in _weeks(plan.problem):
            week = plan.week(number)
            long = sum(item.sprint_efforts for item in week.items if _is_long(plan.problem, item.movement))
            least = asked.long_share * week.sprint_efforts
            if long < least - 1e-9:
                of = counted(week.sprint_efforts, "sprint")
                far = words_of(plan.problem.athlete).run(asked.long_m)
                sentence = f"week {number}: {long} of {of} are {far} or longer; at least {least:g}"
                yield self.breach(week.at, sentence, least - long)


def _price_of_a_tenth(template: Template) -> int:
    return max(1, template.prices.sprint // TENTHS)


def _is_long(problem: Problem, movement: Movement) -> bool:
    asked, sprint = problem.template.sprint_work, movement.sprint
    return asked is not None and sprint is not None and sprint.distance + sprint.fly_in >= asked.long_m


def _weeks(problem: Problem) -> list[int]:
    """Load weeks after the first load phase that lose no day; none if no long sprint is open to the athlete."""
    if not any(_is_long(problem, m) and is_open(problem, m) for m in problem.library):
        return []
    return problem.later_aiming_weeks
