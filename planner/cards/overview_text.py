"""The overview's title, headings and closing texts."""

from __future__ import annotations

from reportlab.pdfgen.canvas import Canvas

from planner.cards import marks
from planner.cards.card_text import Run, TextBlock
from planner.cards.marks import Drawable
from planner.domain.block import Block
from planner.domain.card_layout import CardLayout
from planner.prescription.session_words import date_text

_PIECE = 150.0  # points: the most height of sentences that stay together


class Paragraphs:
    """Texts one below the other, with space between them."""

    def __init__(self, blocks: list[TextBlock], space: float = 3.0) -> None:
        self._blocks, self._space = blocks, space
        self.height = sum(block.height + space for block in blocks)

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        for block in self._blocks:
            block.draw(canvas, x, top)
            top -= block.height + self._space


def title(block: Block, layout: CardLayout, width: float) -> Paragraphs:
    words, who = layout.overview, block.for_athlete
    start = date_text(block.weeks[0].start, who, layout)
    facts = (
        (words.target, who.target),
        (words.take_off, who.take_off),
        (words.tested_by, block.gap.method),
        (words.on_the_ground, _on_the_ground(block)),
    )
    runs: list[Run] = [run for name, fact in facts for run in (("semibold", f"{name}:"), ("regular", f"{fact}."))]
    line = f"{words.block} · {len(block.weeks)} {words.weeks_from} {start} · {who.level}"
    return Paragraphs(
        [
            TextBlock(who.name, size=24, width=width, face="bold", leading=27),
            TextBlock(line, size=11.5, width=width, face="semibold"),
            TextBlock(runs, size=10.5, width=width),
        ]
    )


def _on_the_ground(block: Block) -> str:
    """How long the push lasts and where the figure comes from; a standing jump has a push-off distance instead."""
    gap = block.gap
    return gap.contact_time_from if gap.push_off_m else f"{gap.contact_time_s:.3f} s, {gap.contact_time_from}"


class SectionHeading:
    """A thick rule, the heading, and optionally how to read what follows, or ``room`` (points) to write in."""

    def __init__(self, words: str, width: float, below: str = "", *, room: float = 0.0) -> None:
        self._width = width
        self._heading = TextBlock(words, size=12, width=width, face="bold", leading=14)
        self._below = TextBlock(below, size=8.8, width=width) if below else None
        self.height = self._heading.height + 6 + (self._below.height + 4 if self._below else room)

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        marks.rule(canvas, x, top, self._width, marks.THICK)
        self._heading.draw(canvas, x, top - 3)
        if self._below:
            self._below.draw(canvas, x, top - 5 - self._heading.height)


def closing_sections(block: Block, layout: CardLayout, width: float, *, edited: bool) -> list[list[Drawable]]:
    """Proof and shortfalls, then cautions, each with its heading. Nothing is claimed as proved for an edited block."""
    words = layout.overview
    proof = [words.edited] if edited else [_proof(block, layout), *_shortfalls(block, layout)]
    texts = [(words.proof, proof), (words.cautions, [*block.cautions, *_further_notes(block)])]
    groups: list[list[Drawable]] = []
    for heading, lines in texts:
        above: list[Drawable] = [SectionHeading(heading, width)]
        for piece in _in_pieces([TextBlock(line, size=9.6, width=width) for line in lines]):
            groups.append([*above, piece])
            above = []
    return groups


def _in_pieces(blocks: list[TextBlock]) -> list[Paragraphs]:
    """Sentences in pieces that fit a small page, so that many or long ones continue on the next."""
    pieces: list[list[TextBlock]] = []
    for block in blocks:
        if pieces and sum(one.height for one in (*pieces[-1], block)) <= _PIECE:
            pieces[-1].append(block)
        else:
            pieces.append([block])
    return [Paragraphs(piece, 2.5) for piece in pieces]


def _proof(block: Block, layout: CardLayout) -> str:
    proved = block.proof.status == "optimal" and block.proof.scope == "library"
    return layout.overview.proved if proved else layout.overview.not_proved


def _shortfalls(block: Block, layout: CardLayout) -> list[str]:
    words = layout.overview
    return [f"{words.not_met}: {shortfall.sentence}" for shortfall in block.shortfalls] or [words.all_met]


def _further_notes(block: Block) -> list[str]:
    """What the estimate assumed, unless another sentence on the page says it."""
    said = {*block.gap.story, *map(_opening, block.cautions)}
    return [_sentence(note) for note in block.gap.notes if not {note, _opening(note)} & said]


def _sentence(note: str) -> str:
    return note[:1].upper() + note[1:] + ("" if note.endswith((".", "!", "?")) else ".")


def _opening(text: str) -> str:
    """The first sentence. A caution of the estimate and one of the template may open alike and then differ."""
    return text.partition(". ")[0].rstrip(".")
