"""Week 1 starts from what the athlete is used to."""

from __future__ import annotations

import math
from collections.abc import Iterator

from planner.domain.template import Template
from planner.domain.terms import LEVELS
from planner.problem.model import Problem
from planner.problem.week_centres import working_sets
from planner.rules.currencies import CONTACTS, HIGH_TIER, SETS, SPRINTS, Currency
from planner.rules.figure_words import counted, full_week
from planner.rules.rule import Breach, Plan, Row, Rule


class StartLoad(Rule):
    id = "start-load"
    title = "Week 1 starts from the recent load"
    says = (
        "Week 1 holds at most the template's growth over the usual load of the last four weeks, sport included, but "
        "may always reach the novice level; so does the next week if away dates take days out of week 1. Where the "
        "recent load is not known, the first weeks are planned one level down."
    )
    source = "common practice, no source"
    unit = "sets, contacts or sprints"
    field = ("recent_load",)

    def figures(self, template: Template) -> str:
        lowest = min(template.levels, key=LEVELS.index)
        first = template.levels[lowest].weeks[0]
        sets = math.floor(working_sets(template, sum(first.sets.values())))
        return (
            f"At most {template.start_growth:g} times the recent load; the {lowest} level {full_week(template)}: "
            f"{sets} sets, {counted(first.contacts, 'contact')} ({first.high} high tier), "
            f"{counted(first.sprints, 'sprint')}; without a recent load "
            f"{counted(template.unknown_load_weeks, 'week')} one level down."
        )

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week in _first_weeks(problem):
            for one, most in _limits(problem):
                yield self.row(one.at(week), one.terms(problem, week), high=most)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week in plan.weeks:
            if not week.is_load or plan.last_load_week_before(week.number) is not None:
                continue
            for one, most in _limits(plan.problem):
                done = one.done(week)
                if done > most:
                    sentence = f"week {week.number} has {done:g} {one.words}; the recent load allows {most}"
                    yield self.breach(one.at(week.number), sentence, done - most)


def _limits(problem: Problem) -> list[tuple[Currency, int]]:
    limits = problem.start_limits
    return [(SETS, limits.sets), (CONTACTS, limits.contacts), (HIGH_TIER, limits.high), (SPRINTS, limits.sprints)]


def _first_weeks(problem: Problem) -> list[int]:
    """Load weeks before which no load week kept all its days: the first, and the next if the first lost days."""
    return [week for week in problem.load_weeks if problem.last_load_week_before(week) is None]
