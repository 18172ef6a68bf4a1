"""Which breaches of a revised block only its past can be to blame for: by rule and by place, never by rule alone."""

from __future__ import annotations

from collections.abc import Sequence

from planner.domain.block import Block
from planner.problem.model import Problem
from planner.rules.rule import Address, Breach, Row

Place = tuple[frozenset[int], int | None]  # weeks, none of them where it names no week; training day
MEANT = ("movement", "of", "joint", "leg")


class Forced:
    """The rows that a revised block breaks since they count what was done."""

    def __init__(self, rows: Sequence[Row], block: Block, problem: Problem) -> None:
        self._rows, self._problem = rows, problem
        self._sessions = {session.id: (week.number, session.date) for week in block.weeks for session in week.sessions}

    def excuses(self, breach: Breach) -> bool:
        """Whether one of the rows is of the breach's rule and about its place."""
        places = (at for row in self._rows if row.rule == breach.rule for at in (row.at, row.other) if at is not None)
        return any(self._is_there(breach.at, at) for at in places)

    def _is_there(self, one: Address, other: Address) -> bool:
        (weeks, slot), (other_weeks, other_slot) = self._place(one), self._place(other)
        if weeks and other_weeks and not weeks & other_weeks:
            return False
        named = [(slot, other_slot), *((getattr(one, field), getattr(other, field)) for field in MEANT)]
        return all(a is None or b is None or a == b for a, b in named)

    def _place(self, at: Address) -> Place:
        if at.session in self._sessions:
            week, date = self._sessions[at.session]
            return frozenset({week}), self._problem.slot_on(week, date)
        if at.week is not None:
            return frozenset({at.week}), at.slot
        weeks = next((phase.weeks for phase in self._problem.phases if phase.id == at.phase), ())
        return frozenset(weeks), at.slot
