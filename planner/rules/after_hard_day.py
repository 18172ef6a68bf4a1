"""The day after a hard day is easy on the Achilles tendon."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from planner.domain.template import Template
from planner.domain.terms import LEGS, Joint, Leg
from planner.problem.model import STRESS_UNITS_PER_POINT, Problem
from planner.problem.per_set import stress_terms
from planner.problem.training_days import ONE_DAY
from planner.problem.variable import hard_key
from planner.rules.rule import Address, Breach, Plan, Row, Rule

TENDON: Joint = "achilles-ankle"
MOST_POINTS = 1000  # above what any session could hold: the slack of a day after one that is not hard
EPSILON_points = 1e-6


class AfterHardDay(Rule):
    id = "after-hard-day"
    title = "Easy on the tendon after a hard day"
    says = (
        "The day after a hard day, a hard practice or a match, no leg's Achilles tendon takes more than the template's "
        "points."
    )
    source = "common practice, no source"
    unit = "points"
    field = ("training", "days")
    spans_two_days = True
    moving_days_may_help = True
    sport_to_ease = ("medium practice", "no match")
    row_units = STRESS_UNITS_PER_POINT

    def at_limit(self, row: Row) -> str | None:
        most = (row.high or 0) / STRESS_UNITS_PER_POINT
        return f"at most {most - MOST_POINTS if row.other else most:g} points"

    def figures(self, template: Template) -> str:
        asked = template.recovery
        return f"At most {asked.after_hard_day_points:g} points." if asked else ""

    def rows(self, problem: Problem) -> Iterator[Row]:
        asked = problem.template.recovery
        if asked is None:
            return
        most, slack = round(STRESS_UNITS_PER_POINT * asked.after_hard_day_points), STRESS_UNITS_PER_POINT * MOST_POINTS
        days = {problem.dates[key]: key for key in problem.programmed_days()}
        for date, (week, slot) in days.items():
            before = days.get(date - ONE_DAY)
            for leg in LEGS:
                terms = stress_terms(problem, week, slot, TENDON, leg)
                at = Address(week=week, slot=slot, joint=TENDON, leg=leg)
                if terms and _is_hard_sport(problem, date - ONE_DAY):
                    yield self.row(at, terms, high=most)
                elif terms and before is not None:
                    other = Address(week=before[0], slot=before[1])
                    yield self.row(at, [*terms, (slack, hard_key(*before))], high=most + slack, other=other)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        asked = plan.problem.template.recovery
        if asked is None:
            return
        held = {session.date: session for session in plan.sessions if not session.is_test}
        for date, session in held.items():
            before = held.get(date - ONE_DAY)
            after_training = before is not None and before.is_hard(plan.problem)
            if not after_training and not _is_hard_sport(plan.problem, date - ONE_DAY):
                continue
            points, leg = max((session.stress(TENDON, leg), leg) for leg in LEGS)
            if points > asked.after_hard_day_points + EPSILON_points:
                sentence = _sentence(session.where, points, leg, asked.after_hard_day_points)
                yield self.breach(session.at, sentence, points - asked.after_hard_day_points)


def _sentence(where: str, points: float, leg: Leg, most: float) -> str:
    return f"{where} has {points:.1f} Achilles points on the {leg} leg the day after a hard day; at most {most:g}"


def _is_hard_sport(problem: Problem, date: datetime.date) -> bool:
    day = problem.sport.get(date)
    return day is not None and day.hard
