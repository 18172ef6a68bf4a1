"""More minutes on the short days until there is a block, if what the parts of a block need is not enough.

The same movements are tried with each number of minutes. Only the rows of minutes differ, so the rest of the model is
built once. A yes holds for the whole library, and is checked against the rows of the athlete's changed file.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from functools import cached_property

from planner.domain.movement import Movement
from planner.problem.model import Problem
from planner.problem.variable import Values
from planner.rules.registry import gather_rows, rule_named
from planner.rules.rule import Loosening, Row
from planner.solve.budgets import FEW, MINUTES_BUDGET, Few, FIRST_MORE_minutes, MOST_MORE_minutes
from planner.solve.feasibility import Asker, Budget, Frame, simplified
from planner.solve.loosened_rows import Offers, Rebuild, Steps, after, eased, opened
from planner.solve.refute import holds_with_few, rows_of
from planner.solve.row_index import RowIndex
from planner.solve.shortlist import open_library, shortlist
from planner.solve.variable_ranges import variable_ranges


def more_minutes(
    problem: Problem, hard: Sequence[Row], offered: Offers, steps: Mapping[Loosening, int], rebuild: Rebuild | None
) -> Steps | None:
    """The steps, with the fewest extra minutes found to give a block; None if none do.

    Minutes are doubled until they are enough, then halved between the last too few and the first enough.
    """
    start = _shared(problem, offered, steps)
    search = _Search(problem, hard, offered, start, rebuild)
    low, high = 0, FIRST_MORE_minutes
    while not search.enough(high):
        low, high = high, 2 * high
        if high > MOST_MORE_minutes:
            return None
    high = max(low + 1, min(high, search.used()))
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if search.enough(middle) else (middle, high)
    return _longer(start, high)


class _Search:
    """Searches among a few movements after the first steps and some more minutes. ``point``: the last block found."""

    def __init__(
        self, problem: Problem, hard: Sequence[Row], offered: Offers, start: Steps, rebuild: Rebuild | None
    ) -> None:
        self.problem, self.offered, self.start, self.rebuild = problem, offered, start, rebuild
        other, left = after(problem, {one: n for one, n in start.items() if not _is_minutes(one)}, rebuild)
        self.asker = Asker(variable_ranges(other), Budget(0))
        rows = eased(hard if other is problem else gather_rows(other), offered, left)
        self.few = [_Some(self.asker, other, rows, opened(left), chosen) for chosen in FEW]
        self.whole = _Some(self.asker, other, rows, opened(left), None)
        self.minutes = [row for row in rows if _is_minutes(row)]
        self.point: Values = {}

    def enough(self, more: int) -> bool:
        """Whether there is a block with this many more minutes, also by the athlete's changed file."""
        steps = _longer(self.start, more)
        return self._found(steps) and self._keeps_the_file(steps)

    def _found(self, steps: Steps) -> bool:
        """Once some movements have given a block, only they are tried, and the whole library if they give none."""
        unsure = False
        for some in self.few:
            answer = self._ask(some, steps)
            if answer:
                self.few = [some]
                return True
            unsure = unsure or answer is None
        return not unsure and self._ask(self.whole, steps) is True

    def _ask(self, some: _Some, steps: Steps) -> bool | None:
        self.asker.budget.left = MINUTES_BUDGET
        answer = some.holds(self.offered, steps)
        if answer:
            self.point = self.asker.point
        return answer

    def used(self) -> int:
        """How many more minutes the last block found needs on its longest day."""
        needs = [0]
        for row in eased(self.minutes, self.offered, self.start):
            over = sum(c * self.point.get(key, 0) for c, key in row.terms) - (row.high or 0)
            needs.append(math.ceil(over / rule_named(row.rule).row_units))
        return max(needs)

    def _keeps_the_file(self, steps: Steps) -> bool:
        """Whether this block, or another, keeps the rows of the changed file: in a week with more minutes, some rows
        ask for more."""
        other, left = after(self.problem, steps, self.rebuild)
        rows = eased(gather_rows(other), self.offered, left)
        asker = Asker(variable_ranges(other), Budget(2 * MINUTES_BUDGET))
        if not RowIndex(rows, asker.ranges).broken(self.point):
            return True
        if not holds_with_few(asker, other, rows, MINUTES_BUDGET, opened(left)):
            return False
        self.point = asker.point
        return True


class _Some:
    """The rows over some movements (``chosen``: a shortlist; None: all open ones), with those of minutes apart."""

    def __init__(self, asker: Asker, problem: Problem, rows: Sequence[Row], more: set[str], chosen: Few | None) -> None:
        self.asker, self.problem, self.rows, self.more, self.chosen = asker, problem, rows, more, chosen

    def holds(self, offered: Offers, steps: Steps) -> bool | None:
        frame, minutes = self._built
        return False if frame is None else frame.holds(eased(minutes, offered, steps), MINUTES_BUDGET, quick=True)

    @cached_property
    def _built(self) -> tuple[Frame | None, list[Row]]:
        kept = rows_of(self.problem, self.rows, {movement.id for movement in self._movements()} | self.more)
        simple = simplified([row for row in kept if not _is_minutes(row)], self.asker.ranges)
        return simple and Frame(self.asker, simple[0]), [row for row in kept if _is_minutes(row)]

    def _movements(self) -> tuple[Movement, ...]:
        if self.chosen is None:
            return open_library(self.problem).movements
        alike, most, quickest = self.chosen
        return shortlist(self.problem, alike, most, quickest=quickest).movements


def _shared(problem: Problem, offered: Offers, steps: Mapping[Loosening, int]) -> Steps:
    """The same minutes on all days up to the length of those named, because no coach adds an hour to one day.

    If none is named, the shortest days get them.
    """
    minutes = {slot.number: slot.gym_minutes for slot in problem.slots}
    longer = {one: amount for one, amount in steps.items() if amount and _is_minutes(one)}
    most = max((minutes[one.at.slot or 0] for one in longer), default=min(minutes.values()))
    days = [one for found in offered.values() for one in found if _is_minutes(one)]
    short = [one for one in dict.fromkeys(days) if minutes[one.at.slot or 0] <= most]
    each = sum(longer.values()) // max(1, len(short))
    others = {one: amount for one, amount in steps.items() if not _is_minutes(one)}
    return {**others, **dict.fromkeys(short, each)}


def _is_minutes(of: Row | Loosening) -> bool:
    """Whether it belongs to the rule that more minutes on a day loosen."""
    return rule_named(of.rule).loosened_by_minutes


def _longer(steps: Mapping[Loosening, int], minutes: int) -> Steps:
    return {one: amount + (minutes if _is_minutes(one) else 0) for one, amount in steps.items()}
