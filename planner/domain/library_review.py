"""What is asked of a library as a whole: when its cover is thin, when a joint is leant on, when a tag stands apart."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import Model, MovementId, Name, Seq, Text
from planner.domain.fields import About, FileKind, Source


class KindOfGym(Model):
    """A gym as it is met. ``has`` left out: everything that the library names; empty: body weight alone."""

    name: Name = Field(description="Its head in the table.")
    has: Seq[MovementId] | None = Field(
        default=None, description="Ids of equipment.yaml; left out, everything; an empty list, body weight alone."
    )


class LeastCover(Model):
    """What a cell (a quality, up to a level, in a gym) needs of movements that train the quality in full."""

    least_movements: int = Field(
        ge=1, le=50, description="With fewer movements that train the quality in full, a cell is thin."
    )
    least_families: int = Field(ge=1, le=20, description="With movements of fewer families, a cell is thin.")
    source: Source


class JointShare(Model):
    """The share of all stress points above which a joint is over-represented; points of a tag of 1, 2 and 3."""

    weights: Seq[Annotated[int, Field(ge=0, le=20)]] = Field(
        min_length=3, max_length=3, description="Points of a tag of 1, 2 and 3."
    )
    largest_share: float = Field(
        gt=0, le=1, description="Share of all stress points above which a joint is over-represented."
    )
    source: Source


class TagDistance(Model):
    """How many steps a tag may stand from the nearest relative's, and how many relatives it takes to say so."""

    steps_apart: int = Field(ge=1, le=3, description="Told when a tag is so many steps from that of every relative.")
    least_relatives: int = Field(
        ge=1, le=20, description="Told only where there are so many relatives: same family, same use of the legs."
    )
    source: Source


class LibraryReview(Model):
    file: FileKind[Literal["library-review/1"]]
    about: About[Text | None] = None
    gyms: Seq[KindOfGym] = Field(min_length=1, max_length=6, description="Gyms that the cover is counted for.")
    cover: LeastCover = Field(description="How many movements a cell of the cover asks for.")
    joints: JointShare = Field(description="When a joint is over-represented.")
    tags: TagDistance = Field(description="When a tag stands apart from those of its family.")
