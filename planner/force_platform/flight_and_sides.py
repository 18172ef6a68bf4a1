"""What every jump on a platform has: flight and its errors, the two platforms' shares, the piece of trace to draw."""

from __future__ import annotations

import numpy as np

from planner.estimate.notebook import Notebook
from planner.estimate.uncertainty import Estimate
from planner.force_platform import record_faults
from planner.force_platform.flights import Air
from planner.force_platform.jump_case import Case
from planner.force_platform.platform_jump import SideLoad
from planner.force_platform.signal import Samples
from planner.force_platform.weighing import Weighing

DRAWN_BEFORE_s, DRAWN_AFTER_s = 0.3, 0.6


def flight_of(air: Air, rate_Hz: float) -> tuple[Estimate, float, float]:
    """Flight from zero force to zero force, the time between the crossings, and what lies under the threshold."""
    crossing_s = (air.end - air.start) / rate_Hz
    under_s = air.before.under_s + air.after.under_s
    se = float(np.hypot(air.before.se_s, air.after.se_s))
    return Estimate(crossing_s - under_s, se), crossing_s, under_s


def side_loads(
    case: Case, push: tuple[int, int], weighing: Weighing | None, landing_end: int, notes: Notebook
) -> tuple[SideLoad, ...]:
    """Each platform's share, with its own zero read in the flight; none of a jump from one platform to the other."""
    air = case.air
    margin = (air.end - air.start) // 5
    core = slice(air.start + margin, air.end - margin)
    series = []
    for name, values in case.record.sides:
        force = np.nan_to_num(np.asarray(values, dtype=np.float64))
        series.append((name, force - float(np.median(force[core]))))
    loads = []
    for name, force in series:
        share = None if weighing is None else _share(series, force, weighing.start, weighing.end)
        push_share = _share(series, force, *push)
        landing = _share(series, force, air.end, max(landing_end, air.end + 1))
        peak = float(np.max(force[push[0] : push[1]]))
        loads.append(SideLoad(name, share, push_share if push_share is not None else 0.5, landing, peak))
    if record_faults.between_platforms(loads, case.rule, notes):
        return ()
    for side in loads:
        if side.share_of_weighing is not None:
            record_faults.one_foot(side.name, side.share_of_weighing, case.rule, notes)
    return tuple(loads)


def _share(series: list[tuple[str, Samples]], force: Samples, start: int, end: int) -> float | None:
    total = sum(float(np.mean(one[start:end])) for _, one in series)
    return float(np.mean(force[start:end])) / total if total > 1.0 else None


def drawn(force_N: Samples, rate_Hz: float, start: int, end: int) -> tuple[float, list[float]]:
    """The piece to draw, from a little before ``start`` to a little after ``end``: its start (s), its forces (N)."""
    first = max(0, start - round(DRAWN_BEFORE_s * rate_Hz))
    last = min(len(force_N), end + round(DRAWN_AFTER_s * rate_Hz))
    return first / rate_Hz, [float(value) for value in force_N[first:last]]
