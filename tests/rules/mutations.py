"""Blocks near a given one, drawn by a seed: what a coach might try, within the waves of the template."""

from __future__ import annotations

import random
from collections.abc import Mapping

from planner.problem.model import Entry, Problem
from planner.problem.variable import Values, Variable, in_key, sets_key, takes_key

MOST_CHANGES = 6


def drawn(problem: Problem, values: Mapping[Variable, int], seed: int) -> Values:
    """The values after one to a few changes: a movement in or out, sets up or down, two days' shapes swapped."""
    draw = random.Random(seed)
    found = dict(values)
    for _ in range(draw.randint(1, MOST_CHANGES)):
        draw.choice((_sets, _sets, _add, _drop, _swap))(problem, found, draw)
    return found


def without_barred(problem: Problem, values: Mapping[Variable, int]) -> Values:
    """The values with no set on a date that bars it, and no movement that all its dates bar."""
    found = dict(values)
    for key in problem.entries:
        for entry in problem.entries[key]:
            if entry.barred:
                found[entry.key] = 0
    for phase, slot, movement in problem.choices:
        if found[in_key(phase, slot, movement)] and not any(
            found[entry.key] for entry in _entries(problem, phase, slot, movement)
        ):
            found[in_key(phase, slot, movement)] = 0
    return found


def _entries(problem: Problem, phase: str, slot: int, movement: str) -> list[Entry]:
    weeks = next(p.weeks for p in problem.phases if p.id == phase)
    return [e for week in weeks for e in problem.entries[week, slot] if e.movement.id == movement]


def _chosen(problem: Problem, values: Mapping[Variable, int]) -> list[tuple[str, int, str]]:
    return [choice for choice in problem.choices if values[in_key(*choice)]]


def _sets(problem: Problem, values: Values, draw: random.Random) -> None:
    chosen = _chosen(problem, values)
    if chosen:
        entries = [e for e in _entries(problem, *draw.choice(chosen)) if e.barred is None and e.dosage.high_sets]
        if entries:  # a kept block may hold what today's waves have no set of
            _dose(values, draw.choice(entries), draw)


def _add(problem: Problem, values: Values, draw: random.Random) -> None:
    choice = draw.choice(problem.choices)
    entries = [e for e in _entries(problem, *choice) if e.barred is None and e.dosage.high_sets]
    if entries:
        values[in_key(*choice)] = 1
        for entry in entries:
            _dose(values, entry, draw)
        values[entries[0].key] = max(1, values[entries[0].key])


def _drop(problem: Problem, values: Values, draw: random.Random) -> None:
    chosen = _chosen(problem, values)
    if chosen:
        phase, slot, movement = draw.choice(chosen)
        values[in_key(phase, slot, movement)] = 0
        for entry in _entries(problem, phase, slot, movement):
            values[sets_key(entry.week, slot, movement)] = 0


def _swap(problem: Problem, values: Values, draw: random.Random) -> None:
    one, other = draw.sample([slot.number for slot in problem.slots], 2)
    for shape in {shape.id for shape in problem.shapes}:
        keys = takes_key(one, shape), takes_key(other, shape)
        values[keys[0]], values[keys[1]] = values[keys[1]], values[keys[0]]


def _dose(values: Values, entry: Entry, draw: random.Random) -> None:
    values[entry.key] = draw.randint(entry.dosage.low_sets, entry.dosage.high_sets)
