"""Text as it is put on paper or into a calendar, whoever wrote it."""

from __future__ import annotations

import unicodedata
from functools import lru_cache


@lru_cache(maxsize=4096)
def clean(text: str) -> str:
    """Text as it is drawn: composed characters, white space as single spaces, other control characters left out."""
    composed = unicodedata.normalize("NFC", text)
    spaced = "".join(" " if character.isspace() else character for character in composed)
    return " ".join("".join(c for c in spaced if unicodedata.category(c) != "Cc").split())
