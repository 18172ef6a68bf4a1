"""Gyms as they usually are, to begin an athlete's file with."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from planner.domain.athlete import Equipment
from planner.domain.base import Model, Seq, Text
from planner.domain.fields import About, AsPrinted, FileKind, Id


class UsualGym(Model):
    id: Id[str]
    name: AsPrinted
    equipment: Equipment = Field(description="What it has, as in an athlete's file.")


class UsualGyms(Model):
    file: FileKind[Literal["usual-gyms/1"]]
    about: About[Text | None] = None
    gyms: Seq[UsualGym] = Field(min_length=1, description="The gyms to choose from, in the order shown.")
