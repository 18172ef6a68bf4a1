"""A block to hand out: cards for the gym floor, or a calendar file."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, cast

from planner.domain.block import Block
from planner.domain.card_layout import CardLayout
from planner.files.digest import is_as_solved
from planner.files.document import Loaded
from planner.files.load import load_block, load_file
from planner.files.locate import locate_card_layout

if TYPE_CHECKING:  # cards need no calendar's packages, and a calendar none of the cards'
    from planner.cards.pdf_file import SheetName


def cards(
    path: str,
    templates: str | None = None,
    *,
    paper: str | None = None,
    week: int | None = None,
    session: int | None = None,
    sheets: Sequence[SheetName] = (),
    tell: Callable[[str], None] = lambda text: None,
) -> bytes:
    """The cards of the block at ``path`` as a PDF, on the athlete's paper unless ``paper`` names another.

    ``tell`` hears of edits by hand before anything is drawn. Raises UserError as the files and ``draw_cards`` do.
    """
    from planner.cards.pdf_file import draw_cards

    read, layout_read = _block_and_layout(path, templates)
    block = read.require()
    edited = not is_as_solved(block)
    if edited:  # then it has no proof
        tell(f"{path} was edited by hand after it was solved; jumpblock check {path} tells what it keeps and breaks")
    return draw_cards(
        block,
        paper=paper or block.for_athlete.paper,
        layout=layout_read.require(),
        week=week,
        session=session,
        sheets=sheets,
        source=read,
        layout_source=layout_read,
        edited=edited,
    )


def calendar(path: str, templates: str | None = None) -> bytes:
    """The sessions of the block at ``path`` as a calendar file. Raises UserError as the files do."""
    from planner.calendar_file import calendar_file

    block, layout = _block_and_layout(path, templates)
    return calendar_file(block.require(), layout.require())


def _block_and_layout(path: str, templates: str | None) -> tuple[Loaded[Block], Loaded[CardLayout]]:
    """The block, and the words and sizes of its cards: from ``templates``, else near the block, else the shipped."""
    block = load_block(path)
    block.require()
    at = locate_card_layout(near=path, templates=templates)
    return block, cast("Loaded[CardLayout]", load_file(at.path, at.display, ("card-layout/1",)))
