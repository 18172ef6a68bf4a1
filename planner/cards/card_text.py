"""The only way text gets onto a page: a coach's words are never read as markup, and none of them are lost.

Only this module makes paragraphs (a test checks this), because reportlab reads a paragraph's text as markup.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from functools import lru_cache
from io import BytesIO
from typing import Literal

from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Paragraph
from reportlab.platypus.paraparser import ParaFrag

from planner.cards import fonts
from planner.cards.fonts import Face
from planner.prescription.plain import clean as clean

Align = Literal["left", "right", "centre"]
Run = tuple[Face, str]
_NO_BREAK = "\u00a0"
# A unit stays with its number, factors stay together, a single letter stays with the next word, the last one with the
# word before it.
_BELONGS = re.compile(
    r"(?<=\d) (?=(?:kg|lb|cm|mm|m|in|ft|yd|s|ms|min|%)(?![A-Za-z]))"
    r"|(?<=\d) (?=× \d)|(?<=\d ×) (?=\d)"
    r"|(?<=(?<!\S)[A-Za-z]) (?=\S)|(?<=\S) (?=[A-Za-z]$)"
)


class Unbroken(str):
    """A few words that stay on one line, such as a figure and its unit."""

    __slots__ = ()


def undrawable(text: str) -> list[str]:
    """The characters of a text that cannot be drawn as written, each once, in order.

    They have no glyph in the card font; or are invisible marks (text direction, joiners); or are accents that do not
    combine with their letter, which would be drawn next to it.
    """
    return [character for character in dict.fromkeys(clean(text)) if not _is_drawable(character)]


@lru_cache(maxsize=2048)
def _is_drawable(character: str) -> bool:
    invisible_or_apart = unicodedata.category(character) in ("Cf", "Mn", "Me", "Co", "Cs")
    return not invisible_or_apart and fonts.has_glyph(character)


class TextBlock:
    """Runs of text wrapped to a width. ``height`` is known before drawing; sizes are in points."""

    def __init__(
        self,
        runs: str | Sequence[Run],
        *,
        size: float,
        width: float,
        face: Face = "regular",
        leading: float | None = None,
    ) -> None:
        pieces: Sequence[Run] = [(face, runs)] if isinstance(runs, str) else runs
        written = tuple((run_face, _as_drawn(text)) for run_face, text in pieces)
        self._paragraph, self.height = _wrapped(written, face, size, leading or size * 1.2, width)

    def draw(self, canvas: Canvas, x: float, top: float) -> None:
        self._paragraph.drawOn(canvas, x, top - self.height)


@lru_cache(maxsize=8192)  # a card tries its texts at several sizes, and the weeks repeat them
def _wrapped(runs: tuple[Run, ...], face: Face, size: float, leading: float, width: float) -> tuple[Paragraph, float]:
    """A paragraph broken into lines, and its height. It does not store where it is drawn, so it can be reused."""
    style = ParagraphStyle(
        "card",
        fontName=fonts.register()[face],
        fontSize=size,
        leading=leading,
        splitLongWords=1,
        allowWidows=1,
    )
    space = _fragment(face, size).clone(text=" ")
    parts = [part for run_face, text in runs for part in (space, _fragment(run_face, size).clone(text=text))][1:]
    paragraph = Paragraph("", style, frags=parts)
    return paragraph, float(paragraph.wrap(width, 1e6)[1])


@lru_cache(maxsize=256)
def _fragment(face: Face, size: float) -> ParaFrag:
    """What the parser of markup makes of a letter: handed to a paragraph as it is, text is never parsed."""
    parsed: ParaFrag = Paragraph("x", ParagraphStyle("card", fontName=fonts.register()[face], fontSize=size)).frags[0]
    return parsed


@lru_cache(maxsize=8192, typed=True)  # an unbroken text is equal to the same text that may break
def _as_drawn(text: str) -> str:
    cleaned = _BELONGS.sub(_NO_BREAK, clean(text))
    return cleaned.replace(" ", _NO_BREAK) if isinstance(text, Unbroken) else cleaned


def fitting_size(text: str, face: Face, size: float, width: float) -> float:
    """``size``, or less if the longest word would be wider than ``width``: side-heads are never hyphenated."""
    widest = max((fonts.width_of(word, face, size) for word in clean(text).split()), default=0.0)
    return size if widest < width else size * (width - 0.5) / widest


def draw_line(
    canvas: Canvas,
    x: float,
    baseline: float,
    text: str,
    *,
    size: float,
    face: Face = "regular",
    align: Align = "left",
    at_most: float | None = None,
) -> float:
    """Draw one line, smaller if it would be wider than ``at_most``, and return its width in points.

    ``x`` is the left end, the middle or the right end of the line, as ``align`` says.
    """
    line = clean(text)
    width = fonts.width_of(line, face, size)
    if at_most is not None and width > at_most:
        size, width = size * at_most / width, at_most
    canvas.setFont(fonts.register()[face], size)
    start = x - {"left": 0.0, "centre": width / 2, "right": width}[align]
    canvas.drawString(start, baseline, line)
    return width


def new_canvas(buffer: BytesIO, size: tuple[float, float], title: str, language: str = "en") -> Canvas:
    """A canvas for pages of ``size`` points. Without a first font, each page would name one that is not embedded."""
    name = fonts.register()["regular"]
    canvas = Canvas(buffer, pagesize=size, initialFontName=name, lang=language)
    canvas.setTitle(clean(title))
    canvas.setAuthor("jumpblock")
    canvas.setCreator("jumpblock")
    return canvas
