"""A new one-leg hinge and a new bar hinge do not begin on the same day."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.movement import Movement
from planner.problem.model import Problem
from planner.problem.variable import in_key
from planner.rules.rule import Breach, CountedItem, Plan, Row, Rule, Term

FAMILY = "one-leg-hinges"


class NewHinges(Rule):
    id = "new-hinges"
    title = "One new hinge a day"
    says = (
        "A one-leg hinge and a bar hinge that the athlete neither tested nor did in an earlier phase, or in a block "
        "before, do not begin on the same day."
    )
    source = "common practice, no source"
    unit = "movements"

    def rows(self, problem: Problem) -> Iterator[Row]:
        if problem.template.recovery is None:
            return
        earlier: list[Term] = []
        for phase in problem.phases:
            for slot in phase.slots:
                held = [m for m in problem.movements_on(phase, slot) if not _is_known(problem, m)]
                for one_leg in (m for m in held if _is_one_leg(problem, m)):
                    for bar in filter(_is_bar, held):
                        one, other = (in_key(phase.id, slot, m.id) for m in (one_leg, bar))
                        known = [term for term in earlier if term[1].at.movement in (one_leg.id, bar.id)]
                        yield self.row(one.at, [(1, one), (1, other), *known], high=1, other=other.at)
            for slot in phase.slots:
                hinges = (m for m in problem.movements_on(phase, slot) if _is_bar(m) or _is_one_leg(problem, m))
                earlier += [(-1, in_key(phase.id, slot, movement.id)) for movement in hinges]

    def audit(self, plan: Plan) -> Iterator[Breach]:
        if plan.problem.template.recovery is None:
            return
        phases: dict[str, set[str]] = {}
        for week in plan.weeks:
            piece = plan.problem.phase_of(week.number)  # what an earlier piece of the phase had is not new
            before = {name for one, names in phases.items() if one != piece for name in names}
            for session in week.sessions:
                new = [i for i in session.items if _is_new(plan.problem, i, before)]
                one_leg = next((i for i in new if _is_one_leg(plan.problem, i.movement)), None)
                bar = next((i for i in new if _is_bar(i.movement)), None)
                if one_leg is not None and bar is not None:
                    sentence = f"{one_leg.name} and {bar.name} are both new in {session.where}"
                    yield self.breach(session.at_item(one_leg), sentence, 1)
            phases.setdefault(piece, set()).update(item.movement.id for item in week.items if item.works)


def _is_new(problem: Problem, item: CountedItem, before: set[str]) -> bool:
    return item.works and not item.is_test and item.movement.id not in before and not _is_known(problem, item.movement)


def _is_known(problem: Problem, movement: Movement) -> bool:
    """Whether it was tested, or done in a block before."""
    done = problem.before is not None and movement.id in problem.before.known_ids
    return done or any(lift == movement.id for lift, _ in problem.one_rm_kg)


def _is_one_leg(problem: Problem, movement: Movement) -> bool:
    return problem.library.families.get(movement.id) == FAMILY


def _is_bar(movement: Movement) -> bool:
    return movement.part == "main-lift" and "hinge" in movement.patterns and movement.dose.implement == "barbell"
