"""Body weight, zero line, drift and take-off speed from all that a record says of them, weighed by their errors.

Weighing before the jump, dividing by it and integrating is the usual way, and all it uses is one second. A record says
more. In the air the platform reads its zero line. Standing after the landing weighs the same body again. And between
two still stands the impulse of all forces is body weight times the time, whatever happened between: the speed at
take-off is reached from either side. All of this is linear in what is sought, so one least-squares solution takes it
together, what is missing left out, and gives the error of every figure and of the speed with their correlation.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from planner.estimate.uncertainty import Estimate
from planner.force_platform.signal import Samples

WEIGHT, ZERO, DRIFT, NOISE_IMPULSE, START_MOMENTUM = range(5)
LEAST_ERROR_N = 0.01  # of a mean: a record of whole newtons or of zeros is not without error


@dataclass(frozen=True)
class MeanForce:
    """A mean of samples, at the middle of their time (s, from the middle of the flight); ``in_air``: zero line only."""

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
class Known:
    """What is observed of one jump. ``noise_Ns``: of the noise summed along the push; ``start_Ns``: of the body's
    momentum where the push's impulse begins, in a stand that is never quite still."""

    readings: Sequence[MeanForce]
    push: Impulse
    noise_Ns: float
    start_Ns: float
    drift_allowed_N_s: float
    again: StillAgain | None = None


@dataclass(frozen=True)
class Balance:
    """The solution; ``zero_N`` and ``drift_N_s`` of the zero line, at and from the middle of the flight."""

    values: Samples
    covariance: NDArray[np.float64] = field(repr=False)

    @property
    def weight_N(self) -> Estimate:
        return self._of(WEIGHT)

    @property
    def zero_N(self) -> Estimate:
        return self._of(ZERO)

    @property
    def drift_N_s(self) -> Estimate:
        return self._of(DRIFT)

    def take_off_m_s(self, push: Impulse, until: Estimate, g: float) -> Estimate:
        """Speed when force ends; ``until``: seconds from the start of the push's impulse to zero force."""
        weight = float(self.values[WEIGHT])
        impulse = push.total_Ns - float(self.values @ _of_push(push))
        slopes = -_of_push(push) * g / weight
        slopes[WEIGHT] = -impulse * g / weight**2
        by_solution = float(slopes @ self.covariance @ slopes)
        return Estimate(impulse * g / weight - g * until.value, float(np.sqrt(by_solution + (g * until.se) ** 2)))

    def _of(self, place: int) -> Estimate:
        return Estimate(float(self.values[place]), float(np.sqrt(self.covariance[place, place])))


def solve(known: Known) -> Balance:
    """Weighted least squares; drift, summed noise and the start's momentum are drawn to none by their own errors."""
    rows: list[tuple[dict[int, float], float, float]] = [
        ({WEIGHT: 0.0 if one.in_air else 1.0, ZERO: 1.0, DRIFT: one.time_s}, one.mean_N, max(one.se_N, LEAST_ERROR_N))
        for one in known.readings
    ]
    rows.append(({DRIFT: 1.0}, 0.0, max(known.drift_allowed_N_s, 1e-6)))
    rows.append(({NOISE_IMPULSE: 1.0}, 0.0, max(known.noise_Ns, 1e-6)))
    rows.append(({START_MOMENTUM: 1.0}, 0.0, max(known.start_Ns, 1e-6)))
    if known.again is not None:
        rows.append(_between_still_stands(known.push, known.again))
    matrix = np.zeros((len(rows), 5))
    seen = np.zeros(len(rows))
    for number, (terms, value, error) in enumerate(rows):
        for place, factor in terms.items():
            matrix[number, place] = factor / error
        seen[number] = value / error
    covariance = np.asarray(np.linalg.inv(matrix.T @ matrix), dtype=np.float64)
    values = np.asarray(covariance @ matrix.T @ seen, dtype=np.float64)
    return Balance(values, covariance)


def left_over_Ns(balance: Balance, push: Impulse, again: StillAgain) -> Estimate:
    """What the impulse between two still stands exceeds what a solution without it expects."""
    terms, total, error = _between_still_stands(push, again)
    row = np.zeros(5)
    for place, factor in terms.items():
        row[place] = factor
    return Estimate(
        total - float(row @ balance.values), float(np.hypot(np.sqrt(row @ balance.covariance @ row), error))
    )


def _of_push(push: Impulse) -> Samples:
    """What of the push's impulse as read is not the body's: zero line, drift, noise, less what it began with."""
    return np.array([0.0, push.seconds, push.moment_s2, 1.0, -1.0])


def _between_still_stands(push: Impulse, again: StillAgain) -> tuple[dict[int, float], float, float]:
    """All impulses, as read, are body weight times the whole time and what the zero line and noise added."""
    terms = {
        WEIGHT: again.whole_s,
        ZERO: push.seconds + again.landing.seconds,
        DRIFT: push.moment_s2 + again.landing.moment_s2,
        NOISE_IMPULSE: 1.0,
        START_MOMENTUM: -1.0,
    }
    return terms, push.total_Ns + again.landing.total_Ns, max(again.error_Ns, 1e-6)
