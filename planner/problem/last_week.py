"""The sessions of the last week, on the days before the test."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence

from planner.domain.template import Shape
from planner.problem.block_calendar import BlockCalendar
from planner.problem.training_days import ONE_DAY, SportDay

# Parts of a session with landings.
JUMP_PARTS = ("landing", "skill", "approach-jump", "jump")


def last_week_shapes(shapes: Sequence[Shape], days: BlockCalendar, jump_days_apart: int | None) -> dict[int, Shape]:
    """The test week's shapes on its training days (slots); a day next to a match takes a primer or stays free.

    They are in the template's order, except that a session with jumps of a novice or a youth moves to a day that is
    ``jump_days_apart`` from the week before and from the test, if there is one (None: others need no distance).
    """
    last = days.last_week
    on = {slot: days.dates[last, slot] for slot in days.working_days(last)}
    left, found = list(shapes), {}
    for slot, date in on.items():
        primer_only = near_match(date, days.sport)
        fitting = [shape for shape in left if not primer_only or shape.low_contacts_only_up_to is not None]
        if fitting:
            found[slot] = fitting[0]
            left.remove(fitting[0])
    if jump_days_apart is not None:
        before = max((date for (week, _), date in days.dates.items() if week < last), default=datetime.date.min)
        test = days.dates[last, days.test_slot]
        clear = {slot for slot, date in on.items() if min(date - before, test - date).days >= jump_days_apart}
        _jump_on_a_clear_day(found, {slot for slot in clear if slot in found or not near_match(on[slot], days.sport)})
    return dict(sorted(found.items()))


def near_match(date: datetime.date, sport: Mapping[datetime.date, SportDay]) -> bool:
    """Whether a match falls on the date or the next."""
    return any(day in sport and sport[day].match for day in (date, date + ONE_DAY))


def _jump_on_a_clear_day(found: dict[int, Shape], clear: set[int]) -> None:
    """Move the one session with jumps to the first clear day, which may be free, and what was there to its day."""
    jumping = [slot for slot, shape in found.items() if _jumps(shape)]
    if len(jumping) == 1 and clear and jumping[0] not in clear:
        one, other = jumping[0], min(clear)
        moved = found.pop(one)
        if other in found:
            found[one] = found[other]
        found[other] = moved


def _jumps(shape: Shape) -> bool:
    return any(part.part in JUMP_PARTS for part in shape.parts)
