"""``jumpblock cards``: a block on paper."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

import click

from planner.cli.output import Command, note, result

if TYPE_CHECKING:
    from planner.cards.pdf_file import SheetName
    from planner.domain.block import Block
    from planner.domain.card_layout import CardLayout

PAPER_NAMES = ("a4", "a5", "letter", "half-letter")
SHEET_NAMES = ("overview", "movements", "tests", "cards")


@click.command("cards", cls=Command)
@click.argument("block", type=click.Path())
@click.option(
    "-o", "--output", required=True, metavar="CARDS.pdf", type=click.Path(), help="The file to write; - is stdout."
)
@click.option("--week", type=click.IntRange(min=1), help="Only this week's cards.")
@click.option("--session", type=click.IntRange(min=1), help="Only this session of the week.")
@click.option(
    "--sheet",
    "sheets",
    type=click.Choice(SHEET_NAMES),
    multiple=True,
    help="Only this kind of page; may be given more than once [default: all].",
)
@click.option("--paper", type=click.Choice(PAPER_NAMES), help="Paper [default: the athlete's].")
@click.option(
    "--templates", type=click.Path(), help="Folder with cards/standard.yaml [default: near BLOCK, else shipped]."
)
def command(
    block: str,
    output: str,
    week: int | None,
    session: int | None,
    sheets: tuple[SheetName, ...],
    paper: str | None,
    templates: str | None,
) -> None:
    """Print BLOCK: an overview, its movements with their cues for a wall, a test sheet, and a card for each session."""
    from planner.cards.pdf_file import draw_cards
    from planner.files.load import load_block, load_file
    from planner.files.locate import locate_card_layout
    from planner.jobs.safe_output import STDOUT, pdf_output

    file = None if output == STDOUT else pdf_output(output)
    read = load_block(block)
    loaded = read.require()
    layout_at = locate_card_layout(beside=block, templates=templates)
    layout_read = load_file(layout_at.path, layout_at.display, ("card-layout/1",))
    drawn = draw_cards(
        loaded,
        paper=paper or loaded.for_athlete.paper,
        layout=cast("CardLayout", layout_read.require()),
        week=week,
        session=session,
        sheets=sheets,
        source=read,
        layout_source=layout_read,
        edited=_edited(loaded, block),
    )
    if file is None:
        result(drawn)
        return
    file.write(drawn)
    note(f"written: {output}")


def _edited(block: Block, path: str) -> bool:
    """Whether the block was edited by hand after it was solved; then it has no proof, and a note says so."""
    from planner.files.digest import is_as_solved

    if is_as_solved(block):
        return False
    note(f"{path} was edited by hand after it was solved; see what it keeps and breaks with: jumpblock check {path}")
    return True
