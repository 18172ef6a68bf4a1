"""The block ends with its test, on rested legs."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.variable import hard_key
from planner.rules.figure_words import counted
from planner.rules.rule import NOWHERE, Address, Breach, Plan, Row, Rule


class TestDay(Rule):
    __test__ = False

    id = "test-day"
    title = "A rested test closes the block"
    says = "The last session of the block is the test, and no hard day comes close before it."
    source = "common practice, no source (72 h)"
    unit = "days"
    moving_days_may_help = True

    def figures(self, template: Template) -> str:
        rest = counted(template.hard_day.days_before_test, "day")
        return f"The last hard day is at least {rest} before the test."

    def rows(self, problem: Problem) -> Iterator[Row]:
        test = problem.dates[problem.last_week, problem.test_slot]
        rest = problem.template.hard_day.days_before_test
        for week in problem.weeks:
            for slot in problem.training_days(week):
                if 0 < (test - problem.dates[week, slot]).days < rest:
                    yield self.row(Address(week=week, slot=slot), [(1, hard_key(week, slot))], high=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        sessions = list(plan.sessions)
        if not sessions or not sessions[-1].is_test:
            yield self.breach(NOWHERE, "the block does not end with its test", 1)
            return
        rest = plan.problem.template.hard_day.days_before_test
        for session in sessions[:-1]:
            days = (sessions[-1].date - session.date).days
            if session.is_hard(plan.problem) and days < rest:
                sentence = f"{session.where} is hard and {counted(days, 'day')} before the test; it needs {rest}"
                yield self.breach(session.at, sentence, rest - days)
