"""A finished block back into values of variables: where "fewest changes" starts, and what a rule is tried on."""

from __future__ import annotations

from planner.domain.block import Block
from planner.domain.terms import DAYS
from planner.problem.model import RETEST, Problem
from planner.problem.variable import Values, Variable, hard_key, in_key, sets_key, takes_key
from planner.solve.variable_ranges import variable_ranges


def block_values(block: Block, problem: Problem) -> Values:
    """Values for every variable of ``problem``, by week number and weekday; what it has none for is left."""
    values = dict.fromkeys(variable_ranges(problem), 0)
    slots = {slot.day: slot.number for slot in problem.slots}
    for week in block.weeks:
        for session in week.sessions:
            slot = slots.get(DAYS[session.date.weekday()])
            if slot is None or week.number not in problem.weeks:
                continue
            _set(values, takes_key(slot, session.focus), 1)
            _set(values, hard_key(week.number, slot), int(session.hard_day))
            for item in session.items:
                key = sets_key(week.number, slot, item.movement)
                _set(values, key, item.sets + (values.get(key, 0) if item.movement == RETEST else 0))
                _set(values, in_key(problem.phase_of(week.number), slot, item.movement), 1)
    return values


def chosen_in(block: Block, problem: Problem) -> frozenset[Variable]:
    """Keys of the movements that stand on a day of a phase."""
    slots = {slot.day: slot.number for slot in problem.slots}
    return frozenset(
        in_key(week.phase, slots[DAYS[session.date.weekday()]], item.movement)
        for week in block.weeks
        for session in week.sessions
        for item in session.items
        if DAYS[session.date.weekday()] in slots
    )


def movements_of(block: Block) -> set[str]:
    return {item.movement for week in block.weeks for session in week.sessions for item in session.items}


def _set(values: Values, key: Variable, value: int) -> None:
    if key in values:
        values[key] = value
