"""A force-platform record as numbers: vertical force over time, evenly sampled."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planner.domain.findings import Finding


@dataclass(frozen=True)
class ForceRecord:
    """Vertical ground force (N, up is positive) at ``rate_Hz``; a missing sample is not-a-number.

    ``sides``: the two platforms' forces by name (``left``, ``right``, or the columns' own names), whose sum is
    ``force_N``; empty where there is one platform. ``remarks``: what was chosen and assumed while reading; ``doubts``:
    what another choice would change, with the option that makes it. ``rate_stated``: no times in it prove the rate.
    """

    name: str
    rate_Hz: float
    force_N: Sequence[float]
    sides: tuple[tuple[str, Sequence[float]], ...] = ()
    remarks: tuple[str, ...] = ()
    doubts: tuple[Finding, ...] = ()
    rate_stated: bool = False

    @property
    def duration_s(self) -> float:
        return len(self.force_N) / self.rate_Hz
