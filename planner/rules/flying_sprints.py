"""After the first load phase, some sprints are flying."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.per_set import sprints
from planner.rules.figure_words import counted
from planner.rules.open_movements import is_open
from planner.rules.rule import Address, Breach, Plan, Row, Rule


class FlyingSprints(Rule):
    id = "flying-sprints"
    title = "Flying sprints where they fit"
    says = (
        "After the first load phase each week holds a few flying sprints, if the runway and the level allow them; "
        "novices and youth are exempt, and so is a week that loses a training day or is easy after days lost."
    )
    source = "after Haugen et al. 2019, Sports Med Open 5:44, for speed work; the figure is common practice, no source"
    unit = "efforts"
    hard = False

    def figures(self, template: Template) -> str:
        asked = template.sprint_work
        return f"At least {counted(asked.flying, 'flying sprint')} a week." if asked else ""

    def price(self, template: Template) -> dict[str, int]:
        return {"effort": template.prices.sprint}

    def rows(self, problem: Problem) -> Iterator[Row]:
        asked = problem.template.sprint_work
        if asked is None:
            return
        for week in _weeks(problem):
            terms = [(sprints(e), e.key) for e in problem.week_entries(week) if is_flying(e.movement)]
            yield self.row(Address(week=week), terms, low=asked.flying, price=problem.template.prices.sprint)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        asked = plan.problem.template.sprint_work
        if asked is None:
            return
        for number in _weeks(plan.problem):
            week = plan.week(number)
            done = sum(item.sprint_efforts for item in week.items if is_flying(item.movement))
            if done < asked.flying:
                sentence = f"week {number}: {counted(done, 'flying sprint')}; at least {asked.flying} belong there"
                yield self.breach(week.at, sentence, asked.flying - done)


def is_flying(movement: Movement) -> bool:
    return movement.sprint is not None and movement.sprint.sort == "flying"


def _weeks(problem: Problem) -> list[int]:
    """Load weeks after the first load phase that lose no day; none if no flying sprint is open to the athlete."""
    if problem.youth or not any(is_flying(m) and is_open(problem, m) for m in problem.library):
        return []
    return problem.later_aiming_weeks
