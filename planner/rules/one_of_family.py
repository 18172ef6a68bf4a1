"""One movement of a family in a session."""

from __future__ import annotations

from collections.abc import Iterator

from planner.problem.model import Problem
from planner.problem.variable import in_key
from planner.rules.rule import Address, Breach, Plan, Row, Rule, Term


class OneOfFamily(Rule):
    id = "one-of-family"
    title = "One of a family per session"
    says = "A session has at most one movement of each library family: two names for the same work add nothing."
    source = "common practice, no source"
    unit = "movements"

    def rows(self, problem: Problem) -> Iterator[Row]:
        families: dict[tuple[str, int, str], list[Term]] = {}
        for phase, slot, movement in problem.choices:
            family = problem.library.families[movement]
            families.setdefault((phase, slot, family), []).append((1, in_key(phase, slot, movement)))
        for (phase, slot, family), terms in families.items():
            if len(terms) > 1:
                yield self.row(Address(phase=phase, slot=slot, of=family), terms, high=1)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for session in plan.sessions:
            seen: dict[str, str] = {}
            for item in session.items:
                family = plan.problem.library.families.get(item.movement.id)
                if family is not None and family in seen:
                    sentence = f"{session.where} has {seen[family]} and {item.name}, both of the family '{family}'"
                    yield self.breach(session.at_item(item), sentence, 1)
                if family is not None:
                    seen[family] = item.name
