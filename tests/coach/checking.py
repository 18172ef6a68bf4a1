"""What a check is: what a coach would strike out, to which blocks it applies, and where a block breaks it."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Literal

from planner.domain.block import Week
from tests.coach.block_read import Line, Read

Point = Literal["1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "should"]
NO_SOURCE = "common practice, no source"


@dataclass(frozen=True)
class Break:
    """Where a coach's red pen goes, and the sentence in the margin."""

    says: str
    week: int | None = None
    date: datetime.date | None = None
    movement: str | None = None

    def __str__(self) -> str:
        day = f"{self.date:%a} {self.date.day} {self.date:%b}" if self.date else ""
        where = ", ".join(part for part in (f"week {self.week}" if self.week else "", day, self.movement or "") if part)
        return f"{where}: {self.says}" if where else self.says


Finder = Callable[[Read], Iterable[Break]]
Applies = Callable[[Read], bool]


@dataclass(frozen=True)
class Check:
    """``strikes``: what a coach would strike out. ``must``: no block may break it; else few may."""

    id: str
    point: Point
    strikes: str
    source: str
    applies: Applies
    find: Finder

    @property
    def must(self) -> bool:
        return self.point != "should"

    def breaks(self, read: Read) -> list[Break] | None:
        """None where the check does not apply to the block."""
        return list(self.find(read)) if self.applies(read) else None


def check(
    point: Point, strikes: str, *, to: Applies = lambda read: True, source: str = NO_SOURCE
) -> Callable[[Finder], Check]:
    """Makes a check of a function that finds the breaks; its id is the function's name."""

    def made(find: Finder) -> Check:
        return Check(find.__name__.replace("_", "-"), point, strikes, source, to, find)  # type: ignore[attr-defined]

    return made


def at(line: Line, says: str) -> Break:
    return Break(says, line.week.number, line.session.date, line.movement.id)


def in_week(week: Week, says: str) -> Break:
    return Break(says, week.number)
