"""A limits file: what several templates share, so that a limit is written, and argued with, in one place."""

from __future__ import annotations

from typing import Literal

from planner.domain.fields import FileKind
from planner.domain.template import KindsOfSession, LevelLimits, LevelsServed, LimitSections, SchemeHead, Waves
from planner.domain.terms import Level


class Limits(LimitSections):
    """A template names the file under ``limits:`` and writes only what it has otherwise, key by key.

    Of ``levels`` and ``schemes`` it takes those it names itself; of ``shapes`` those it lists by their id.
    """

    file: FileKind[Literal["limits/1"]]
    levels: LevelsServed[dict[Level, LevelLimits]]
    schemes: Waves[dict[str, SchemeHead]]
    shapes: KindsOfSession
