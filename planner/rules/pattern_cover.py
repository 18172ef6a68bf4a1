"""Every load and deload week trains every required pattern."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planner.domain.template import Template
from planner.domain.terms import Pattern
from planner.problem.model import Problem
from planner.problem.per_set import trains
from planner.rules.figure_words import each_role, listed
from planner.rules.places import weeks_in_words
from planner.rules.rule import Address, Breach, Loosening, Plan, Row, Rule, Step


class PatternCover(Rule):
    id = "pattern-cover"
    title = "Every week trains every required pattern"
    says = (
        "Squat, hinge, one-leg hip, knee, both calf positions, frontal plane, trunk and the jump directions each "
        "appear in every week of the roles that ask for them; a week that loses a training day that other weeks keep "
        "(away, a match on one date) is exempt."
    )
    source = "common practice, no source; frontal plane after Sado et al. 2018, IJSM 39:1001"
    unit = "sets"
    often_to_blame = True
    always_loosened = True

    def figures(self, template: Template) -> str:
        wanted = {role: listed(patterns) for role, patterns in template.required_patterns.items() if patterns}
        roles = each_role(template, wanted, "; ")
        return f"{roles[:1].upper()}{roles[1:]}. The approach is required only if the target has a run-up."

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week in problem.weeks:
            for pattern in required(problem, week):
                terms = problem.week_terms(week, trains(pattern))
                yield self.row(Address(week=week, of=pattern), terms, low=1)

    def loosenings(self, problem: Problem, row: Row) -> Iterator[Loosening]:
        yield Loosening(self.id, row.at, 1, problem.template.changes.pattern_week)

    def change_in_words(self, steps: Sequence[Step], problem: Problem) -> str:
        weeks: dict[str, list[Address]] = {}
        for step in steps:
            weeks.setdefault((step.at.of or "").replace("-", " "), []).append(step.at)
        said = [f"{pattern} in {weeks_in_words(found)}" for pattern, found in weeks.items()]
        return f"a template that does not ask for {listed(said)}"

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for week in plan.weeks:
            for pattern in required(plan.problem, week.number):
                if not any(pattern in item.movement.patterns for item in week.items if item.works):
                    yield self.breach(week.at, f"week {week.number} has nothing for {pattern}", 1)


def required(problem: Problem, week: int) -> list[Pattern]:
    """Patterns that this week must train; none if it loses a day that other weeks keep."""
    # The test takes a day of the last week.
    ordinary = [other for other in problem.weeks if other != problem.last_week]
    lost = [slot for slot in problem.slots_of(week) if _barred(problem, week, slot)]
    if any(not _barred(problem, other, same) for slot in lost for other, same in _same_day(problem, slot, ordinary)):
        return []
    wanted = problem.template.required_patterns.get(problem.role(week), ())
    off_run_up = problem.athlete.approach.steps > 0
    return [pattern for pattern in wanted if pattern != "approach" or off_run_up]


def _same_day(problem: Problem, slot: int, weeks: Sequence[int]) -> Iterator[tuple[int, int]]:
    """The training day of the same weekday in each of these weeks that has one, by its week's routine."""
    days = {one.number: one.day for one in problem.slots}
    return ((week, other) for week in weeks for other in problem.slots_of(week) if days[other] == days[slot])


def _barred(problem: Problem, week: int, slot: int) -> bool:
    return any(entry.barred for entry in problem.entries[week, slot])
