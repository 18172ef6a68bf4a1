"""The last week: the day of the test, and the sessions on the days before it."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence

from planner.domain.findings import Finding, UserError
from planner.domain.template import Shape
from planner.problem.calendar import Slot, SportDay

Dates = Mapping[tuple[int, int], datetime.date]  # (week, slot)
# Parts of a session with landings.
JUMP_PARTS = ("landing", "skill", "approach-jump", "jump")


def closing_test_slot(slots: Sequence[Slot], weeks: int, away: frozenset[tuple[int, int]]) -> int:
    """The last free training day of the block. Raises UserError if the last week has none."""
    free = [slot.number for slot in slots if (weeks, slot.number) not in away]
    if free:
        return free[-1]
    message = "every training day of the last week is an away date, so the block has no day for its test"
    hint = "move the start with --start, or free a day"
    raise UserError([Finding("", 0, 0, "test-day", message, hint, keys=("training", "away"))])


def last_week_shapes(
    shapes: Sequence[Shape],
    dates: Dates,
    days: Sequence[int],
    test: tuple[int, int],
    sport: Mapping[datetime.date, SportDay],
    jump_days_apart: int | None,
) -> dict[int, Shape]:
    """The test week's shapes on its training ``days`` (slots); a day next to a match takes a primer or stays free.

    They are in the template's order, except that a young athlete's session with jumps swaps with one without if only
    that day is ``jump_days_apart`` from the week before and from the test (None: for adults, who need no distance).
    """
    week, _ = test
    on = {slot: dates[week, slot] for slot in days}
    left, found = list(shapes), {}
    for slot, date in on.items():
        primer_only = near_match(date, sport)
        fitting = [shape for shape in left if not primer_only or shape.low_contacts_only_up_to is not None]
        if fitting:
            found[slot] = fitting[0]
            left.remove(fitting[0])
    if jump_days_apart is not None:
        before = max((date for (w, _), date in dates.items() if w < week), default=datetime.date.min)
        clear = {s for s in found if _clear(on[s], before, dates[test], jump_days_apart)}
        _change_places(found, clear)
    return found


def near_match(date: datetime.date, sport: Mapping[datetime.date, SportDay]) -> bool:
    """Whether a match falls on the date or the next."""
    return any(day in sport and sport[day].match for day in (date, date + datetime.timedelta(days=1)))


def _clear(date: datetime.date, before: datetime.date, test: datetime.date, apart: int) -> bool:
    return (date - before).days >= apart and (test - date).days >= apart


def _change_places(found: dict[int, Shape], clear: set[int]) -> None:
    jumping = [slot for slot, shape in found.items() if _jumps(shape)]
    if len(jumping) == 1 and clear and jumping[0] not in clear:
        one, other = jumping[0], min(clear)
        found[one], found[other] = found[other], found[one]


def _jumps(shape: Shape) -> bool:
    return any(part.part in JUMP_PARTS for part in shape.parts)
