"""What a rule is: rows for the solver, an audit of a finished block, and the words for the manual.

``rows`` and ``audit`` share no arithmetic: rows sum the Problem's per-set coefficients over variables; an audit counts
again from the printed items (``recount``). Each catches the other's mistake.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import ClassVar

from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.problem.model import Problem, in_key
from planner.rules.recount import CountedItem, CountedSession, CountedWeek, Plan

Term = tuple[int, str]


@dataclass(frozen=True)
class Row:
    """low <= sum of coefficient x variable <= high, in whole numbers; ``price`` > 0: may be missed at that price."""

    rule: str
    scope: str
    terms: tuple[Term, ...]
    low: int | None
    high: int | None
    price: int = 0


@dataclass(frozen=True)
class Breach:
    """A rule not kept by a block: where, the sentence with the real numbers, and by how much in the rule's unit."""

    rule: str
    where: str
    sentence: str
    amount: float
    unit: str
    hard: bool = True


class Rule(ABC):
    """One rule of the trade. Subclasses stand one to a file and are found by walking the folder."""

    id: ClassVar[str]
    title: ClassVar[str]
    says: ClassVar[str]  # the rule in a coach's words, for the manual
    source: ClassVar[str]
    unit: ClassVar[str]
    hard: ClassVar[bool] = True
    # Part of what a block is (variables hang together by it): never the one to blame when there is no block.
    structural: ClassVar[bool] = False
    # Long rows that seldom stand in the way: a search may leave them out first, and asks again where one is broken.
    seldom_tight: ClassVar[bool] = False
    # So many of the rows' whole numbers make one ``unit`` (60 seconds a minute, 4 quarter sets a set).
    row_units: ClassVar[int] = 1

    @abstractmethod
    def rows(self, problem: Problem) -> Iterator[Row]:
        """The rule as linear rows over the problem's variables."""

    @abstractmethod
    def audit(self, plan: Plan) -> Iterator[Breach]:
        """Every place where a finished block breaks the rule, counted from the block alone."""

    def figures(self, template: Template) -> str:
        """The limits that the template sets this rule, with their units, for the manual; empty where it sets none."""
        return ""

    def price(self, template: Template) -> dict[str, int]:
        """Points that one unit missed costs a block, by unit ("contact"); a hard rule is not missed and has none."""
        return {}

    def at_limit(self, row: Row) -> str | None:
        """What a row at its limit means, in words; None where its sum says it ("at most 3 sets")."""
        return None

    def row(
        self, scope: str, terms: list[Term], low: int | None = None, high: int | None = None, price: int = 0
    ) -> Row:
        return Row(self.id, scope, tuple(terms), low, high, price)

    def breach(self, where: str, sentence: str, amount: float) -> Breach:
        return Breach(self.id, where, sentence, amount, self.unit, self.hard)


class ClosingRule(Rule):
    """A rule that closes movements to this athlete altogether, with the reason for each."""

    unit = "movements"

    @abstractmethod
    def reason(self, problem: Problem, movement: Movement) -> str | None:
        """Why the movement is closed, as the end of a sentence that begins with its name; None where it is open."""

    def rows(self, problem: Problem) -> Iterator[Row]:
        closed = {m.id for m in problem.movements if self.reason(problem, m) is not None}
        for phase, slot, movement in choices(problem):
            if movement in closed:
                yield self.row(f"{phase}/d{slot}/{movement}", [(1, in_key(phase, slot, movement))], high=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for _, session, item in plan.working_items():
            reason = self.reason(plan.problem, item.movement)
            if reason is not None:
                yield self.breach(session.where, f"{item.name} {reason}", 1)


def choices(problem: Problem) -> list[tuple[str, int, str]]:
    """Every (phase, slot, movement) that the solver may choose, in canonical order."""
    cached = problem.memo.get("choices")
    if cached is None:
        cached = [
            (phase.id, slot.number, entry.movement.id)
            for phase in problem.phases
            for slot in problem.slots
            for entry in problem.entries[phase.weeks[0], slot.number]
            if entry.movement.id != problem.retest.id
        ]
        problem.memo["choices"] = cached
    return cached  # type: ignore[return-value]


def per_session(
    plan: Plan, measure: Callable[[CountedSession], float]
) -> Iterator[tuple[CountedWeek, CountedSession, float]]:
    for week in plan.weeks:
        for session in week.sessions:
            yield week, session, measure(session)


__all__ = [
    "Breach",
    "ClosingRule",
    "CountedItem",
    "CountedSession",
    "CountedWeek",
    "Plan",
    "Row",
    "Rule",
    "Term",
    "choices",
    "per_session",
]
