"""The cards' fonts: three upright weights of Source Sans, from their package, embedded in the PDF.

The package's italics have no Greek or Cyrillic, so no card uses italics: a name must print everywhere.
"""

from __future__ import annotations

from functools import cache, lru_cache
from importlib.resources import as_file, files
from typing import Literal

from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

Face = Literal["regular", "semibold", "bold"]
_FILES: dict[Face, str] = {
    "regular": "SourceSansPro-Regular.ttf",
    "semibold": "SourceSansPro-Semibold.ttf",
    "bold": "SourceSansPro-Bold.ttf",
}


class _CardFont(TTFont):  # type: ignore[misc]
    """A font that measures a word once: cards ask for the width of the same words at several sizes."""

    def stringWidth(self, text: str, size: float, encoding: str = "utf8") -> float:
        return 0.001 * size * _thousandths(self.fontName, text)


@lru_cache(maxsize=16384)
def _thousandths(font: str, text: str) -> float:
    """The width of a text in thousandths of its size."""
    face = pdfmetrics.getFont(font).face
    return float(sum(face.charWidths.get(ord(character), face.defaultWidth) for character in text))


def _make_safe() -> None:
    """Fix the settings that reportlab would also take from the environment or from a file in the user's home."""
    rl_config.trustedHosts = None  # no host: nothing is fetched
    rl_config.trustedSchemes = []
    rl_config.toColorCanUse = None  # colours are never evaluated
    rl_config.invariant = 1
    rl_config.pageCompression = 1


@cache
def register() -> dict[Face, str]:
    """Register the faces once and return the font name of each."""
    _make_safe()
    names: dict[Face, str] = {}
    for face, file_name in _FILES.items():
        name = f"card-{face}"
        with as_file(files("font_source_sans_pro") / "files" / file_name) as path:
            pdfmetrics.registerFont(_CardFont(name, str(path)))
        # A font without its own family cannot be named inside a paragraph.
        pdfmetrics.registerFontFamily(name, normal=name, bold=name, italic=name, boldItalic=name)
        names[face] = name
    return names


@cache
def _covered() -> frozenset[int]:
    covers = [set(pdfmetrics.getFont(name).face.charToGlyph) for name in register().values()]
    return frozenset(set.intersection(*covers))


def has_glyph(character: str) -> bool:
    """Whether every face can draw the character."""
    return ord(character) in _covered()


def width_of(text: str, face: Face, size: float) -> float:
    """The width in points of a line of text."""
    return float(pdfmetrics.stringWidth(text, register()[face], size))
