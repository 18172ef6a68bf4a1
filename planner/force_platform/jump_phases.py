"""The phases of a jump on a platform (after McMahon et al. 2018, Strength Cond J 40(4):96)."""

from __future__ import annotations

import numpy as np

from planner.domain.platform_rule import PlatformRule
from planner.force_platform.jump_case import Case
from planner.force_platform.platform_jump import JumpPhase, PhaseName
from planner.force_platform.push_motion import Motion
from planner.force_platform.signal import Samples, integral
from planner.force_platform.weighing import Weighing
from planner.units import STANDARD_GRAVITY_m_s2 as g


class PhaseMaker:
    """Cuts phases out of one record: forces with the zero offset off, times from the record's start."""

    def __init__(self, force_N: Samples, rate_Hz: float, weight_N: float) -> None:
        self._force, self.rate_Hz, self._weight = force_N, rate_Hz, weight_N

    def phase(self, name: PhaseName, start: int, end: int) -> JumpPhase:
        values = self._force[start : max(end, start + 1)]
        impulse = float(np.sum(values - self._weight)) / self.rate_Hz
        mean, peak = float(np.mean(values)), float(np.max(values))
        return JumpPhase(name, start / self.rate_Hz, end / self.rate_Hz, mean, peak, impulse)

    def landing_end(self, landing: int, falling_m_s: float) -> int:
        """Where the fall is stopped: speed back to zero after landing; at most one second on."""
        values = self._force[landing : landing + round(self.rate_Hz)]
        if len(values) < 2:
            return len(self._force)
        speed = integral((values - self._weight) * g / self._weight, self.rate_Hz) - falling_m_s
        stopped = np.flatnonzero(speed >= 0)
        return landing + (int(stopped[0]) if len(stopped) else len(values))


def push_start(motion: Motion, onset: int, rule: PlatformRule) -> tuple[int, int]:
    """Samples of the fastest fall (end of unweighting) and of the first rise faster than the rule's (start of push).

    The rise counts after the lowest point: a body may sway up before it dips.
    """
    speed = motion.speed_m_s
    fastest_fall = int(np.argmin(speed))
    rising = np.flatnonzero(speed[fastest_fall:] > rule.propulsion_over_m_s)
    start = fastest_fall + int(rising[0]) if len(rising) else len(speed) - 1
    return onset + fastest_fall, onset + start


def standing_phases(
    maker: PhaseMaker, case: Case, weighing: Weighing | None, first: int, motion: Motion
) -> tuple[JumpPhase, ...]:
    """Weighing to landing; ``first``: where the motion begins, the onset where there is a weighing.

    A squat jump has no unweighting or braking: its push begins at the onset. Without a weighing nobody knows where
    unweighting began.
    """
    air = case.air
    fastest_fall, push = push_start(motion, first, case.rule)
    phases = [maker.phase("weighing", weighing.start, weighing.end)] if weighing else []
    if case.kind == "countermovement":
        if weighing:
            phases.append(maker.phase("unweighting", first, fastest_fall))
        phases.append(maker.phase("braking", fastest_fall, push))
        phases.append(maker.phase("propulsion", push, air.start))
    else:
        phases.append(maker.phase("propulsion", first, air.start))
    phases.append(maker.phase("flight", air.start, air.end))
    falling = max(0.0, g * (air.end - air.start) / maker.rate_Hz - motion.take_off_m_s.value)
    phases.append(maker.phase("landing", air.end, maker.landing_end(air.end, falling)))
    return tuple(phases)
