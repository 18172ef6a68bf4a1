"""What a rule is: rows for the solver, an audit of a finished block, and the words for the manual.

``rows`` and ``audit`` share no arithmetic: rows sum the Problem's per-set coefficients over variables; an audit counts
again from the printed items (``recount``). Each catches the other's mistake.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import ClassVar

from planner.domain.address import NOWHERE, Address
from planner.domain.athlete import Athlete
from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.variable import Term, in_key
from planner.rules.loosening import Loosening, Step
from planner.rules.places import DAY_NAMES, day_of, named, places_in_words
from planner.rules.recount import CountedItem, CountedSession, CountedWeek, Plan
from planner.rules.wording import listed

Keys = tuple[str | int, ...]  # a field of the athlete's file, from the top
RowKey = tuple[str, Address, Address | None, bool, bool]


@dataclass(frozen=True)
class Row:
    """low <= sum of coefficient x variable <= high, in whole numbers; ``price`` > 0: may be missed at that price.

    ``at``: what the row is about; ``other``: the second of two days or weeks that it compares.
    """

    rule: str
    at: Address
    terms: tuple[Term, ...]
    low: int | None
    high: int | None
    price: int = 0
    other: Address | None = None

    @property
    def key(self) -> RowKey:
        """What tells it from every other row, whatever its limits and terms become."""
        return self.rule, self.at, self.other, self.low is None, self.high is None

    @property
    def days(self) -> set[tuple[int | None, int | None]]:
        """(week, slot) of the days that it is about; None where a place is no single day."""
        return {(place.week, place.slot) for place in (self.at, self.other) if place is not None}

    @property
    def name(self) -> str:
        return "/".join(str(part) for part in (self.rule, self.at, self.other) if part is not None)


@dataclass(frozen=True)
class Breach:
    """A rule that a block does not keep: where, the sentence with the real numbers, and by how much in its unit."""

    rule: str
    at: Address
    sentence: str
    amount: float
    unit: str
    hard: bool = True


@dataclass(frozen=True)
class Blamed:
    """The rows of one rule that are part of a conflict.

    ``alone``: no other rule is in it. ``needs``: steps that would do, where minutes of one day are all that is short.
    """

    rows: Sequence[Row]
    problem: Problem
    alone: bool = False
    needs: tuple[Step, ...] = ()


class Rule(ABC):
    """One rule of the trade. Each subclass has a file of its own and is found by walking the folder."""

    id: ClassVar[str]
    title: ClassVar[str]
    says: ClassVar[str]  # the rule in a coach's words, for the manual
    source: ClassVar[str]
    unit: ClassVar[str]
    hard: ClassVar[bool] = True
    # Part of what a block is (variables hang together by it): never the one to blame when there is no block.
    structural: ClassVar[bool] = False
    # Long rows that are rarely tight: a search may leave them out first, and asks again where one is broken.
    seldom_tight: ClassVar[bool] = False
    # How many of the rows' whole numbers make one ``unit`` (60 seconds a minute, 4 quarter sets a set).
    row_units: ClassVar[int] = 1

    # Where no block is found:
    field: ClassVar[Keys] = ()  # the line of the athlete's file to look at
    often_to_blame: ClassVar[bool] = False  # what the file, the days and the required patterns say: asked first
    is_floor: ClassVar[bool] = False  # the least that a week holds: asked next
    spans_two_days: ClassVar[bool] = False  # its rows compare two days: both are what they are about
    moving_days_may_help: ClassVar[bool] = False
    leaving_out_matches_may_help: ClassVar[bool] = False
    # How it may be loosened:
    always_loosened: ClassVar[bool] = False  # also where it is not itself in the conflict
    loosened_in_the_file: ClassVar[bool] = False  # by lines of the athlete's file: ``changed`` writes them
    loosened_by_minutes: ClassVar[bool] = False  # of a training day

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

    def blamed(self, part: Blamed) -> Iterator[tuple[Keys, str]]:
        """What the rule asks where it is part of a conflict, and the line of the athlete's file that it asks it of."""
        yield self.field, f"{self.title}: {places_in_words([(row.at, row.other) for row in part.rows], part.problem)}"

    def loosenings(self, problem: Problem, row: Row) -> Iterator[Loosening]:
        """What a coach could change so that this row gives way: all of them together. None: it never gives way."""
        yield from ()

    def changed(self, problem: Problem, athlete: Athlete, steps: Sequence[Step]) -> Athlete:
        """``athlete`` after these steps of this rule. ``problem``: the one that the steps were found for."""
        return athlete

    def change_in_words(self, steps: Sequence[Step], problem: Problem) -> str:
        """These steps of this rule, as a coach would be told them."""
        raise NotImplementedError(f"{self.id} offers no loosening")

    def row(
        self,
        at: Address,
        terms: list[Term],
        low: int | None = None,
        high: int | None = None,
        price: int = 0,
        other: Address | None = None,
    ) -> Row:
        return Row(self.id, at, tuple(terms), low, high, price, other)

    def breach(self, at: Address, sentence: str, amount: float) -> Breach:
        return Breach(self.id, at, sentence, amount, self.unit, self.hard)


