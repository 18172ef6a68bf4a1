"""A limits file: what several templates share, so that a limit is written, and argued with, in one place."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from planner.domain.base import Seq
from planner.domain.template import LevelLimits, LimitSections, SchemeHead, Shape
from planner.domain.terms import Level


class Limits(LimitSections):
    """A template names the file under ``limits:`` and writes only what it has otherwise, key by key.

    Of ``levels`` and ``schemes`` it takes those it names itself; of ``shapes`` those it lists by their id.
    """

    file: Literal["limits/1"]
    levels: dict[Level, LevelLimits]
    schemes: dict[str, SchemeHead]
    shapes: Annotated[Seq[Shape], Field(min_length=1)]
