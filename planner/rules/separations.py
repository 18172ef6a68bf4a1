"""Eccentric hamstring work and heavy hinges keep clear of the next sprints."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.variable import in_key
from planner.rules.figure_words import counted
from planner.rules.rule import Address, Breach, Plan, Row, Rule


class Separations(Rule):
    id = "before-sprints"
    title = "Sore hamstrings stay away from sprints"
    says = (
        "Eccentric hamstring work and heavy hinges each come at least the template's number of days before the next "
        "sprints; on the same day the sprints come first, so that is allowed."
    )
    source = "common practice, no source"
    unit = "days"
    moving_days_may_help = True

    def figures(self, template: Template) -> str:
        eccentric, hinge = (counted(_dates(template, kind), "day") for kind in ("eccentric", "hinge"))
        return f"The next sprints at least {eccentric} after eccentric hamstring work, {hinge} after a heavy hinge."

    def rows(self, problem: Problem) -> Iterator[Row]:
        for week, slot, later_week, later_slot, days in _close_pairs(problem):
            first = [e.movement for e in problem.entries[week, slot] if days < _days_needed(problem, e.movement)]
            sprints = [e for e in problem.entries[later_week, later_slot] if e.movement.sprint is not None]
            for movement in first:
                for sprint in sprints:
                    before = in_key(problem.phase_of(week), slot, movement.id)
                    after = in_key(problem.phase_of(later_week), later_slot, sprint.movement.id)
                    at = Address(week=week, slot=slot, movement=movement.id)
                    other = Address(week=later_week, slot=later_slot, movement=sprint.movement.id)
                    yield self.row(at, [(1, before), (1, after)], high=1, other=other)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        sessions = sorted(plan.sessions, key=lambda session: session.date)
        for index, session in enumerate(sessions):
            for item in session.items:
                needed = _days_needed(plan.problem, item.movement) if item.works else 0
                for later in sessions[index + 1 :]:
                    days = (later.date - session.date).days
                    if 0 < days < needed and later.sprint_efforts:
                        sentence = f"{item.name} in {session.where} is {counted(days, 'day')} before the sprints in "
                        sentence += f"{later.where}; it needs {needed}"
                        yield self.breach(session.at_item(item), sentence, needed - days)


def _days_needed(problem: Problem, movement: Movement) -> int:
    """Days from this movement to the next sprints, at least; 0 if any will do."""
    if movement.eccentric_hamstring:
        return _dates(problem.template, "eccentric")
    return _dates(problem.template, "hinge") if movement.heavy_hinge else 0


def _dates(template: Template, kind: Literal["eccentric", "hinge"]) -> int:
    """Days from the work to the next sprints. The template counts a hinge's days between the two."""
    if kind == "eccentric":
        return template.separations.eccentric_before_sprint_days
    return template.separations.heavy_hinge_before_sprint_days + 1


def _close_pairs(problem: Problem) -> list[tuple[int, int, int, int, int]]:
    """Training dates closer than the longest distance needed, once for each pair of phases and days."""
    longest = max(_dates(problem.template, "eccentric"), _dates(problem.template, "hinge"))
    days = [(w, s) for w in problem.weeks for s in problem.training_days(w)]
    found: dict[tuple[str, int, str, int], tuple[int, int, int, int, int]] = {}
    for i, (week, slot) in enumerate(days):
        for later_week, later_slot in days[i + 1 :]:
            apart = (problem.dates[later_week, later_slot] - problem.dates[week, slot]).days
            if apart >= longest:
                break
            key = (problem.phase_of(week), slot, problem.phase_of(later_week), later_slot)
            found.setdefault(key, (week, slot, later_week, later_slot, apart))
    return list(found.values())
