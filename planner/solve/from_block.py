"""A finished block as values of variables, from which "fewest changes" starts and on which rules are tried."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from planner.domain.block import Block, Session, Week
from planner.domain.terms import DAYS, Day
from planner.problem.model import RETEST, Problem
from planner.problem.training_days import Slot
from planner.problem.variable import Values, Variable, hard_key, in_key, sets_key, takes_key
from planner.solve.variable_ranges import variable_ranges

AS_THEY_ARE: Mapping[Day, Day] = MappingProxyType({})


def block_values(block: Block, problem: Problem, moved: Mapping[Day, Day] = AS_THEY_ARE) -> Values:
    """Values for every variable of ``problem``, by week and weekday; ``off_routine`` names what has none.

    ``moved``: weekdays that have become others from the problem's first whole week on.
    """
    values = dict.fromkeys(variable_ranges(problem), 0)
    for week, session, slot in _on_routine(block, problem, moved):
        _set(values, takes_key(slot, session.focus), 1)
        _set(values, hard_key(week.number, slot), int(session.hard_day))
        for item in session.items:
            key = sets_key(week.number, slot, item.movement)
            _set(values, key, item.sets + (values.get(key, 0) if item.movement == RETEST else 0))
            _set(values, in_key(problem.phase_of(week.number), slot, item.movement), 1)
    return values


def off_routine(block: Block, problem: Problem) -> list[Session]:
    """Sessions of the block outside the problem's weeks or training days."""
    kept = {session.id for _, session, _ in _on_routine(block, problem)}
    return [session for session in block.sessions if session.id not in kept]


def chosen_in(block: Block, problem: Problem) -> frozenset[Variable]:
    """What the block has on each day of each phase, as variables."""
    return frozenset(
        in_key(problem.phase_of(week.number), slot, item.movement)
        for week, session, slot in _on_routine(block, problem)
        for item in session.items
    )


def _on_routine(
    block: Block, problem: Problem, moved: Mapping[Day, Day] = AS_THEY_ARE
) -> Iterator[tuple[Week, Session, int]]:
    days = {(week, slot.day): slot.number for week in problem.weeks for slot in _slots(problem, week)}
    for week in block.weeks:
        for session in week.sessions:
            day = DAYS[session.date.weekday()]
            slot = problem.slot_on(week.number, session.date)
            slot = days.get((week.number, moved.get(day, day))) if slot is None else slot
            if slot is not None:
                yield week, session, slot


def _slots(problem: Problem, week: int) -> list[Slot]:
    return [slot for slot in problem.slots if week in problem.weeks and slot.number in problem.slots_of(week)]


def movements_of(block: Block) -> set[str]:
    return {item.movement for session in block.sessions for item in session.items}


def _set(values: Values, key: Variable, value: int) -> None:
    if key in values:
        values[key] = value
