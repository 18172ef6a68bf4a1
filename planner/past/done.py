"""What "done" means: a block and its log become sessions of the block's own form, counted by the same code as a plan.

An entry lists only what differed, so everything it does not list was done as planned. A missed session keeps its items
with no sets: it is zero, and nothing makes it up.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from planner.domain.block import Block, Item, Session, Week
from planner.domain.movement import Movement, side_of
from planner.domain.movement_library import Library
from planner.domain.terms import TakeOff
from planner.domain.training_log import LoggedItem, LoggedSession, TrainingLog

_A_WEEK = datetime.timedelta(days=7)


@dataclass(frozen=True)
class DoneSession:
    """A session that the log has an entry for. ``session``: as it was done, on the day it was done."""

    planned: Session
    entry: LoggedSession
    session: Session

    @property
    def missed(self) -> bool:
        return self.entry.done == "missed"

    @property
    def date(self) -> datetime.date:
        """The day it was done; of a missed one the day it was planned for."""
        return self.session.date


def done_sessions(block: Block, log: TrainingLog, library: Library, take_off: TakeOff) -> tuple[DoneSession, ...]:
    """Every session with an entry, in order of date; unfinished entries are left out.

    ``library``: for movements that were done instead of the card's. Raises KeyError for one that is not in it;
    entries for sessions or items that the block does not have are passed over (``log_references`` finds them).
    """
    found = []
    for week in block.weeks:
        for planned in week.sessions:
            entry = log.entry(planned.id)
            if entry is not None and entry.done != "unfinished":
                found.append(DoneSession(planned, entry, _as_done(planned, entry, library, take_off)))
    return tuple(sorted(found, key=lambda one: (one.date, one.planned.id)))


def done_weeks(
    block: Block, log: TrainingLog, library: Library, take_off: TakeOff, *, only_logged: bool = False
) -> tuple[Week, ...]:
    """The block's weeks with every logged session as it was done, in the week that its date falls in.

    Sessions without an entry are as planned, or left out with ``only_logged``. Totals and bands stay the plan's;
    ``rules/recount.py`` counts the items.
    """
    done = {one.planned.id: one.session for one in done_sessions(block, log, library, take_off)}
    sessions = [done.get(session.id, session) for session in block.sessions if session.id in done or not only_logged]
    return tuple(week.model_copy(update={"sessions": tuple(_in_week(sessions, week, block))}) for week in block.weeks)


def not_logged(block: Block, log: TrainingLog, before: datetime.date) -> tuple[Session, ...]:
    """Sessions planned for a day before this one that have no entry, or an unfinished one."""
    entries = {entry.session for entry in log.sessions if entry.done != "unfinished"}
    return tuple(session for session in block.sessions if session.date < before and session.id not in entries)


def last_day(log: TrainingLog, block: Block) -> datetime.date | None:
    """The latest day that the log tells of; None for an empty log."""
    planned = {session.id: session.date for session in block.sessions}
    days = [entry.date or planned.get(entry.session) for entry in log.sessions]
    return max((day for day in [*days, *(work.date for work in log.extra)] if day is not None), default=None)


def _in_week(sessions: list[Session], week: Week, block: Block) -> list[Session]:
    """Days before the first week count in it, days after the last in that."""
    first, last = block.weeks[0] is week, block.weeks[-1] is week
    after = week.start + _A_WEEK
    inside = [one for one in sessions if (first or one.date >= week.start) and (last or one.date < after)]
    return sorted(inside, key=lambda one: one.date)


def _as_done(planned: Session, entry: LoggedSession, library: Library, take_off: TakeOff) -> Session:
    if entry.done == "missed":
        items = tuple(_left_out(item, f"missed: {entry.why}") for item in planned.items)
        return planned.model_copy(update={"items": items, "minutes": 0, "hard_day": False})
    logged = {one.item: one for one in entry.items}
    items = tuple(
        done_item(item, logged[item.id], library, take_off) if item.id in logged else item for item in planned.items
    )
    minutes = planned.minutes if entry.minutes is None else entry.minutes
    return planned.model_copy(update={"date": entry.date or planned.date, "minutes": minutes, "items": items})


def done_item(item: Item, logged: LoggedItem, library: Library, take_off: TakeOff) -> Item:
    """The item as it was done. ``reps``, load and reserve are those of its first set; contacts are of all sets."""
    sets = sets_done(item, logged)
    if sets == 0:
        return _left_out(item, logged.why or "left out")
    if logged.movement not in (None, item.movement):
        item = _instead(item, library[str(logged.movement)], take_off)
    reps = logged.reps or (item.reps or 0,) * sets
    loads = logged.loads or ((logged.load,) if logged.load is not None else ())
    return item.model_copy(
        update={
            "sets": sets,
            "extra_set": item.extra_set if sets >= item.sets else None,
            "reps": logged.reps[0] if logged.reps else item.reps,
            "load_kg": loads[0] if loads else item.load_kg,
            "percent": None if loads else item.percent,
            "reps_in_reserve": logged.reps_in_reserve[0] if logged.reps_in_reserve else item.reps_in_reserve,
            "contacts": _contacts(item, sum(reps), library),
            "note": logged.why,
        }
    )


def sets_done(item: Item, logged: LoggedItem) -> int:
    """As stated, else as many as have reps, loads or a touch, else as planned."""
    if logged.sets is not None:
        return logged.sets
    return len(logged.reps) or len(logged.loads) or item.sets


def differs(item: Item, logged: LoggedItem) -> bool:
    """Whether other work was done than planned: another movement, or other sets or reps. A load alone is no change."""
    if logged.movement not in (None, item.movement) or sets_done(item, logged) != item.sets:
        return True
    return bool(logged.reps) and item.reps is not None and sum(logged.reps) != item.sets * item.reps


def _left_out(item: Item, why: str) -> Item:
    return item.model_copy(update={"sets": 0, "contacts": 0, "extra_set": None, "note": why})


def _instead(item: Item, movement: Movement, take_off: TakeOff) -> Item:
    """Another movement in the item's place: its sets and reps, the movement's own tags."""
    return item.model_copy(
        update={
            "part": movement.part,
            "movement": movement.id,
            "name": movement.name,
            "side": side_of(movement, take_off),
            "extra_set": None,
            "load_kg": None,
            "percent": None,
            "implement": movement.dose.implement if movement.dose.load != "none" else None,
            "distance_m": movement.sprint.distance if movement.sprint else None,
            "fly_in_m": (movement.sprint.fly_in or None) if movement.sprint else None,
            "height_m": movement.jump.height if movement.jump else None,
            "height_of": None,
            "drop_m": movement.jump.drop if movement.jump else None,
            "hold_s": item.hold_s if movement.kind == "hold" else None,
            "contacts": 0,
            "tier": movement.jump.tier if movement.jump else None,
        }
    )


def _contacts(item: Item, reps: int, library: Library) -> int:
    """Landings of all sets. The plan's own landings a rep where the card's movement was done, else the movement's."""
    planned = item.sets * (item.reps or 0)
    if item.contacts and planned:
        return round(item.contacts * reps / planned)
    movement = library.get(item.movement)
    if movement is None or movement.jump is None:
        return 0
    return reps * movement.jump.contacts_per_rep * (2 if item.side == "each" else 1)
