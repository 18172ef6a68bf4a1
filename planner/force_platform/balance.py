"""Body weight, zero line, drift and take-off speeds from all that a record says of them, weighed by their errors.

Weighing before the jump, dividing by it and integrating is the usual way, and all it uses is one second. A record says
more. In the air the platform reads its zero line. Every still stand weighs the same body again. And between two still
stands the impulse of all forces is body weight times the time, whatever happened between: the speed at take-off is
reached from either side. All of this is linear in what is sought, so one least-squares solution takes all jumps of a
record together, what is missing left out, and gives the error of every figure and of the speeds with their correlation.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from planner.estimate.uncertainty import Estimate
from planner.force_platform.signal import LEAST_ERROR_N, Samples
from planner.units import STANDARD_GRAVITY_m_s2 as g

WEIGHT, ZERO, DRIFT = range(3)
SHARED, OF_A_JUMP = 3, 2  # unknowns of the record, and of each jump: noise summed along its push, momentum at its start


@dataclass(frozen=True)
class MeanForce:
    """A mean of samples, at the middle of their time (s, from the record's start); ``in_air``: zero line only."""

    time_s: float
    mean_N: float
    se_N: float
    in_air: bool


@dataclass(frozen=True)
class Impulse:
    """A contact's sum of force, as read: ``total_Ns`` over ``seconds``; ``moment_s2``: the integral of time over it."""

    total_Ns: float
    seconds: float
    moment_s2: float


@dataclass(frozen=True)
class StillAgain:
    """The landing up to a still stand: its impulse, the time of the whole movement, the error of both together."""

    landing: Impulse
    whole_s: float
    error_Ns: float


@dataclass(frozen=True)
class JumpKnown:
    """What is observed of one jump from a stand. ``noise_Ns``: of the noise summed along the push; ``start_Ns``: of the
    body's momentum where the push's impulse begins, in a stand that is never quite still."""

    push: Impulse
    noise_Ns: float
    start_Ns: float
    again: StillAgain | None = None


@dataclass(frozen=True)
class Known:
    """What is observed in a record."""

    readings: Sequence[MeanForce]
    drift_allowed_N_s: float
    jumps: Sequence[JumpKnown] = ()


@dataclass(frozen=True)
class Balance:
    """The solution. Times are from the record's start, where ``ZERO`` is read; the zero line drifts on from there."""

    values: Samples
    covariance: NDArray[np.float64] = field(repr=False)

    @property
    def weight_N(self) -> Estimate:
        return self._estimate({WEIGHT: 1.0})

    @property
    def drift_N_s(self) -> Estimate:
        return self._estimate({DRIFT: 1.0})

    def zero_N(self, time_s: float) -> Estimate:
        return self._estimate({ZERO: 1.0, DRIFT: time_s})

    def noise_and_start_Ns(self, place: int) -> tuple[float, float]:
        """Of a jump: the noise summed along its push, and the momentum at its start."""
        first = SHARED + OF_A_JUMP * place
        return float(self.values[first]), float(self.values[first + 1])

    def take_off_m_s(self, known: Known, place: int, until: Estimate) -> Estimate:
        """Speed when force ends; ``until``: seconds from the start of the push's impulse to zero force."""
        push = known.jumps[place].push
        weight = float(self.values[WEIGHT])
        row = _row(_of_push(push, place), len(self.values))
        impulse = push.total_Ns - float(row @ self.values)
        slopes = -row * g / weight
        slopes[WEIGHT] = -impulse * g / weight**2
        by_solution = float(slopes @ self.covariance @ slopes)
        return Estimate(impulse * g / weight - g * until.value, float(np.sqrt(by_solution + (g * until.se) ** 2)))

    def left_over_Ns(self, push: Impulse, place: int, again: StillAgain) -> Estimate:
        """By how much the impulse between two still stands exceeds what a solution without it expects."""
        terms, total, error = _between_still_stands(push, place, again)
        told = self._estimate(terms)
        return Estimate(total - told.value, float(np.hypot(told.se, error)))

    def _estimate(self, terms: dict[int, float]) -> Estimate:
        row = _row(terms, len(self.values))
        return Estimate(float(row @ self.values), float(np.sqrt(row @ self.covariance @ row)))


def solve(known: Known) -> Balance:
    """Weighted least squares; drift, summed noise and the starts' momentum are drawn to none by their own errors."""
    rows: list[tuple[dict[int, float], float, float]] = [
        ({WEIGHT: 0.0 if one.in_air else 1.0, ZERO: 1.0, DRIFT: one.time_s}, one.mean_N, max(one.se_N, LEAST_ERROR_N))
        for one in known.readings
    ]
    rows.append(({DRIFT: 1.0}, 0.0, max(known.drift_allowed_N_s, 1e-6)))
    for place, jump in enumerate(known.jumps):
        first = SHARED + OF_A_JUMP * place
        rows.append(({first: 1.0}, 0.0, max(jump.noise_Ns, 1e-6)))
        rows.append(({first + 1: 1.0}, 0.0, max(jump.start_Ns, 1e-6)))
        if jump.again is not None:
            rows.append(_between_still_stands(jump.push, place, jump.again))
    unknowns = SHARED + OF_A_JUMP * len(known.jumps)
    matrix = np.array([_row(terms, unknowns) / error for terms, _, error in rows])
    seen = np.array([value / error for _, value, error in rows])
    covariance = np.asarray(np.linalg.inv(matrix.T @ matrix), dtype=np.float64)
    values = np.asarray(covariance @ matrix.T @ seen, dtype=np.float64)
    return Balance(values, covariance)


def _row(terms: dict[int, float], unknowns: int) -> Samples:
    return np.array([terms.get(place, 0.0) for place in range(unknowns)])


def _of_push(push: Impulse, place: int) -> dict[int, float]:
    """What of the push's impulse as read is not the body's: zero line, drift, noise, less what it began with."""
    first = SHARED + OF_A_JUMP * place
    return {ZERO: push.seconds, DRIFT: push.moment_s2, first: 1.0, first + 1: -1.0}


def _between_still_stands(push: Impulse, place: int, again: StillAgain) -> tuple[dict[int, float], float, float]:
    """All impulses, as read, are body weight times the whole time and what the zero line and noise added."""
    terms = _of_push(push, place)
    terms[WEIGHT] = again.whole_s
    terms[ZERO] += again.landing.seconds
    terms[DRIFT] += again.landing.moment_s2
    return terms, push.total_Ns + again.landing.total_Ns, max(again.error_Ns, 1e-6)
