"""What a question on a terminal is, whoever asks it."""

from __future__ import annotations

from collections.abc import Callable

# Gives the answer back as it is to be written, or refuses it (ValueError), after which it is asked again.
Check = Callable[[str], str]
Ask = Callable[[str, str, Check], str]  # its words, the answer that Enter gives, and what checks an answer
