"""The last week brings no movement that the phase before did not train."""

from __future__ import annotations

from collections.abc import Iterator

from planner.problem.model import Problem
from planner.problem.variable import in_key
from planner.rules.base import Address, Breach, Plan, Row, Rule, Term, choices


class NoNewInTaper(Rule):
    id = "no-new-in-taper"
    title = "Nothing new in the taper"
    says = "A taper phase holds only movements of the phase before it."
    source = "common practice, no source"
    unit = "movements"

    def rows(self, problem: Problem) -> Iterator[Row]:
        before = _before(problem)
        where: dict[tuple[str, str], list[Term]] = {}
        for phase, slot, movement in choices(problem):
            where.setdefault((phase, movement), []).append((-1, in_key(phase, slot, movement)))
        for phase, slot, movement in choices(problem):
            if phase in before:
                earlier = where.get((before[phase], movement), [])
                at = Address(phase=phase, slot=slot, movement=movement)
                yield self.row(at, [(1, in_key(phase, slot, movement)), *earlier], high=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        before = _before(plan.problem)
        weeks = {phase.id: phase.weeks for phase in plan.problem.phases}
        for week, session, item in plan.working_items():
            phase = plan.problem.phase_of(week.number)
            if phase in before:
                known = {i.movement.id for n in weeks[before[phase]] for i in plan.week(n).items}
                if item.movement.id not in known:
                    yield self.breach(session.at_item(item), f"{item.name} is new in the taper ({session.where})", 1)


def _before(problem: Problem) -> dict[str, str]:
    """Taper phases, with the phase that stands before each."""
    found = {}
    for earlier, phase in zip(problem.phases, problem.phases[1:], strict=False):
        if all(problem.role(week) == "taper" for week in phase.weeks):
            found[phase.id] = earlier.id
    return found
