"""Week 1 starts from what the athlete is used to."""

from __future__ import annotations

from collections.abc import Iterator

from planner.problem.model import Problem
from planner.problem.per_set import contacts, sprints, tier_contacts, working_sets
from planner.rules.base import Breach, Plan, Row, Rule


class StartLoad(Rule):
    id = "start-load"
    title = "Week 1 starts from the recent load"
    says = (
        "Week 1 holds at most the template's growth over the last four weeks' usual load, sport included, though it "
        "may always reach the novice line; where the recent load is not known, two weeks are planned one level down."
    )
    source = "common practice, no source"
    unit = "sets, contacts or sprints"
    repair_price = 5

    def rows(self, problem: Problem) -> Iterator[Row]:
        limits = problem.start_limits
        high = limits.high
        yield self.row("w1/sets", problem.week_terms(1, working_sets), high=limits.sets)
        yield self.row("w1/contacts", problem.week_terms(1, contacts), high=limits.contacts)
        high_terms = problem.week_terms(1, tier_contacts("high"))
        yield self.row("w1/high", high_terms, high=high)
        yield self.row("w1/sprints", problem.week_terms(1, sprints), high=limits.sprints)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        limits, week = plan.problem.start_limits, plan.weeks[0]
        counted = [
            ("working sets", week.working_sets, limits.sets),
            ("contacts", week.contacts, limits.contacts),
            ("high-tier contacts", week.tier_contacts("high"), limits.high),
            ("sprints", week.sprint_efforts, limits.sprints),
        ]
        for what, done, most in counted:
            if done > most:
                yield self.breach("week 1", f"week 1 has {done} {what}; the recent load allows {most}", done - most)
