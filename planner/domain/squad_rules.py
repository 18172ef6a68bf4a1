"""What holds for every squad: how many a coach watches, loads that share a rack, and what a start is priced by."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import Load, Model
from planner.domain.fields import About, FileKind, Source
from planner.domain.training_squad import Setting

Price = Annotated[int, Field(ge=0, le=1000)]
Athletes = Annotated[int, Field(ge=1, le=100)]


class Watching(Model):
    """Athletes that a coach watches at once."""

    by_setting: dict[Setting, Athletes] = Field(description="In each setting.")
    high_tier: Athletes = Field(description="Of athletes who do jumps of the high tier.")
    source: Source


class SharedLoads(Model):
    spread: Load = Field(description="Loads that differ by no more than this share a rack.")
    source: Source


class StartPrices(Model):
    """What a schedule is weighed by: the lowest total wins."""

    away_from_wish: Price = Field(description="For each five minutes from the preferred start.")
    after_opening: Price = Field(description="For each five minutes after the hall opens, without a wish.")
    group_parted: Price = Field(description="For each further start of a group in one day.")
    other_order: Price = Field(description="For a session whose items are done in another order.")
    source: Source


class SquadRules(Model):
    file: FileKind[Literal["squad-rules/1"]]
    about: About[str | None] = None
    watching: Watching = Field(description="How many a coach watches.")
    shared_loads: SharedLoads = Field(description="Who may share a rack.")
    prices: StartPrices = Field(description="How starts are weighed.")
