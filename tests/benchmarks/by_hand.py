"""A block filled in as a coach would by hand: phase by phase, day by day, from the first line down, nothing repaired.

Movements: each part of a session takes its least number, then more while a pattern is missing that the week asks for,
or a band is out of reach; the fittest first, one of a family, nothing that is closed to the athlete. Sets: the least of
the wave, then one more wherever that brings the week nearest to the middles of its bands, while the day's minutes last.
The coach knows bands and shapes, and does not go back to mend growth, joint stress, hours between or the taper.
"""

from __future__ import annotations

from planner.domain.movement import Movement
from planner.domain.template import Shape
from planner.domain.terms import TIERS
from planner.problem.model import Entry, Problem, Range
from planner.problem.per_set import (
    PerSet,
    approach_contacts,
    contacts,
    once_seconds,
    quarter_sets,
    sprints,
    tier_contacts,
)
from planner.problem.training_days import Phase
from planner.problem.variable import Values, in_key, takes_key
from planner.rules.pattern_cover import required
from planner.rules.registry import all_rules
from planner.rules.rule import ClosingRule
from planner.rules.session_shape import home
from planner.solve.preferences import movement_cost
from planner.solve.variable_ranges import variable_ranges

Chosen = dict[int, list[Movement]]  # by training day


def by_hand(problem: Problem) -> Values:
    """Values of the block's variables; hard days are left at 0."""
    values = dict.fromkeys(variable_ranges(problem), 0)
    usual = dict(zip((slot.number for slot in problem.slots), problem.shapes, strict=False))
    for slot, shape in usual.items():
        values[takes_key(slot, shape.id)] = 1
    for phase in problem.phases:
        shapes = problem.test_week_shapes if problem.last_week in phase.weeks else usual
        chosen = _choose(problem, phase, shapes)
        values |= {in_key(phase.id, slot, m.id): 1 for slot, movements in chosen.items() for m in movements}
        for week in phase.weeks:
            values |= _sets(problem, week, chosen, shapes)
    values |= {entry.key: entry.dosage.low_sets for entry in problem.entries[problem.last_week, problem.test_slot]}
    return values


def _choose(problem: Problem, phase: Phase, shapes: dict[int, Shape]) -> Chosen:
    usable = _usable(problem, phase)
    chosen: Chosen = {slot: [] for slot in shapes}
    for slot, shape in shapes.items():
        for part in shape.parts:
            fitting = [m for m in usable if home(shape, m) is part]
            for number in range(part.items[1]):
                free = [m for m in fitting if _new_family(problem, m, chosen[slot])]
                best = _next(problem, phase, chosen, free, must=number < part.items[0])
                if best is None or len(chosen[slot]) >= shape.items[1]:
                    break
                chosen[slot].append(best)
    return chosen


def _next(problem: Problem, phase: Phase, chosen: Chosen, free: list[Movement], must: bool) -> Movement | None:
    """What the coach writes down next; None where nothing is needed, unless the part ``must`` have one more."""
    fullest = max(phase.weeks, key=lambda week: problem.bands[week].contacts.high)
    held = {pattern for movements in chosen.values() for m in movements for pattern in m.patterns}
    missing = set(required(problem, phase.weeks[0])) - held
    short = _short(problem, fullest, chosen)
    wanted = [m for m in free if must or missing & set(m.patterns) or m.id in short]
    order = {m.id: (-len(missing & set(m.patterns)), m.id not in short, _cost(problem, m)) for m in wanted}
    return min(wanted, key=lambda m: order[m.id], default=None)


def _short(problem: Problem, week: int, chosen: Chosen) -> set[str]:
    """Movements that add to what the week cannot reach the middle of, with the most sets of all that is chosen."""
    held = [e for slot, ms in chosen.items() for e in problem.entries[week, slot] if e.movement in ms]
    found: set[str] = set()
    for per_set, band in _aims(problem, week):
        if sum(per_set(e) * e.dosage.high_sets for e in held) < (band.low + band.high) / 2:
            found |= {e.movement.id for e in problem.week_entries(week) if per_set(e)}
    return found


def _cost(problem: Problem, movement: Movement) -> tuple[bool, int, str]:
    """Lifts that train their quality first of all before others, then what fits the athlete, then the id."""
    return (
        movement.kind == "lift" and 3 not in movement.qualities.values(),
        movement_cost(problem, movement),
        movement.id,
    )


def _usable(problem: Problem, phase: Phase) -> list[Movement]:
    """Open to the athlete, and with sets in the first week of the phase."""
    closing = [rule for rule in all_rules() if isinstance(rule, ClosingRule)]
    dosed = {e.movement.id for e in problem.week_entries(phase.weeks[0]) if e.dosage.high_sets}
    highest = TIERS.index(problem.level.highest_tier)
    return [
        m
        for m in problem.movements
        if m.id in dosed
        and (m.jump is None or TIERS.index(m.jump.tier) <= highest)
        and not any(rule.reason(problem, m) for rule in closing)
    ]


def _new_family(problem: Problem, movement: Movement, held: list[Movement]) -> bool:
    families = problem.library.families
    return families[movement.id] not in {families[other.id] for other in held}


def _sets(problem: Problem, week: int, chosen: Chosen, shapes: dict[int, Shape]) -> dict[str, int]:
    entries = [
        entry
        for slot, movements in chosen.items()
        for entry in problem.entries[week, slot]
        if entry.movement in movements and entry.barred is None
    ]
    sets = {entry.key: entry.dosage.low_sets for entry in entries}
    while True:
        now = _distance(problem, week, entries, sets)
        better = [
            (_distance(problem, week, entries, {**sets, e.key: sets[e.key] + 1}), e.key.name, e.key)
            for e in entries
            if sets[e.key] < e.dosage.high_sets and _has_time(problem, e, entries, sets, shapes[e.slot])
        ]
        if not better or min(better)[0] >= now:
            return sets
        sets[min(better)[2]] += 1


def _distance(problem: Problem, week: int, entries: list[Entry], sets: dict[str, int]) -> float:
    """How far the week lies from the middles of its bands, each as a share of its middle, added up."""
    off = 0.0
    for per_set, band in _aims(problem, week):
        middle = (band.low + band.high) / 2
        off += abs(sum(per_set(e) * sets[e.key] for e in entries) - middle) / max(middle, 1)
    return off


def _aims(problem: Problem, week: int) -> list[tuple[PerSet, Range]]:
    bands = problem.bands[week]
    aims: list[tuple[PerSet, Range]] = [(quarter_sets(quality), band) for quality, band in bands.quarter_sets.items()]
    aims += [(tier_contacts(tier), band) for tier, band in bands.tiers.items()]
    return [*aims, (contacts, bands.contacts), (approach_contacts, bands.approach), (sprints, bands.sprints)]


def _has_time(problem: Problem, more: Entry, entries: list[Entry], sets: dict[str, int], shape: Shape) -> bool:
    """Whether the day has the minutes for one more set of ``more``."""
    minutes = next(slot.gym_minutes for slot in problem.slots if slot.number == more.slot)
    seconds = 60 * shape.warm_up_minutes + more.dosage.set_seconds + (0 if sets[more.key] else once_seconds(more))
    for entry in entries:
        if entry.slot == more.slot and sets[entry.key]:
            seconds += sets[entry.key] * entry.dosage.set_seconds + once_seconds(entry)
    return seconds <= 60 * minutes
