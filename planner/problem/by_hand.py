"""What a coach changed of a solved block by hand: sessions on another day, sessions taken out, weeks apart."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from planner.domain.block import Block, Edit, Session, Week
from planner.files.digest import is_as_solved
from planner.problem.training_days import ONE_DAY


@dataclass(frozen=True)
class ByHand:
    """``moved``: the usual date of a session, and the one it has. ``dropped``: dates of sessions taken out.

    ``cuts``: weeks at which the running phase is cut, since a week of its own has other movements or days.
    """

    moved: Mapping[datetime.date, datetime.date]
    dropped: frozenset[datetime.date] = frozenset()
    cuts: tuple[int, ...] = ()


def by_hand_of(block: Block) -> ByHand | None:
    """What the block's lines of edits say, and what its dates show; None for a block as it was solved."""
    if is_as_solved(block) and not block.edits:
        return None
    return by_edits(block, all_edits(block))


def all_edits(block: Block) -> tuple[Edit, ...]:
    """The block's lines of edits, and moves and drops that its dates show where it is not as it was solved."""
    if is_as_solved(block):
        return block.edits
    moved = {edit.date for edit in block.edits if edit.what in ("move", "drop")}
    moves = (Edit(session=s.id, what="move", date=usual) for usual, s in _shown_moves(block) if usual not in moved)
    drops = (Edit(session="", what="drop", date=usual) for usual in _shown_drops(block) if usual not in moved)
    return (*block.edits, *moves, *drops)


def by_edits(block: Block, edits: Sequence[Edit]) -> ByHand:
    """What these edits of the block come to: where a session is now counts, wherever it was in between."""
    sessions = {session.id: (week.number, session) for week in block.weeks for session in week.sessions}
    moved: dict[datetime.date, datetime.date] = {}
    apart: set[int] = set()
    for edit in edits:
        week, session = sessions.get(edit.session, (0, None))
        if edit.what == "move" and edit.date is not None and session is not None:
            if session.date not in moved.values():
                moved[edit.date] = session.date
            apart.add(week)
        if edit.what in ("swap", "sets") and session is not None:
            apart.add(week)
    dropped = frozenset(edit.date for edit in edits if edit.what == "drop" and edit.date is not None)
    cuts = tuple(sorted({cut for week in apart for cut in (week, week + 1) if 1 < cut <= len(block.weeks)}))
    return ByHand({usual: date for usual, date in moved.items() if usual != date}, dropped, cuts)


def _shown_moves(block: Block) -> Iterator[tuple[datetime.date, Session]]:
    """Sessions on another weekday than their kind has in other weeks, where that day of their week is free."""
    usual = _usual_days(block)
    for week in _ordinary(block):
        held = {session.date.weekday() for session in week.sessions}
        for session in week.sessions:
            day = usual.get(session.focus)
            if day is not None and session.date.weekday() != day and day not in held:
                yield _date(week, day), session


def _shown_drops(block: Block) -> Iterator[datetime.date]:
    """Days whose kind of session a week lacks, and with it a number among its sessions' ids."""
    usual = _usual_days(block)
    for week in _ordinary(block):
        held = {session.focus for session in week.sessions}
        numbers = [_number(session) for session in week.sessions]
        gaps = set(range(1, max(numbers, default=0) + 1)) - set(numbers)
        if gaps:
            yield from (_date(week, day) for focus, day in usual.items() if focus not in held)


def _usual_days(block: Block) -> dict[str, int]:
    """The weekday of each kind of session that has one in most weeks."""
    found: dict[str, Counter[int]] = {}
    for week in _ordinary(block):
        for session in week.sessions:
            found.setdefault(session.focus, Counter())[session.date.weekday()] += 1
    days = {focus: counts.most_common(1)[0] for focus, counts in found.items()}
    return {focus: day for focus, (day, count) in days.items() if 2 * count > sum(found[focus].values())}


def _ordinary(block: Block) -> tuple[Week, ...]:
    """The weeks without the last, which has the test's days; of a revised block those that it plans anew."""
    first = block.revision.first_day if block.revision is not None else block.weeks[0].start
    return tuple(week for week in block.weeks[:-1] if week.start >= first)


def _number(session: Session) -> int:
    digits = session.id.rpartition("s")[2]
    return int(digits) if digits.isdecimal() else 0


def _date(week: Week, weekday: int) -> datetime.date:
    return week.start + ((weekday - week.start.weekday()) % 7) * ONE_DAY
