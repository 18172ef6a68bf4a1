"""Did you mean: the nearest of the words that would have been right."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:  # the models of movements take longer to build than most files to read
    from planner.domain.movement_library import Library


def nearest(word: str, allowed: Iterable[str]) -> str | None:
    """The allowed word most like ``word``, or None if none is close. Case and ``_`` against ``-`` count for nothing."""
    plain = {_as_id(choice): choice for choice in sorted(allowed, reverse=True)}
    wanted = _as_id(word)
    if wanted in plain:
        return plain[wanted]
    close = difflib.get_close_matches(wanted, sorted(plain), n=1, cutoff=0.6)
    if close:
        return plain[close[0]]
    longer = [choice for choice in sorted(plain) if len(wanted) >= 3 and (wanted in choice or choice in wanted)]
    return plain[longer[0]] if len(longer) == 1 else None


def did_you_mean(word: str, allowed: Iterable[str], most_listed: int = 12) -> str:
    """A hint: the nearest word, else the whole list while it is short, else nothing."""
    choices = list(dict.fromkeys(allowed))
    best = nearest(word, choices)
    if best is not None:
        return f"did you mean '{best}'?"
    if 0 < len(choices) <= most_listed:
        return f"use one of: {', '.join(choices)}"
    return ""


def movement_hint(word: str, library: Library) -> str:
    """A hint: the ids of the movements that the trade calls by this name, else the nearest id or name, else nothing."""
    called = library.called(word)
    if called:
        return f"write {' or '.join(called)}"
    named = {name: m.id for m in library for name in (*m.also, m.name, m.id)}
    close = nearest(word, named)
    if close is not None and _as_id(close) not in library:
        return f"did you mean '{named[close]}' ({close})?"
    return did_you_mean(word, library.movements)


def _as_id(word: str) -> str:
    return word.strip().lower().replace("_", "-").replace(" ", "-")
