"""Where something is: one typed address for variables, rows, breaches and findings. Text is only ever made from it."""

from __future__ import annotations

from typing import NamedTuple

from planner.domain.terms import Joint, Leg


class Address(NamedTuple):
    """A place in a block or in what it was made from; None where the address does not say.

    ``slot``: training day of the weekly routine, from 1. ``session`` and ``item``: ids in the block. ``of``: what is
    meant there: a quality, tier, pattern, family, session shape, currency or piece of equipment. ``entry``: number of
    an entry in a list of the athlete's file, from 0.
    """

    week: int | None = None
    phase: str | None = None
    slot: int | None = None
    session: str | None = None
    item: str | None = None
    movement: str | None = None
    of: str | None = None
    joint: Joint | None = None
    leg: Leg | None = None
    entry: int | None = None
    person: str | None = None

    def __str__(self) -> str:
        """``w3/d2/hinge``: a unique name for solvers and logs; nothing reads it back."""
        week = None if self.week is None else f"w{self.week}"
        slot = None if self.slot is None else f"d{self.slot}"
        entry = None if self.entry is None else str(self.entry)
        parts = (self.person, week, self.phase, slot, self.session, entry, self.movement, self.item, self.of)
        return "/".join(part for part in (*parts, self.joint, self.leg) if part is not None)


NOWHERE = Address()
