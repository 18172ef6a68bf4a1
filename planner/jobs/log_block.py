"""A block's log opened to be written: which session is next, and an entry from what was typed."""

from __future__ import annotations

import datetime
import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import TypeVar

from planner.domain.block import Block, Item, Session
from planner.domain.card_layout import CardLayout
from planner.domain.findings import Finding, UserError
from planner.domain.movement import Movement
from planner.domain.training_log import LoggedItem, LoggedPain, LoggedSession, WhyMissed, Written
from planner.files.load import load_block, load_library
from planner.files.locate import shown
from planner.files.log_file import LogFile
from planner.files.log_references import without_load
from planner.files.suggest import did_you_mean
from planner.files.typed_sets import TOUCHES, read_item, read_pain
from planner.jobs.block_references import follow
from planner.jobs.check_log import log_path
from planner.past.done import differs
from planner.prescription.item_words import is_to_find
from planner.units import Unreadable, parse_quantity

T = TypeVar("T")


@dataclass(frozen=True)
class Told:
    """What was typed of one session. ``items``: the item's number, id or movement, and its text."""

    date: datetime.date | None = None
    written: Written = "same-day"
    as_planned: bool = False
    missed: WhyMissed | None = None
    effort: int | None = None
    minutes: int | None = None
    items: tuple[tuple[str, str], ...] = ()
    pain: tuple[str, ...] = ()
    body_mass: str | None = None
    note: str | None = None

    @property
    def is_empty(self) -> bool:
        return self == Told(date=self.date, written=self.written)


@dataclass(frozen=True)
class OpenLog:
    """A block and its log, which need not be there yet."""

    block_path: Path
    block: Block
    file: LogFile
    sessions: tuple[Session, ...] = field(repr=False)

    @cached_property
    def movements(self) -> Mapping[str, Movement] | None:
        """The block's library by id; None where it cannot be read, so that nothing is refused for it."""
        place = follow(self.block.library.path, self.block_path.parent)
        library = load_library(place).value if place.is_dir() else None
        return None if library is None else library.movements

    def next_session(self) -> Session | None:
        """The first session without an entry, or with an unfinished one."""
        done = {entry.session for entry in self.file.log.sessions if entry.done != "unfinished"}
        return next((session for session in self.sessions if session.id not in done), None)

    def session(self, name: str) -> Session:
        """UserError where the block has no such session."""
        ids = [session.id for session in self.sessions]
        if name in ids:
            return self.sessions[ids.index(name)]
        message = f"the block has no session '{name}'"
        raise UserError([Finding(shown(self.block_path), 0, 0, "unknown-session", message, did_you_mean(name, ids))])

    def done_before(self, session: Session | None) -> LoggedSession | None:
        """The entry of the last session done before this one; of all, where None."""
        entries = [entry for entry in self.file.log.sessions if entry.date is not None]
        day = datetime.date.max if session is None else self._day(session)
        earlier = [entry for entry in entries if entry.date is not None and entry.date < day]
        return earlier[-1] if earlier else None

    def _day(self, session: Session) -> datetime.date:
        entry = self.file.log.entry(session.id)
        return session.date if entry is None or entry.date is None else entry.date


def open_log(block_path: str, log: str | None = None) -> OpenLog:
    """The log of a block, by default next to it. UserError where either has findings, or it is another block's log."""
    path, block = Path(block_path), load_block(block_path).require()
    at = Path(log) if log is not None else log_path(path)
    file = LogFile(at, log or shown(at), path, block)
    named = follow(file.log.block.path, at.parent)
    if not file.is_new and named != Path(os.path.realpath(path)):
        message = f"this log belongs to another block, {file.log.block.path}"
        raise UserError([Finding(file.display, 0, 0, "other-block", message, "name another file with --log")])
    return OpenLog(path, block, file, block.sessions)


def entry_of(session: Session, told: Told, opened: OpenLog) -> LoggedSession:
    """The entry for what was typed. UserError, naming the option, for what cannot be read."""
    if told.missed is not None:
        return LoggedSession.model_construct(
            session=session.id, date=told.date, written=told.written, done="missed", why=told.missed, note=told.note
        )
    items = [_item(which, text, session, opened) for which, text in told.items]
    changed = any(differs(item, logged) for item, logged in items)
    mass = told.body_mass
    body_mass = None if mass is None else typed("--body-mass", lambda text: parse_quantity(text, "mass"), mass)
    return LoggedSession.model_construct(
        session=session.id,
        date=told.date or session.date,
        written=told.written,
        done="changed" if changed and not told.as_planned else "as-planned",
        effort=told.effort,
        minutes=told.minutes,
        items=tuple(logged for _, logged in sorted(items, key=lambda one: session.items.index(one[0]))),
        pain=tuple(typed("--pain", read_pain, text) for text in told.pain),
        body_mass=body_mass,
        note=told.note,
    )


