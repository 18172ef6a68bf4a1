"""What is asked of a library as a whole: when its cover is thin, when a joint is leant on, when a tag stands apart."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import Model, MovementId, Name, Seq, Text


class KindOfGym(Model):
    """A gym as it is met. ``has`` left out: everything that the library names; empty: body weight alone."""

    name: Name
    has: Seq[MovementId] | None = None


class LeastCover(Model):
    """What a cell (a quality, up to a level, in a gym) needs of movements that train the quality in full."""

    least_movements: Annotated[int, Field(ge=1, le=50)]
    least_families: Annotated[int, Field(ge=1, le=20)]
    source: Text


class JointShare(Model):
    """The share of all stress points above which a joint is over-represented; points of a tag of 1, 2 and 3."""

    weights: Annotated[Seq[Annotated[int, Field(ge=0, le=20)]], Field(min_length=3, max_length=3)]
    largest_share: Annotated[float, Field(gt=0, le=1)]
    source: Text


class TagDistance(Model):
    """How many steps a tag may stand from the nearest relative's, and how many relatives it takes to say so."""

    steps_apart: Annotated[int, Field(ge=1, le=3)]
    least_relatives: Annotated[int, Field(ge=1, le=20)]
    source: Text


class LibraryReview(Model):
    file: Literal["library-review/1"]
    about: Text | None = None
    gyms: Annotated[Seq[KindOfGym], Field(min_length=1, max_length=6)]
    cover: LeastCover
    joints: JointShare
    tags: TagDistance
