"""One jump to be analysed: the record, where the jump is in it, and by which rule."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from planner.domain.platform_rule import PlatformRule
from planner.force_platform.flights import Air
from planner.force_platform.force_record import ForceRecord
from planner.force_platform.platform_jump import JumpKind
from planner.force_platform.signal import Samples
from planner.force_platform.stands import Standing

Wanted = Literal["auto", "countermovement", "squat", "drop"]


@dataclass(frozen=True)
class Options:
    """``number``: which jump of the record, from 1; ``take_all``: every one. ``body_mass_kg``: a drop jump's,
    or what the standing is held against."""

    kind: Wanted = "auto"
    number: int | None = None
    take_all: bool = False
    body_mass_kg: float | None = None


@dataclass(frozen=True)
class JumpFound:
    """A flight and the contacts around it: the one before begins at ``contact_start``, the one after lasts until
    ``next_contact_end``. ``others``: further stretches of air, an empty platform or other flights, which show the zero
    line as well. ``rebound``: it leaves from as short a contact as a drop jump's."""

    contact_start: int
    air: Air
    others: tuple[Air, ...]
    rebound: bool
    next_contact_end: int


@dataclass(frozen=True)
class Case(JumpFound):
    """``force_N``: missing samples bridged, ``missing`` says where. ``standing``: the stands of the record."""

    record: ForceRecord
    force_N: Samples
    missing: np.ndarray
    kind: JumpKind
    number: int
    rule: PlatformRule
    options: Options
    standing: Standing

    @property
    def rate_Hz(self) -> float:
        return self.record.rate_Hz

    @property
    def just_landed(self) -> int:
        """How far into the landing the record must be whole, so that the flight can be read."""
        return min(len(self.force_N), self.air.end + round(self.rule.landing_whole * self.rate_Hz))
