"""What a rule is: rows for the solver, an audit of a finished block, and words for the manual.

``rows`` and ``audit`` share no arithmetic: rows sum the Problem's per-set coefficients over variables, and the audit
counts the printed items (``recount``). Each catches the other's mistakes.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import ClassVar, Literal

from planner.domain.address import NOWHERE, Address
from planner.domain.athlete import Athlete
from planner.domain.measure import Test
from planner.domain.movement import Movement
from planner.domain.template import Template
from planner.problem.model import Problem
from planner.problem.variable import Term, in_key
from planner.rules.figure_words import listed
from planner.rules.places import DAY_NAMES, day_of, named, places_in_words
from planner.rules.recount import CountedItem, CountedSession, CountedWeek, Plan

MOST_REASONS = 6  # for closed movements; those closed for others are only counted
Keys = tuple[str | int, ...]  # a field of the athlete's file, from the top
RowKey = tuple[str, Address, Address | None, bool, bool]
# What a coach may do about one practice or match, or about all practices, where a rule has no room next to it.
Ease = Literal["medium practice", "no practice", "no match", "half practices", "no practices"]


@dataclass(frozen=True)
class Row:
    """low <= sum of coefficient x variable <= high, in whole numbers. ``price`` > 0: a miss is allowed at this price.

    ``at``: what the row is about; ``other``: the second day or week, if it compares two.
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
        """Identifies the row, whatever its limits and terms become."""
        return self.rule, self.at, self.other, self.low is None, self.high is None

    @property
    def days(self) -> set[tuple[int | None, int | None]]:
        """(week, slot) of the days that it is about; None if it is not about a single week or day."""
        return {(place.week, place.slot) for place in (self.at, self.other) if place is not None}

    @property
    def name(self) -> str:
        return "/".join(str(part) for part in (self.rule, self.at, self.other) if part is not None)


@dataclass(frozen=True)
class Breach:
    """Where a block breaks a rule, with the real numbers in a sentence, and by how much in the rule's unit."""

    rule: str
    at: Address
    sentence: str
    amount: float
    unit: str
    hard: bool = True


@dataclass(frozen=True)
class Loosening:
    """Something a coach could change so that a row gives way: by up to ``most`` steps, at ``price`` points each.

    ``size``: how far one step moves the row's limit, in the row's whole numbers.
    """

    rule: str
    at: Address
    size: int
    price: int
    most: int = 1


@dataclass(frozen=True)
class Step:
    """A loosening used ``amount`` times: minutes, quarter sets, contacts, or 1 for what is there or not."""

    rule: str
    at: Address
    amount: int


@dataclass(frozen=True)
class Blamed:
    """The rows of one rule that are part of a conflict.

    ``alone``: it is the only rule there. ``needs``: the steps that suffice, if only minutes of one day are short.
    """

    rows: Sequence[Row]
    problem: Problem
    alone: bool = False
    needs: tuple[Step, ...] = ()


