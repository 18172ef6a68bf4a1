"""Eccentric hamstring work and flying sprints do not begin together."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator

from planner.domain.movement import Movement
from planner.problem.model import Problem
from planner.problem.variable import Variable, in_key
from planner.rules.flying_sprints import is_flying
from planner.rules.rule import Breach, Plan, Row, Rule, Term


class NotNewTogether(Rule):
    id = "not-new-together"
    title = "Hamstrings meet one new thing at a time"
    says = (
        "Eccentric hamstring work and flying sprints do not both begin in the same phase; what a block before had is "
        "not new."
    )
    source = "after van Dyk et al. 2019, from memory"
    unit = "movements"

    def rows(self, problem: Problem) -> Iterator[Row]:
        if problem.template.sprint_work is None or _knows_one(problem):
            return
        earlier: list[Term] = []  # what an earlier phase has of either is no longer new
        for name in dict.fromkeys(phase.name for phase in problem.phases):
            pieces = {phase.id for phase in problem.phases if phase.name == name}
            slow, fast = (_chosen(problem, pieces, kind) for kind in (_is_eccentric, is_flying))
            for one in slow:
                for other in fast:
                    yield self.row(one.at, [(1, one), (1, other), *earlier], high=1, other=other.at)
            earlier += [(-1, key) for key in (*slow, *fast)]

    def audit(self, plan: Plan) -> Iterator[Breach]:
        if plan.problem.template.sprint_work is None or _knows_one(plan.problem):
            return
        began: dict[str, str] = {}  # the phase in which each kind begins
        for week, session, item in plan.working_items():
            for kind, is_kind in (("slow", _is_eccentric), ("fast", is_flying)):
                if not is_kind(item.movement) or kind in began:
                    continue
                began[kind] = week.week.phase
                if len(began) == len({*began.values()}) + 1:
                    sentence = f"{item.name} is new in the phase '{week.week.phase}', and so is "
                    sentence += "eccentric hamstring work" if kind == "fast" else "the flying sprint"
                    yield self.breach(session.at_item(item), sentence, 1)


def _knows_one(problem: Problem) -> bool:
    """Whether a block before had either, so that at most one of them can be new."""
    done = problem.before.known_ids if problem.before is not None else frozenset[str]()
    return any(_is_eccentric(m) or is_flying(m) for m in problem.library if m.id in done)


def _is_eccentric(movement: Movement) -> bool:
    return movement.eccentric_hamstring


def _chosen(problem: Problem, pieces: Collection[str], kind: Callable[[Movement], bool]) -> list[Variable]:
    return [in_key(p, slot, m) for p, slot, m in problem.choices if p in pieces and kind(problem.library[m])]
