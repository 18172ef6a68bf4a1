"""Work without a load: no reserve number, but repetitions, holds or tempo that rise; one leg as soon as one leg can."""

from __future__ import annotations

from collections.abc import Iterator

from planner.domain.block import Item
from tests.coach.block_read import Line, Read
from tests.coach.checking import Break, at, check

RAISES_OPEN_ONE_LEG = 15  # strict raises on one leg
ENOUGH_REPS, ENOUGH_HOLD_s = 15, 40  # beyond these a harder movement comes, not more of it
LEAST_WEEKS = 3  # load weeks of a phase in which something can rise
PARTS = ("main-lift", "one-leg", "hamstring", "calf")


def _unloaded(line: Line) -> bool:
    return line.movement.kind in ("lift", "hold") and not line.takes_load


@check("3", "a reserve number on work without a load, where nobody can know it")
def no_reserve_without_a_load(read: Read) -> Iterator[Break]:
    for line in read.where(_unloaded):
        if line.item.reps_in_reserve is not None:
            how = f"{line.item.hold_s} s" if line.item.hold_s else f"{line.item.reps} reps"
            yield at(line, f"{how} of body weight with {line.item.reps_in_reserve} left")


def _raises_on_one_leg(read: Read) -> bool:
    return (read.strict_raises() or 0) >= RAISES_OPEN_ONE_LEG and not read.pain("achilles-ankle")


@check("3", "calf work on two legs without a load for somebody who does 15 raises on one", to=_raises_on_one_leg)
def tested_raises_open_one_leg(read: Read) -> Iterator[Break]:
    for line in read.where(lambda line: line.item.part == "calf" and line.movement.legs == "both"):
        if _unloaded(line):
            yield at(line, f"two legs, body weight, for one who does {read.strict_raises():.0f} raises on one leg")


def _grown(first: Item, last: Item) -> bool:
    """Whether repetitions or the hold rose, or were long already."""
    if first.hold_s:
        return (last.hold_s or 0) > first.hold_s or first.hold_s >= ENOUGH_HOLD_s
    return (last.reps or 0) > (first.reps or 0) or (first.reps or 0) >= ENOUGH_REPS


@check("3", "work without a load of which neither repetitions nor holds rise through a phase")
def unloaded_work_rises(read: Read) -> Iterator[Break]:
    for phase in read.load_phases:
        if len(phase) < LEAST_WEEKS:
            continue
        firsts: dict[str, Line] = {}
        for line in read.where(_unloaded, phase):
            firsts.setdefault(line.item.movement, line)
        for line in read.of(phase[-1]):
            first = firsts.get(line.item.movement)
            if first is None or line.item.part not in PARTS or not _unloaded(line):
                continue
            lasted = line.week.number - first.week.number + 1 >= LEAST_WEEKS
            if lasted and not _grown(first.item, line.item):
                yield at(line, f"{_how(first.item)} in week {first.week.number}, {_how(line.item)} now, without a load")


def _how(item: Item) -> str:
    return f"{item.hold_s} s" if item.hold_s else f"{item.reps} reps"
