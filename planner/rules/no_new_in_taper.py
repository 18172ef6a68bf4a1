"""A taper has no movement that the phase before it does not train."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from planner.problem.model import Problem
from planner.problem.variable import in_key
from planner.rules.rule import Breach, Plan, Row, Rule, Term


class NoNewInTaper(Rule):
    id = "no-new-in-taper"
    title = "Nothing new in the taper"
    says = "A taper phase holds only movements of the phase before it."
    source = "common practice, no source"
    unit = "movements"

    def rows(self, problem: Problem) -> Iterator[Row]:
        before = _before(problem)
        where: dict[tuple[str, str], list[Term]] = {}
        for phase, slot, movement in problem.choices:
            where.setdefault((phase, movement), []).append((-1, in_key(phase, slot, movement)))
        for phase, slot, movement in problem.choices:
            if phase in before:
                earlier = [term for one in before[phase] for term in where.get((one, movement), [])]
                chosen = in_key(phase, slot, movement)
                yield self.row(chosen.at, [(1, chosen), *earlier], high=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        known: dict[str, set[str]] = {}  # movements of each phase, in order of weeks
        tapers = {week.week.phase: True for week in plan.weeks}
        for week in plan.weeks:
            known.setdefault(week.week.phase, set()).update(item.movement.id for item in week.items)
            tapers[week.week.phase] &= week.week.role == "taper"
        order = list(known)
        for week, session, item in plan.working_items():
            phase = week.week.phase
            before = known[order[order.index(phase) - 1]] if phase != order[0] else known[phase]
            if tapers[phase] and item.movement.id not in before:
                yield self.breach(session.at_item(item), f"{item.name} is new in the taper ({session.where})", 1)


def _before(problem: Problem) -> dict[str, list[str]]:
    """Each taper phase, with the phase before it; both may be in pieces."""
    names = list(dict.fromkeys(phase.name for phase in problem.phases))
    earlier = {later: before for before, later in pairwise(names)}
    return {
        phase.id: [one.id for one in problem.phases if one.name == earlier[phase.name]]
        for phase in problem.phases
        if phase.name in earlier and all(role == "taper" for role in phase.roles)
    }