def with_morning(entry: LoggedSession, pain: LoggedPain) -> LoggedSession:
    """The entry with the next morning's pain of one joint: a figure more for one it tells of, else a line."""
    found = False
    lines = []
    for one in entry.pain:
        if (one.joint, one.side) == (pain.joint, pain.side):
            signs = tuple(dict.fromkeys([*one.signs, *pain.signs]))
            one, found = one.model_copy(update={"next_morning": pain.next_morning, "signs": signs}), True
        lines.append(one)
    return entry.model_copy(update={"pain": tuple(lines if found else [*lines, pain])})


def typed(option: str, read: Callable[[str], T], text: str) -> T:
    """What ``read`` makes of typed text. UserError that names the option where it cannot be read."""
    try:
        return read(text)
    except Unreadable as error:
        raise UserError([Finding("", 0, 0, "typed", f"{option}: {error.message}", error.hint)]) from None


def read_item_of(text: str, item: Item, opened: OpenLog, mass_unit: str | None = None) -> LoggedItem:
    """A typed item, with the movement that was done by its id. Unreadable for a movement the library does not have."""
    logged = read_item(text, item, mass_unit)
    if logged.movement is None:
        if (logged.load or logged.loads) and (what := without_load(item, opened.movements)):
            raise Unreadable(f"{item.name} is {what}", _no_load_hint(item, opened.block.for_athlete.length_unit))
        if item.hold_s and max(logged.reps, default=0) > (item.reps or 1):
            message = f"{item.name} is held for {item.hold_s} s, and this has reps"
            raise Unreadable(message, f"write the sets held, such as {item.sets} sets, or check the item's number")
        return logged.model_copy(update={"movement": item.movement})
    if opened.movements is not None and logged.movement not in opened.movements:
        hint = did_you_mean(logged.movement, opened.movements) or "add it to the library first"
        raise Unreadable(f"'{logged.movement}' is not in the library", hint)
    return logged


def _no_load_hint(item: Item, length_unit: str) -> str:
    """What may be written of an item that is not lifted."""
    touches = f", touches such as {TOUCHES[length_unit]}" if item.part in ("approach-jump", "test") else ""
    done = "the sprints done, such as 3 sets," if item.part == "sprint" else f"sets and reps such as 3 x 4{touches},"
    return f"write {done} or none; a load goes with the item that was lifted"


def loads_not_told(session: Session, entry: LoggedSession, layout: CardLayout) -> list[int]:
    """The numbers of the items whose load the card leaves blank, which were done, and whose load nobody told."""
    if entry.done == "missed":
        return []
    logged = {one.item: one for one in entry.items}
    return [
        number for number, item in enumerate(session.items, start=1) if _is_blank(item, logged.get(item.id), layout)
    ]


def _is_blank(item: Item, logged: LoggedItem | None, layout: CardLayout) -> bool:
    if not item.sets or item.implement in (None, "free") or not is_to_find(item, layout):
        return False
    if logged is None:
        return True
    return logged.sets != 0 and logged.load is None and not logged.loads


def item_named(which: str, session: Session) -> Item:
    """An item by its number on the card, its id or its movement. Unreadable where the session has no such item."""
    if which.isdecimal() and 1 <= int(which) <= len(session.items):
        return session.items[int(which) - 1]
    for item in session.items:
        if which in (item.id, item.movement):
            return item
    hint = did_you_mean(which, [item.movement for item in session.items], most_listed=0)
    numbers = f"its items are numbered 1 to {len(session.items)}"
    raise Unreadable(f"{session.id} has no item '{which}'", hint or numbers)


def _item(which: str, text: str, session: Session, opened: OpenLog) -> tuple[Item, LoggedItem]:
    item = typed("--item", lambda name: item_named(name, session), which)
    return item, typed(f"--item {which}", lambda said: read_item_of(said, item, opened), text)
