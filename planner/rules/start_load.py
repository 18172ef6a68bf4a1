"""Week 1 starts from what the athlete is used to."""

from __future__ import annotations

import math
from collections.abc import Iterator

from planner.domain.template import Template
from planner.domain.terms import LEVELS, LOAD_ROLES
from planner.problem.bands import all_sets
from planner.problem.model import Problem
from planner.problem.per_set import contacts, sprints, tier_contacts, working_sets
from planner.rules.base import Address, Breach, CountedWeek, Plan, Row, Rule
from planner.rules.wording import counted, full_week


class StartLoad(Rule):
    id = "start-load"
    title = "Week 1 starts from the recent load"
    says = (
        "Week 1 holds at most the template's growth over the last four weeks' usual load, sport included, though it "
        "may always reach the novice line, and so does the next where away dates take days out of week 1; where the "
        "recent load is not known, the first weeks are planned one level down."
    )
    source = "common practice, no source"
    unit = "sets, contacts or sprints"
    field = ("recent_load",)

    def figures(self, template: Template) -> str:
        lowest = min(template.levels, key=LEVELS.index)
        line = template.levels[lowest].weeks[0]
        sets = math.floor(all_sets(template, line))
        return (
            f"At most {template.start_growth:g} times the recent load; the {lowest} line {full_week(template)}: "
            f"{sets} sets, {counted(line.contacts, 'contact')} ({line.high} high tier), "
            f"{counted(line.sprints, 'sprint')}; without a recent load "
            f"{counted(template.unknown_load_weeks, 'week')} one level down."
        )

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week in _first_weeks(problem):
            yield from self._week(problem, week)

    def _week(self, problem: Problem, week: int) -> Iterator[Row]:
        limits = problem.start_limits
        yield self.row(Address(week=week, of="sets"), problem.week_terms(week, working_sets), high=limits.sets)
        yield self.row(Address(week=week, of="contacts"), problem.week_terms(week, contacts), high=limits.contacts)
        yield self.row(Address(week=week, of="high"), problem.week_terms(week, tier_contacts("high")), high=limits.high)
        yield self.row(Address(week=week, of="sprints"), problem.week_terms(week, sprints), high=limits.sprints)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week in plan.weeks:
            if week.is_load and plan.last_load_week_before(week.number) is None:
                yield from self._over(plan, week)

    def _over(self, plan: Plan, week: CountedWeek) -> Iterator[Breach]:
        limits = plan.problem.start_limits
        counted = [
            ("working sets", week.working_sets, limits.sets),
            ("contacts", week.contacts, limits.contacts),
            ("high-tier contacts", week.tier_contacts("high"), limits.high),
            ("sprints", week.sprint_efforts, limits.sprints),
        ]
        for what, done, most in counted:
            if done > most:
                sentence = f"week {week.number} has {done} {what}; the recent load allows {most}"
                yield self.breach(week.at, sentence, done - most)


def _first_weeks(problem: Problem) -> list[int]:
    """Load weeks that no load week with all its days stands before: the first, and the next where it lost days."""
    load = [week for week in problem.weeks if problem.role(week) in LOAD_ROLES]
    return [week for week in load if problem.last_load_week_before(week) is None]
