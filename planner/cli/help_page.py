"""The page that ``--help`` prints: plain words for what an option takes, and no word broken at the end of a line."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

import click

_UNBROKEN = "\u2011"  # a hyphen that no line breaks behind; printed as the usual one
_WIDEST_CHOICES = 20  # in the column of the options; more of them are listed in the sentence
_WORDS = {"integer range": "NUMBER", "float range": "NUMBER", "datetime": "YEAR-MONTH-DAY"}
_RANGE = re.compile(r"\[(\d+)<=x<=(\d+)\]")
_ABOVE = re.compile(r"\s*\[x>=?\d+\]")  # no more than common sense


class Formatter(click.HelpFormatter):
    """Breaks lines at spaces alone: ``block-log.yaml`` and ``--dry-run`` stay in one piece."""

    def write_text(self, text: str) -> None:
        super().write_text(_kept(text))

    def write_dl(self, rows: Iterable[tuple[str, str]], col_max: int = 30, col_spacing: int = 2) -> None:
        super().write_dl([(_kept(left), _kept(_in_words(right))) for left, right in rows], col_max, col_spacing)

    def getvalue(self) -> str:
        return super().getvalue().replace(_UNBROKEN, "-")


class Context(click.Context):
    formatter_class = Formatter


def name_values(params: Sequence[click.Parameter]) -> None:
    """A word for the value of each option that has none, and long lists of choices behind what the option does."""
    for param in params:
        if not isinstance(param, click.Option):
            continue
        if isinstance(param.type, click.Choice) and len("|".join(param.type.choices)) > _WIDEST_CHOICES:
            param.metavar = param.metavar or max(param.opts, key=len).lstrip("-").upper()
            param.help = f"{param.help} One of {', '.join(param.type.choices)}."
        else:
            param.metavar = param.metavar or _WORDS.get(param.type.name)


def _kept(text: str) -> str:
    return text.replace("-", _UNBROKEN)


def _in_words(text: str) -> str:
    return _RANGE.sub(r"[\1 to \2]", _ABOVE.sub("", text))
