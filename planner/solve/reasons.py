"""What changes in the rest of a running block, each with the rule that the block in use would break there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from planner.domain.block import Block
from planner.domain.movement import Movement
from planner.domain.terms import DAYS, Day
from planner.problem.model import Problem
from planner.problem.training_days import Phase
from planner.problem.variable import Values, Variable, in_key, sets_key, takes_key
from planner.rules.registry import gather_rows, rule_named
from planner.solve.from_block import movements_of
from planner.solve.next_best import closed_by
from planner.solve.past import planned_values
from planner.solve.shortfalls import units_missed
from planner.solve.shortlist import only

FOLLOWS = "so that the rest fits together"
LIGHT = "the first session back after days lost is light"
EASY = "the week after days lost is easy"


@dataclass(frozen=True)
class Change:
    """On a weekday in these weeks: a movement that leaves (``out``) or is new (``into``), or other sets of one.

    Movements by the name that is printed. ``sets``: before and after, of one week. ``shape``: the day's kind of
    session, where that is another.
    """

    weeks: tuple[int, ...]
    day: Day
    because: str
    out: str | None = None
    into: str | None = None
    sets: tuple[int, int] | None = None
    shape: str | None = None


def changes_with_reasons(problem: Problem, old_block: Block, new: Values) -> list[Change]:
    """Every change of the rest, in order of week and weekday. ``problem``: with the past of the block in use."""
    old = planned_values(problem, old_block)
    why = _Why(problem, old)
    found: list[Change] = []
    for slot in problem.slots:
        for phase in (p for p in problem.phases if slot.number in p.slots):
            found += _movements(problem, phase, slot.number, slot.day, old, new, why)
            found += _sets(problem, phase, slot.number, slot.day, old, new, why)
        found += _shapes(problem, slot.number, slot.day, old, new, why)
    return sorted(_joined(found), key=lambda one: (one.weeks, DAYS.index(one.day), one.sets is not None))


def broken_rules(problem: Problem, block: Block) -> list[str]:
    """Titles of the hard rules that the rest of the block in use does not keep."""
    rest = only(problem, movements_of(block) & set(problem.library.movements))
    old = planned_values(rest, block)
    broken = (row for row in gather_rows(rest) if not row.price and units_missed(row, old))
    return list(dict.fromkeys(rule_named(row.rule).title for row in broken))


class _Why:
    """The rules that the block in use would break, by the variables that they count."""

    def __init__(self, problem: Problem, old: Mapping[Variable, int]) -> None:
        self._problem = problem
        self._rules: dict[Variable, dict[str, None]] = {}
        for row in gather_rows(problem):
            if units_missed(row, old):
                for _, key in row.terms:
                    self._rules.setdefault(key, {})[rule_named(row.rule).title] = None

    def of(self, *keys: Variable) -> str:
        if any((key.at.week, key.at.slot) == self._problem.light for key in keys):
            return LIGHT
        if any(key.at.week in self._problem.easy_weeks for key in keys):
            return EASY
        titles = list(dict.fromkeys(title for key in keys for title in self._rules.get(key, ())))
        return f"'{titles[0]}'" if titles else FOLLOWS

    def leaves(self, movement: Movement, *keys: Variable) -> str:
        closed = closed_by(self._problem, movement)
        return f"it {closed[0][1]}" if closed else self.of(*keys)


def _movements(
    problem: Problem, phase: Phase, slot: int, day: Day, old: Values, new: Values, why: _Why
) -> Iterator[Change]:
    """Each movement that leaves with one of the same part that comes for it, where there is one."""
    both = [(m, in_key(phase.id, slot, m.id)) for m in problem.movements_on(phase, slot)]
    gone = [m for m, key in both if key not in problem.past and old[key] and not new[key]]
    come = [m for m, key in both if key not in problem.past and new[key] and not old[key]]
    for movement in gone:
        instead = _nearest(problem, movement, come)
        if instead is not None:
            come.remove(instead)
        because = why.leaves(movement, *_keys(phase, slot, movement))
        yield Change(phase.weeks, day, because, movement.name, instead.name if instead else None)
    for movement in come:
        yield Change(phase.weeks, day, why.of(*_keys(phase, slot, movement)), None, movement.name)


def _keys(phase: Phase, slot: int, movement: Movement) -> list[Variable]:
    return [in_key(phase.id, slot, movement.id), *(sets_key(week, slot, movement.id) for week in phase.weeks)]


def _nearest(problem: Problem, movement: Movement, come: list[Movement]) -> Movement | None:
    """Of the same family, else of the same part."""
    families = problem.library.families
    alike = [one for one in come if families[one.id] == families[movement.id]]
    return next(iter([*alike, *(one for one in come if one.part == movement.part)]), None)


def _sets(problem: Problem, phase: Phase, slot: int, day: Day, old: Values, new: Values, why: _Why) -> Iterator[Change]:
    for movement in problem.movements_on(phase, slot):
        stays = in_key(phase.id, slot, movement.id)
        for week in phase.weeks:
            key = sets_key(week, slot, movement.id)
            if key not in problem.past and old[stays] and new[stays] and old[key] != new[key]:
                yield Change((week,), day, why.of(key), movement.name, None, (old[key], new[key]))


def _shapes(problem: Problem, slot: int, day: Day, old: Values, new: Values, why: _Why) -> Iterator[Change]:
    weeks = tuple(week for week in problem.weeks if slot in problem.slots_of(week) and week != problem.last_week)
    for shape_id, shape in {shape.id: shape for shape in problem.shapes}.items():
        key = takes_key(slot, shape_id)
        if key not in problem.past and weeks and new[key] and not old[key]:
            yield Change(weeks, day, why.of(key), shape=shape.name)


def _joined(changes: list[Change]) -> list[Change]:
    """The same change in weeks that follow each other is one change."""
    found: dict[Change, list[int]] = {}
    for change in changes:
        found.setdefault(replace(change, weeks=()), []).extend(change.weeks)
    return [replace(change, weeks=tuple(sorted(weeks))) for change, weeks in found.items()]
