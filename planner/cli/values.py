"""What options of several commands take: a day, a paper."""

from __future__ import annotations

from typing import Any

import click


class Day(click.DateTime):
    """A date, written year-month-day."""

    def __init__(self) -> None:
        super().__init__(["%Y-%m-%d"])

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        return super().convert(value, param, ctx).date()


DAY = Day()
PAPER = click.Choice(("a4", "a5", "letter", "half-letter"))
