"""Read a PDF of cards back: its text by card, the work written on it, the boxes drawn on it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from io import BytesIO
from typing import Any

import pypdfium2
from pypdf import PdfReader

from planner.cards.pdf_file import draw_cards
from planner.domain.block import Block
from planner.domain.card_layout import CardLayout

WORK = re.compile(r"^(\d+(?: × \d+(?:\.5)?(?: s| m| yd)?)+|\d+ sets)$")
LOAD = re.compile(r"^\d+(?:\.\d+)?(?: \+ \d+(?:\.\d+)?)* (?:kg|lb)$")


@dataclass(frozen=True)
class Read:
    """``lines`` of each page as they were drawn, one string for each drawing operation."""

    pages: list[list[str]]
    reader: PdfReader

    def text(self, page: int) -> str:
        return "\n".join(self.pages[page])


def read(data: bytes) -> Read:
    reader = PdfReader(BytesIO(data))
    pages = []
    for page in reader.pages:
        lines: list[str] = []
        page.extract_text(visitor_text=lambda text, *_: lines.append(text.replace("\u00a0", " ").strip()))  # noqa: B023
        pages.append([line for text in lines for line in text.splitlines() if line])
    return Read(pages, reader)


def cards(block: Block, layout: CardLayout, paper: str = "a5", **which: Any) -> Read:
    return read(draw_cards(block, paper=paper, layout=layout, **which))


def work_on(lines: list[str]) -> tuple[list[str], list[str]]:
    """The sets-and-reps and the loads of a card, in the order drawn."""
    return [line for line in lines if WORK.match(line)], [line for line in lines if LOAD.match(line)]


def ink(data: bytes, page: int, points_a_pixel: float = 0.5):
    """The page as rows of grey pixels (0 black), and its width and height in points."""
    pdf = pypdfium2.PdfDocument(data)
    try:
        shown = pdf[page]
        image = shown.render(scale=1 / points_a_pixel, grayscale=True).to_numpy()
        return image.reshape(image.shape[0], image.shape[1]).copy(), shown.get_size()
    finally:
        pdf.close()
