"""What paper says of a block, read back: the overview, the cards, the sheet for the test day."""

from __future__ import annotations

from functools import cache

from planner.cards.battery_sheet import Asked, battery
from planner.domain.block import Item, Session, Week
from planner.prescription.item_words import prescribe
from planner.prescription.warm_up import warm_up_line
from tests.cards.reading import cards
from tests.coach.block_read import Read


@cache
def overview_words(read: Read) -> str:
    """All that the overview pages say, on one line."""
    return _words(read, sheets=("overview",))


def session_words(read: Read, week: Week, session: Session) -> str:
    """All that a session's cards say, on one line."""
    return _session_words(read, week.number, [one.id for one in week.sessions].index(session.id) + 1)


@cache
def _session_words(read: Read, week: int, session: int) -> str:
    return _words(read, week=week, session=session)


def item_words(read: Read, item: Item) -> str:
    """What a card says of one item: dose, load, effort and details."""
    said = prescribe(item, read.block.for_athlete, read.layout)
    parts = (said.dose, said.side, said.load, said.load_to_find, said.built, said.effort, *said.details, said.note)
    return " · ".join(part for part in parts if part)


def warm_up_words(read: Read, session: Session) -> str:
    return warm_up_line(session, read.block.for_athlete, read.layout)


def retest_sheet(read: Read) -> list[Asked]:
    """The tests that the sheet asks for, in its order."""
    return battery(read.block, read.layout)


def said_words(read: Read) -> str:
    """What the gap and the overview say in sentences: where a coach looks for what was decided."""
    return " ".join((*read.block.gap.story, *read.block.gap.notes, *read.block.cautions))


def _words(read: Read, **which: object) -> str:
    pages = cards(read.block, read.layout, "a4", **which).pages
    return " ".join(line for page in pages for line in page)
