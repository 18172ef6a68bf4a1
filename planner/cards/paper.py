"""Sheets of paper, and where the cards go on them. A card is A5 or half-letter; the larger sheets hold two."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from reportlab.lib.units import inch, mm

from planner.domain.findings import Finding, UserError


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

    sheet: tuple[float, float]
    page: tuple[float, float]
    cards_a_sheet: Literal[1, 2]

    def card(self, place: int) -> Rectangle:
        """The whole card at a place on the sheet, counted from 0 at the left."""
        width = self.sheet[0] / self.cards_a_sheet
        return Rectangle(place * width, 0, width, self.sheet[1])


_A5, _HALF_LETTER = (148 * mm, 210 * mm), (5.5 * inch, 8.5 * inch)
PAPERS: dict[str, Paper] = {
    "a4": Paper((297 * mm, 210 * mm), (210 * mm, 297 * mm), 2),
    "a5": Paper(_A5, _A5, 1),
    "letter": Paper((11 * inch, 8.5 * inch), (8.5 * inch, 11 * inch), 2),
    "half-letter": Paper(_HALF_LETTER, _HALF_LETTER, 1),
}


def paper_of(name: str) -> Paper:
    """The paper of that name. Raises UserError if there is none."""
    if name in PAPERS:
        return PAPERS[name]
    raise UserError([Finding("", 0, 0, "unknown-paper", f"no paper '{name}'", f"use one of {', '.join(PAPERS)}")])
