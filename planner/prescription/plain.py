"""Clean text for paper or a calendar, whoever wrote it."""

from __future__ import annotations

import unicodedata
from functools import lru_cache


@lru_cache(maxsize=4096)
def clean(text: str) -> str:
    """The text with composed characters, white space as single spaces, and no other control characters."""
    composed = unicodedata.normalize("NFC", text)
    spaced = "".join(" " if character.isspace() else character for character in composed)
    return " ".join("".join(c for c in spaced if unicodedata.category(c) != "Cc").split())
