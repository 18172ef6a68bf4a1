"""Sheets of paper, and where the cards go on them. A card is A5 or half-letter; the larger sheets hold two."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from reportlab.lib.units import inch, mm

from planner.domain.findings import Finding, UserError

PaperName = Literal["a4", "a5", "letter", "half-letter"]
PAPERS: tuple[PaperName, ...] = get_args(PaperName)


@dataclass(frozen=True)
class Rectangle:
    """A rectangle in points; ``x``, ``y`` is its lower left corner."""

    x: float
    y: float
    width: float
    height: float

    @property
    def top(self) -> float:
        return self.y + self.height

    @property
    def right(self) -> float:
        return self.x + self.width

    def inset(self, margin: float) -> Rectangle:
        return Rectangle(self.x + margin, self.y + margin, self.width - 2 * margin, self.height - 2 * margin)


@dataclass(frozen=True)
class Paper:
    """Sizes in points: ``sheet`` for cards (two side by side on a landscape sheet), ``page`` for the overview."""

    name: PaperName
    sheet: tuple[float, float]
    page: tuple[float, float]
    cards_a_sheet: Literal[1, 2]

    def card(self, place: int) -> Rectangle:
        """The whole card at a place on the sheet, counted from 0 at the left."""
        width = self.sheet[0] / self.cards_a_sheet
        return Rectangle(place * width, 0, width, self.sheet[1])


_A5, _HALF_LETTER = (148 * mm, 210 * mm), (5.5 * inch, 8.5 * inch)
_PAPER: dict[PaperName, Paper] = {
    "a4": Paper("a4", (297 * mm, 210 * mm), (210 * mm, 297 * mm), 2),
    "letter": Paper("letter", (11 * inch, 8.5 * inch), (8.5 * inch, 11 * inch), 2),
    "a5": Paper("a5", _A5, _A5, 1),
    "half-letter": Paper("half-letter", _HALF_LETTER, _HALF_LETTER, 1),
}


def paper_of(name: str) -> Paper:
    """The paper of that name. Raises UserError if there is none."""
    for paper in _PAPER.values():
        if paper.name == name:
            return paper
    raise UserError([Finding("", 0, 0, "unknown-paper", f"no paper '{name}'", f"use one of {', '.join(PAPERS)}")])