class Rule(ABC):
    """One rule of coaching. Each subclass has its own file, which the registry finds."""

    id: ClassVar[str]
    title: ClassVar[str]
    says: ClassVar[str]  # in a coach's words, for the manual
    source: ClassVar[str]
    unit: ClassVar[str]
    hard: ClassVar[bool] = True
    # Defines what a block is, by linking its variables: never blamed when there is no block.
    structural: ClassVar[bool] = False
    # Long rows that are rarely tight: a search may first leave them out, and add them if its block breaks one.
    seldom_tight: ClassVar[bool] = False
    # How many of the rows' whole numbers make one ``unit`` (60 seconds in a minute, 4 quarter sets in a set).
    row_units: ClassVar[int] = 1

    # If no block is found:
    field: ClassVar[Keys] = ()  # the line of the athlete's file to look at
    often_to_blame: ClassVar[bool] = False  # the athlete's file, the days, the required patterns: checked first
    is_floor: ClassVar[bool] = False  # the least that a week holds: checked next
    spans_two_days: ClassVar[bool] = False  # its rows are about two days each
    moving_days_may_help: ClassVar[bool] = False
    sport_to_ease: ClassVar[tuple[Ease, ...]] = ()  # which changes of practices and matches may help
    # How it may be loosened:
    always_loosened: ClassVar[bool] = False  # even if it is not in the conflict
    loosened_in_the_file: ClassVar[bool] = False  # by lines of the athlete's file, which ``changed`` edits
    loosened_by_minutes: ClassVar[bool] = False  # of a training day

    @abstractmethod
    def rows(self, problem: Problem) -> Iterator[Row]:
        """The rule as linear rows over the problem's variables."""

    @abstractmethod
    def audit(self, plan: Plan) -> Iterator[Breach]:
        """Every place where a finished block breaks the rule, from the block alone."""

    def figures(self, template: Template) -> str:
        """The template's limits for this rule, with units, for the manual; empty if it has none."""
        return ""

    def price(self, template: Template) -> dict[str, int]:
        """Points that a block loses for each unit missed, by unit ("contact"); empty for a hard rule."""
        return {}

    def at_limit(self, row: Row) -> str | None:
        """What it means that a row is at its limit, in words; None if its sum says it ("at most 3 sets")."""
        return None

    def blamed(self, part: Blamed) -> Iterator[tuple[Keys, str]]:
        """What the rule demands where it is part of a conflict, with the line of the athlete's file to look at."""
        yield self.field, f"{self.title}: {places_in_words([(row.at, row.other) for row in part.rows], part.problem)}"

    def loosenings(self, problem: Problem, row: Row) -> Iterator[Loosening]:
        """What a coach could change so that this row gives way: all of it together. Nothing: it never gives way."""
        yield from ()

    def changed(self, problem: Problem, athlete: Athlete, steps: Sequence[Step]) -> Athlete:
        """The athlete after these steps of this rule. ``problem``: the one that the steps were found for."""
        return athlete

    def change_in_words(self, steps: Sequence[Step], problem: Problem) -> str:
        """These steps of this rule in a coach's words."""
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
    """A rule that closes movements to this athlete, each for a reason."""

    unit = "movements"
    often_to_blame = True
    may_be_opened: ClassVar[bool] = False  # by the coach
    allowed_one_by_one: ClassVar[bool] = False  # by the athlete's ``allow``

    @abstractmethod
    def reason(self, problem: Problem, movement: Movement) -> str | None:
        """Why the movement is closed, as the end of a sentence that begins with its name; None if it is open."""

    def rows(self, problem: Problem) -> Iterator[Row]:
        closed = {m.id for m in problem.movements if self.reason(problem, m) is not None}
        for choice in problem.choices:
            chosen = in_key(*choice)
            if chosen.at.movement in closed:
                yield self.row(chosen.at, [(1, chosen)], high=0)

    def audit(self, plan: Plan) -> Iterator[Breach]:
        for _, session, item in plan.working_items():
            reason = self.reason(plan.problem, item.movement)
            if reason is not None:
                yield self.breach(session.at_item(item), f"{item.name} {reason}", 1)

    def blamed(self, part: Blamed) -> Iterator[tuple[Keys, str]]:
        """The closed movements, grouped by reason."""
        closed = [part.problem.library[name] for name in dict.fromkeys(row.at.movement or "" for row in part.rows)]
        reasons: dict[str, list[str]] = {}
        for movement in sorted(closed, key=lambda movement: movement.id):
            reasons.setdefault(self.reason(part.problem, movement) or "", []).append(movement.name)
        said = [f"{named(names)} {reason}" for reason, names in list(reasons.items())[:MOST_REASONS]]
        left = sum(len(names) for names in list(reasons.values())[MOST_REASONS:])
        said += [f"{left} more for other reasons"] if left else []
        yield self.closing_field(part.problem, closed[0]), f"{self.title}: {'; '.join(said)}"

    def closing_field(self, problem: Problem, movement: Movement) -> Keys:
        """The line of the athlete's file that closes this movement."""
        return self.field

    def line_of_test(self, problem: Problem, closes: Callable[[Test], bool]) -> Keys:
        """The line of the first test that closes a movement, for rules whose field is the tests."""
        numbers = (number for number, test in enumerate(problem.athlete.tests) if closes(test))
        first = next(numbers, None)
        return self.field if first is None else (*self.field, first)

    def is_allowed(self, problem: Problem, movement: Movement) -> bool:
        """Whether the coach allows this movement in the athlete's file."""
        return any(allowance.movement == movement.id for allowance in problem.athlete.allow)

    def opens_for(self, problem: Problem) -> bool:
        """Whether a coach may open what the rule closes to this athlete."""
        return self.may_be_opened

    def loosenings(self, problem: Problem, row: Row) -> Iterator[Loosening]:
        if self.opens_for(problem):
            yield Loosening(self.id, Address(movement=row.at.movement), 1, problem.template.changes.movement)

    def change_in_words(self, steps: Sequence[Step], problem: Problem) -> str:
        closed = [problem.library[step.at.movement or ""] for step in steps]
        if self.allowed_one_by_one:
            return f"a coach's allowance for {listed(f'{m.name}, which {self.reason(problem, m)}' for m in closed)}"
        return listed(f"open {movement.name} (it {self.reason(problem, movement)})" for movement in closed)


def days_too_close(kind: str, days_apart: int, part: Blamed) -> str:
    """The pairs of days in a conflict that are closer than a rule of two days allows."""
    days = [(row.at.slot, row.other.slot if row.other else None) for row in part.rows]
    names = [[DAY_NAMES[day_of(part.problem, slot)] for slot in pair if slot] for pair in dict.fromkeys(days)]
    pairs = dict.fromkeys(" and ".join(pair) for pair in names)
    return f"{kind} must be {days_apart} days apart, and {listed(pairs)} are closer"


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
    "days_too_close",
]
