"""A straight line through days: how much a measure changes over a span of time, with the error of each day."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planner.estimate.uncertainty import Estimate


def slope_weights(times: Sequence[float], errors: Sequence[float]) -> list[float]:
    """The slope by weighted least squares as weights: slope = sum(weight x value), error^2 = sum(weight^2 x error^2).

    For T equal weeks with the error s its change over all of them errs by s sqrt(12 (T - 1) / (T (T + 1))). Raises
    ValueError where all days are at one time.
    """
    shares = [1.0 / error**2 for error in errors]
    middle = sum(share * time for share, time in zip(shares, times, strict=True)) / sum(shares)
    spread = sum(share * (time - middle) ** 2 for share, time in zip(shares, times, strict=True))
    if spread <= 0:
        raise ValueError("a line needs days at two times or more")
    return [share * (time - middle) / spread for share, time in zip(shares, times, strict=True)]


def change_over(times: Sequence[float], days: Sequence[Estimate], span: float) -> Estimate:
    """The change over ``span``, in the unit of ``times``. The line has its own level: a constant offset drops out."""
    errors = [day.se for day in days]
    weights = slope_weights(times, errors)
    slope = sum(weight * day.value for weight, day in zip(weights, days, strict=True))
    error = math.sqrt(sum((weight * own) ** 2 for weight, own in zip(weights, errors, strict=True)))
    return Estimate(span * slope, span * error)
