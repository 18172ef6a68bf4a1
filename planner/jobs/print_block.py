"""A block to hand out: cards for the gym floor, or a calendar file."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, cast

from planner.domain.block import Block
from planner.domain.card_layout import CardLayout
from planner.domain.findings import Finding
from planner.files.document import Loaded
from planner.files.load import load_block, load_file
from planner.files.locate import locate_card_layout
from planner.jobs.changed_athlete import changed_athlete, edited_by_hand
from planner.jobs.changed_words import changed_words
from planner.jobs.check_log import log_path

if TYPE_CHECKING:  # cards need no calendar's packages, and a calendar none of the cards'
    from planner.cards.pdf_file import SheetName

Tell = Callable[[list[Finding]], None]


def cards(
    path: str,
    templates: str | None = None,
    *,
    paper: str | None = None,
    week: int | None = None,
    session: int | None = None,
    since: datetime.date | None = None,
    log: str | None = None,
    sheets: Sequence[SheetName] = (),
    history: bool = False,
    tell: Tell = lambda findings: None,
) -> bytes:
    """The cards of the block at ``path`` as a PDF, on the athlete's paper unless ``paper`` names another.

    ``since``: only sessions from that day on, with the loads that the log at ``log`` (by default next to the block)
    advises. ``history``: the overview says what the joints have been through. ``tell`` gets edits by hand and a changed
    athlete's file before anything is drawn. Raises UserError as the files, ``changed_athlete`` and ``draw_cards`` do.
    """
    from planner.cards.pdf_file import draw_cards

    read, layout_read = _block_and_layout(path, templates, tell)
    block = read.require()
    edited = edited_by_hand(read)
    tell(edited)
    if since is not None and (log or log_path(path).is_file()):
        block = _advised(path, log, since, tell)
    return draw_cards(
        block,
        paper=paper or block.for_athlete.paper,
        layout=layout_read.require(),
        week=week,
        session=session,
        since=since,
        sheets=sheets,
        source=read,
        layout_source=layout_read,
        edited=bool(edited),
        history=history,
    )


def _advised(path: str, log: str | None, since: datetime.date, tell: Tell) -> Block:
    from planner.jobs.advised_cards import with_advice  # here: cards without a log need no rules
    from planner.jobs.follow_block import follow_block

    followed = follow_block(path, log)
    block, warnings = with_advice(followed, since)
    said = ("changed-athlete", "edited-block")  # by now
    tell([*(one for one in followed.warnings if one.code not in said), *warnings])
    return block


def calendar(path: str, templates: str | None = None, tell: Tell = lambda findings: None) -> bytes:
    """The sessions of the block at ``path`` as a calendar file. ``tell`` and errors as of ``cards``."""
    from planner.calendar_file import calendar_file

    block, layout = _block_and_layout(path, templates, tell)
    return calendar_file(block.require(), layout.require())


def _block_and_layout(path: str, templates: str | None, tell: Tell) -> tuple[Loaded[Block], Loaded[CardLayout]]:
    """The block, and the words and sizes of its cards: from ``templates``, else near the block, else the shipped."""
    block = load_block(path)
    folder = Path(path).parent
    tell([*changed_athlete(block, folder), *changed_words(block, folder)])
    return block, _layout(path, templates)


def layout_near(path: str | Path) -> CardLayout:
    """The words of the cards of the block at ``path``."""
    return _layout(str(path), None).require()


def _layout(path: str, templates: str | None) -> Loaded[CardLayout]:
    at = locate_card_layout(near=path, templates=templates)
    return cast("Loaded[CardLayout]", load_file(at.path, at.display, ("card-layout/1",)))
