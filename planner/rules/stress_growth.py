"""Joint stress of load weeks grows by no more than the level allows, on each joint and leg."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.template import Growth, Template
from planner.domain.terms import LEVELS, LOAD_ROLES, Joint, Leg
from planner.problem.model import STRESS_UNITS_PER_POINT, Problem, joint_legs, scaled
from planner.problem.per_set import week_stress_terms
from planner.rules.figure_words import each_level, percent
from planner.rules.rule import Address, Breach, CountedWeek, Plan, Row, Rule

THOUSANDTHS = 1000  # the ratio is given to three places; rows are whole numbers
EPSILON_points = 1e-6


class StressGrowth(Rule):
    id = "stress-growth"
    title = "Joint stress grows step by step"
    says = (
        "The block's stress on each joint of each leg grows by no more than the level's ratio and step over the last "
        "load week, sport left out; a week that loses days to away dates is not used for comparison. Week 1 grows so "
        "from a block before, but may always reach what a novice's week may hold."
    )
    source = "common practice, no source"
    unit = "points"
    seldom_tight = True
    row_units = THOUSANDTHS * STRESS_UNITS_PER_POINT

    def figures(self, template: Template) -> str:
        older = template.older
        aged = f", from {older.from_years} years on {_growth(older.stress_growth)}" if older is not None else ""
        each = each_level(template, lambda level: _growth(level.growth.joint_stress))
        return f"At most, over the last load week: {each} points more on each joint and leg{aged}."

    def rows(self, problem: Problem) -> Iterator[Row]:
        limit = problem.level.growth.joint_stress
        for week, before in problem.compared(LOAD_ROLES):
            for joint, leg in joint_legs():
                now = scaled(week_stress_terms(problem, week, joint, leg), THOUSANDTHS)
                then = scaled(week_stress_terms(problem, before, joint, leg), -round(THOUSANDTHS * limit.ratio))
                yield self.row(Address(week=week, joint=joint, leg=leg), now + then, high=self.row_units * limit.step)
        for week in problem.load_weeks if problem.before else ():
            for joint, leg, _, most in _from_the_block_before(problem):
                if problem.last_load_week_before(week) is None:
                    terms = scaled(week_stress_terms(problem, week, joint, leg), THOUSANDTHS)
                    yield self.row(Address(week=week, joint=joint, leg=leg), terms, high=int(self.row_units * most))

    def audit(self, plan: Plan) -> Iterator[Breach]:
        limit = plan.problem.level.growth.joint_stress
        for week, before in plan.compared(LOAD_ROLES):
            for joint, leg in joint_legs():
                now, then = week.stress(joint, leg), before.stress(joint, leg)
                most = limit.ratio * then + limit.step
                if now > most + limit.ratio * _rounded_points(plan, before) + EPSILON_points:
                    sentence = f"week {week.number}: {now:.1f} points on the {leg} {joint} after {then:.1f} in week "
                    sentence += f"{before.number}; at most {most:.1f}"
                    yield self.breach(week.at._replace(joint=joint, leg=leg), sentence, now - most)
        for week in plan.weeks:
            if week.is_load and plan.last_load_week_before(week.number) is None:
                for joint, leg, then, most in _from_the_block_before(plan.problem):
                    if (now := week.stress(joint, leg)) > most + EPSILON_points:
                        sentence = f"week {week.number}: {now:.1f} points on the {leg} {joint} after {then:.1f} in a "
                        sentence += f"usual week of the block before; at most {most:.1f}"
                        yield self.breach(week.at._replace(joint=joint, leg=leg), sentence, now - most)


def _from_the_block_before(problem: Problem) -> Iterator[tuple[Joint, Leg, float, float]]:
    """Joint and leg, the points of a usual week of the block before, and the most that the first week may have."""
    if problem.before is None:
        return
    limit, levels = problem.level.growth.joint_stress, problem.template.levels
    lowest = levels[min(levels, key=LEVELS.index)].joint_stress.week
    for joint, leg in joint_legs():
        then = getattr(problem.before.usual_week.joint_stress[joint], leg)
        yield joint, leg, then, max(limit.ratio * then + limit.step, float(lowest))


def _rounded_points(plan: Plan, week: CountedWeek) -> float:
    """The most that the solver overcounts a week: it rounds up sprints of no whole metres, each by part of a point."""
    odd = sum(item.sprint_efforts for item in week.items if not float(item.item.distance_m or 0.0).is_integer())
    return odd * max(plan.problem.template.counting.stress_weights) / STRESS_UNITS_PER_POINT


def _growth(limit: Growth) -> str:
    return f"{percent(round(limit.ratio - 1, 6))} and {limit.step}"