class ClosingRule(Rule):
    """A rule that closes movements to this athlete altogether, with the reason for each."""

    unit = "movements"
    often_to_blame = True
    may_be_opened: ClassVar[bool] = False  # by the coach

    @abstractmethod
    def reason(self, problem: Problem, movement: Movement) -> str | None:
        """Why the movement is closed, as the end of a sentence that begins with its name; None where it is open."""

    def rows(self, problem: Problem) -> Iterator[Row]:
        closed = {m.id for m in problem.movements if self.reason(problem, m) is not None}
        for phase, slot, movement in choices(problem):
            if movement in closed:
                at = Address(phase=phase, slot=slot, movement=movement)
                yield self.row(at, [(1, in_key(phase, slot, movement))], high=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for _, session, item in plan.working_items():
            reason = self.reason(plan.problem, item.movement)
            if reason is not None:
                yield self.breach(session.at_item(item), f"{item.name} {reason}", 1)

    def blamed(self, part: Blamed) -> Iterator[tuple[Keys, str]]:
        """The closed movements, together where the reason is the same."""
        reasons: dict[str, list[str]] = {}
        for movement in sorted(closed_by_rows(part.rows)):
            closed = part.problem.library[movement]
            reasons.setdefault(self.reason(part.problem, closed) or "", []).append(closed.name)
        said = "; ".join(f"{named(names)} {reason}" for reason, names in reasons.items())
        first = part.problem.library[closed_by_rows(part.rows)[0]]
        yield self.closing_field(part.problem, first), f"{self.title}: {said}"

    def closing_field(self, problem: Problem, movement: Movement) -> Keys:
        """The line of the athlete's file that closes this movement."""
        return self.field

    def opens_for(self, problem: Problem) -> bool:
        """Whether a coach may open a movement that the rule closes to this athlete."""
        return self.may_be_opened

    def loosenings(self, problem: Problem, row: Row) -> Iterator[Loosening]:
        if self.opens_for(problem):
            yield Loosening(self.id, Address(movement=row.at.movement), 1, problem.template.changes.movement)

    def change_in_words(self, steps: Sequence[Step], problem: Problem) -> str:
        closed = [problem.library[step.at.movement or ""] for step in steps]
        return listed([f"open {movement.name} (it {self.reason(problem, movement)})" for movement in closed])


def days_too_close(kind: str, dates_apart: int, part: Blamed) -> str:
    """The pairs of days in a conflict that lie closer than a rule of two days allows."""
    days = [(row.at.slot, row.other.slot if row.other else None) for row in part.rows]
    names = [[DAY_NAMES[day_of(part.problem, slot)] for slot in pair if slot] for pair in dict.fromkeys(days)]
    pairs = list(dict.fromkeys(" and ".join(pair) for pair in names))
    return f"{kind} lie {dates_apart} dates apart, and {listed(pairs)} are closer"


def coachs_word(rule: ClosingRule, steps: Sequence[Step], problem: Problem) -> str:
    """For rules whose movements are opened one by one, by the athlete's ``allow``."""
    closed = [problem.library[step.at.movement or ""] for step in steps]
    said = [f"{movement.name}, which {rule.reason(problem, movement)}" for movement in closed]
    return f"a coach's word (allow) for {listed(said)}"


def closed_by_rows(rows: Sequence[Row]) -> list[str]:
    """The movements that rows of a closing rule close, in their order."""
    return list(dict.fromkeys(row.at.movement or "" for row in rows))


def choices(problem: Problem) -> list[tuple[str, int, str]]:
    """Every (phase, slot, movement) that the solver may choose, in canonical order."""
    cached = problem.memo.get("choices")
    if cached is None:
        cached = [
            (phase.id, slot, entry.movement.id)
            for phase in problem.phases
            for slot in phase.slots
            for entry in problem.entries[phase.weeks[0], slot]
            if entry.movement.id != problem.retest.id
        ]
        problem.memo["choices"] = cached
    return cached  # type: ignore[return-value]


__all__ = [
    "NOWHERE",
    "Address",
    "Blamed",
    "Breach",
    "ClosingRule",
    "CountedItem",
    "CountedSession",
    "CountedWeek",
    "Keys",
    "Loosening",
    "Plan",
    "Row",
    "Rule",
    "Step",
    "Term",
    "choices",
    "coachs_word",
    "days_too_close",
]
