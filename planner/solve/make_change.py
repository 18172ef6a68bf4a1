"""A coach's change of a block: one thing is changed, and the sums, loads, cues and notes that hang on it are redone."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Sequence

from planner.domain.block import Block, Edit, Item, Session, Week
from planner.domain.gap_record import Gap
from planner.problem.model import RETEST, Entry, Problem
from planner.rules.recount import count_session
from planner.solve.extract import item_of, session_minutes, totals
from planner.solve.session_reason import unsure_of, with_reasons


class CannotChange(Exception):
    """The change cannot be made; the message says why, ``hint`` what to do."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.hint = hint


def swapped(session: Session, old: str, new: str, week: int, problem: Problem) -> Session:
    """The session with another movement in the place of ``old``, with as many sets. Raises CannotChange."""
    item = next((item for item in session.items if item.movement == old), None)
    if item is None:
        held = ", ".join(item.movement for item in session.items)
        raise CannotChange(f"{session.id} has no movement '{old}'", f"it has {held}")
    if any(one.movement == new for one in session.items):
        raise CannotChange(f"{session.id} has '{new}' already", "change its sets with --sets")
    return _with_item(session, item, item_of(problem, entry_of(problem, week, new), item.sets, item.id))


def with_sets(session: Session, number: int, sets: int, week: int, problem: Problem) -> Session:
    """The session with other sets of its item of this number, from 1. Raises CannotChange."""
    if not 1 <= number <= len(session.items):
        raise CannotChange(f"{session.id} has no item {number}", f"it has items 1 to {len(session.items)}")
    item = session.items[number - 1]
    if item.movement == RETEST:
        raise CannotChange(f"{session.id} is the closing test", "its jumps are set in the template, under test_day")
    entry = entry_of(problem, week, item.movement)
    return _with_item(session, item, item_of(problem, entry, sets, item.id))


def moved(session: Session, date: datetime.date, week: Week) -> Session:
    """The session on another day of its week. Raises CannotChange where that day has one."""
    taken = next((other for other in week.sessions if other.date == date and other.id != session.id), None)
    if taken is not None:
        raise CannotChange(f"{taken.id} is on {date:%a %d %b} already", "move that one first, or take another day")
    return session.model_copy(update={"date": date})


def entry_of(problem: Problem, week: int, movement: str) -> Entry:
    """What a set of the movement is in this week. Raises CannotChange where its wave is not in the template."""
    found = next((e for e in problem.week_entries(week) if e.movement.id == movement), None)
    if found is None:
        scheme = problem.library[movement].dose.scheme
        raise CannotChange(
            f"the template has no planned progression '{scheme}' for '{movement}'", "take another movement"
        )
    return found


def _with_item(session: Session, old: Item, new: Item) -> Session:
    return session.model_copy(update={"items": tuple(new if item is old else item for item in session.items)})


def changed(
    block: Block, ids: Sequence[str], change: Callable[[Session, Week], Session | None], edits: Sequence[Edit]
) -> Block:
    """The block with these sessions changed, or taken out where the change gives None; sums are not yet redone."""
    weeks = []
    for week in block.weeks:
        new = [change(s, week) if s.id in ids else s for s in week.sessions]
        kept = sorted((s for s in new if s is not None), key=lambda session: session.date)
        weeks.append(week.model_copy(update={"sessions": tuple(kept)}))
    return block.model_copy(update={"weeks": tuple(weeks), "edits": (*block.edits, *edits)})


def redone(block: Block, problem: Problem, old: Block | None = None) -> Block:
    """The block with contacts, minutes, hard days, reasons and weekly sums as its items make them.

    Of ``old``, sessions and weeks that are the same keep their lines.
    """
    before = {week.number: week for week in old.weeks} if old is not None else {}
    weeks = [
        week if week == before.get(week.number) else _redone_week(week, before.get(week.number), problem, block.gap)
        for week in block.weeks
    ]
    return block.model_copy(update={"weeks": tuple(weeks)})


def _redone_week(week: Week, old: Week | None, problem: Problem, gap: Gap) -> Week:
    same = {session.id: session for session in old.sessions} if old is not None else {}
    sessions = [s if s == same.get(s.id) else _redone_session(s, week.number, problem) for s in week.sessions]
    new = with_reasons(week.model_copy(update={"sessions": tuple(sessions)}), problem, unsure_of(problem, gap))
    return new.model_copy(update={"totals": totals(problem, new)})


def _redone_session(session: Session, week: int, problem: Problem) -> Session:
    """Contacts, minutes and whether it is hard, from its items; the closing test has the template's."""
    if any(item.movement == RETEST for item in session.items):
        return session
    entries = [entry_of(problem, week, item.movement) for item in session.items]
    items = tuple(_contacts(item, entry) for item, entry in zip(session.items, entries, strict=True))
    shape = next((one for one in problem.template.shapes if one.id == session.focus), None)
    warm_up = session.warm_up_minutes if shape is None else shape.warm_up_minutes
    done = zip((item.sets for item in items), entries, strict=True)
    minutes, warm_up = session_minutes(warm_up, done)
    session = session.model_copy(update={"items": items, "minutes": minutes, "warm_up_minutes": warm_up})
    return session.model_copy(update={"hard_day": count_session(session, problem).is_hard(problem)})


def _contacts(item: Item, entry: Entry) -> Item:
    if entry.movement.jump is None:
        return item
    a_set = (item.reps or 0) * entry.movement.jump.contacts_per_rep * (2 if item.side == "each" else 1)
    tier = entry.movement.jump.tier if item.sets * a_set else None
    return item.model_copy(update={"contacts": item.sets * a_set, "tier": tier})
