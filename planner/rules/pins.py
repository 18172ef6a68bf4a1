"""Movements that the coach wants are in the block."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.terms import DAYS
from planner.problem.model import Problem, in_key
from planner.rules.base import Breach, Plan, Row, Rule


class Pins(Rule):
    id = "pins"
    title = "Pinned movements are in"
    says = "A movement in the athlete's pins is in every phase but the last, on the pinned day where one is named."
    source = "the athlete's file"
    unit = "movements"

    def rows(self, problem: Problem) -> Iterator[Row]:
        for index, pin in enumerate(problem.athlete.pins):
            for phase in _phases(problem, pin.movement):
                slots = [s.number for s in problem.slots if pin.day in (None, s.day)]
                terms = [(1, in_key(phase, slot, pin.movement)) for slot in slots]
                yield self.row(f"{phase}/{index}/{pin.movement}", terms, low=1)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        weeks = {phase.id: phase.weeks for phase in plan.problem.phases}
        for pin in plan.problem.athlete.pins:
            for phase in _phases(plan.problem, pin.movement):
                held = any(
                    item.movement.id == pin.movement and pin.day in (None, DAYS[session.date.weekday()])
                    for number in weeks[phase]
                    for session in plan.week(number).sessions
                    for item in session.items
                )
                if not held:
                    day = f" on {pin.day}" if pin.day else ""
                    yield self.breach(phase, f"{pin.movement} is pinned{day} and missing from the phase '{phase}'", 1)


def _phases(problem: Problem, movement: str) -> list[str]:
    """Phases whose waves have room for the movement; the test week is left alone."""
    entries = {(e.week, e.movement.id): e for w in problem.weeks for e in problem.week_entries(w)}
    return [
        phase.id
        for phase in problem.phases
        if problem.last_week not in phase.weeks
        and any((week, movement) in entries and entries[week, movement].dosage.high_sets for week in phase.weeks)
    ]
