"""Following a lift: its maximum as a level that drifts, from one reading a session; a Kalman filter of two states.

All in 100 ln(kg), so that a unit is 1 % of the maximum, and time in weeks. The load is that of the system lifted: for
one-leg lifts the share of the body that goes with it is in.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from planner.domain.follow_up import LiftFollowing

EPLEY_reps = 30.0  # 1RM = w (1 + reps / 30); the same formula as estimate/strength.py
TWO_SIDED_50, TWO_SIDED_90 = 0.674, 1.645  # standard errors; properties of the normal curve

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Reading:
    """``level``: 100 ln(kg) of the maximum that the set speaks for; ``error``: its standard error, percent."""

    week: float
    level: float
    error: float


@dataclass(frozen=True)
class LiftLevel:
    """The maximum as it is believed: level and drift a week with their standard errors, in percent."""

    level: float
    error: float
    drift: float
    drift_error: float

    @property
    def system_kg(self) -> float:
        return math.exp(self.level / 100)

    def band_kg(self) -> tuple[float, float]:
        """The middle 90 %."""
        reach = TWO_SIDED_90 * self.error
        return math.exp((self.level - reach) / 100), math.exp((self.level + reach) / 100)


def read_set(week: float, system_kg: float, reps: int, left: float, rule: LiftFollowing) -> Reading | None:
    """A working set of ``reps`` with ``left`` in reserve; None for a set too long to say anything."""
    total = reps + left
    if total > rule.most_reps or system_kg <= 0 or reps < 1:
        return None
    rep_percent = 100 / (EPLEY_reps + total)
    reserve = rep_percent * (rule.reserve_error_reps + rule.reserve_error_per_rep * left)
    level = 100 * math.log(system_kg * (1 + total / EPLEY_reps))
    return Reading(week, level, math.hypot(rule.form_percent, reserve))


def follow(
    start: LiftLevel, readings: Sequence[Reading], rule: LiftFollowing, until_week: float | None = None
) -> LiftLevel:
    """The level after all readings, carried on to ``until_week``; ``start`` is that of week 0."""
    state = np.array([start.level, start.drift])
    spread = np.diag([start.error**2, start.drift_error**2])
    week = 0.0
    for reading in sorted(readings, key=lambda one: one.week):
        state, spread = _later(state, spread, reading.week - week, rule)
        week = max(week, reading.week)
        gain = spread[:, 0] / (spread[0, 0] + reading.error**2)
        state = state + gain * (reading.level - state[0])
        spread = spread - np.outer(gain, spread[0])
    if until_week is not None:
        state, spread = _later(state, spread, until_week - week, rule)
    errors = np.sqrt(np.diag(spread))
    return LiftLevel(float(state[0]), float(errors[0]), float(state[1]), float(errors[1]))


def start_level(system_kg: float, error_percent: float, rule: LiftFollowing) -> LiftLevel:
    """A maximum as it was tested, with the drift that is expected before any reading."""
    return LiftLevel(100 * math.log(system_kg), error_percent, rule.drift_percent_a_week, rule.drift_error_percent)


def _later(state: Floats, spread: Floats, weeks: float, rule: LiftFollowing) -> tuple[Floats, Floats]:
    weeks = max(0.0, weeks)
    step = np.array([[1.0, weeks], [0.0, 1.0]])
    wander = np.array([[rule.wander_percent**2 * weeks, 0.0], [0.0, 0.0]])
    return step @ state, step @ spread @ step.T + wander
