"""What is asked of a library as a whole: when its cover is thin, a joint over-represented, a tag out of line."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import Model, MovementId, Name, Seq, Text
from planner.domain.fields import About, FileKind, Source


class KindOfGym(Model):
    """A kind of gym that coaches work in."""

    name: Name = Field(description="Its head in the table.")
    has: Seq[MovementId] | None = Field(
        default=None, description="Ids of equipment.yaml; left out, everything; an empty list: body weight alone."
    )


class LeastCover(Model):
    """What a cell (a quality, up to a level, in a gym) needs of movements that train the quality in full."""

    least_movements: int = Field(
        ge=1, le=50, description="With fewer movements that train the quality in full, a cell is thin."
    )
    least_families: int = Field(ge=1, le=20, description="With movements of fewer families, a cell is thin.")
    source: Source


class JointShare(Model):
    """How stress is counted, and how much of it one joint may have."""

    weights: Seq[Annotated[int, Field(ge=0, le=20)]] = Field(
        min_length=3, max_length=3, description="Points of a tag of 1, 2 and 3."
    )
    largest_share: float = Field(
        gt=0, le=1, description="Share of all stress points above which a joint is over-represented."
    )
    source: Source


class TagDistance(Model):
    """When a tag is out of line with those of its relatives."""

    steps_apart: int = Field(
        ge=1, le=3, description="A tag is listed when it is this many steps from that of every relative."
    )
    least_relatives: int = Field(
        ge=1, le=20, description="Only with this many relatives: same family, same use of the legs."
    )
    source: Source


class LibraryReview(Model):
    file: FileKind[Literal["library-review/1"]]
    about: About[Text | None] = None
    gyms: Seq[KindOfGym] = Field(min_length=1, max_length=6, description="Gyms that the cover is counted for.")
    cover: LeastCover = Field(description="How many movements a cell of the cover asks for.")
    joints: JointShare = Field(description="When a joint is over-represented.")
    tags: TagDistance = Field(description="When a tag is out of line with its family.")
