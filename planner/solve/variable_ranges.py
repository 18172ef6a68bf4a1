"""The solver's variables and their ranges."""

from __future__ import annotations

from planner.problem.model import Problem
from planner.problem.variable import Variable, hard_key, in_key, takes_key


def variable_ranges(problem: Problem) -> dict[Variable, tuple[int, int]]:
    """Every variable of the block with its range, in canonical order (the order is part of repeatability).

    What was done of a revised block, or is kept as a coach changed it, has one value.
    """
    ranges: dict[Variable, tuple[int, int]] = {}
    for slot in problem.slots:
        for shape in dict.fromkeys(s.id for s in problem.shapes):
            ranges[takes_key(slot.number, shape)] = (0, 1)
    for phase, slot_number, movement in problem.choices:
        ranges[in_key(phase, slot_number, movement)] = (0, 1)
    for week in problem.weeks:
        for day in problem.slots_of(week):
            if not problem.is_test_day(week, day):
                ranges[hard_key(week, day)] = (0, 1)
            for entry in problem.entries[week, day]:
                fixed = entry.movement.id == problem.retest.id
                ranges[entry.key] = (entry.dosage.low_sets if fixed else 0, entry.dosage.high_sets)
    known = {**problem.kept, **problem.past}
    return {key: (known[key], known[key]) if key in known else both for key, both in ranges.items()}
