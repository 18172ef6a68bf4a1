"""Small tools on sampled force: runs of samples, integrals, noise that a few strays do not sway."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Samples = NDArray[np.float64]
LEAST_ERROR_N = 0.01  # of a mean: a record of whole newtons or of zeros is not without error


def runs(mask: NDArray[np.bool_]) -> list[tuple[int, int]]:
    """Half-open ranges [start, end) where the mask holds."""
    edges = np.diff(np.concatenate(([False], mask, [False])).astype(np.int8))
    return [(int(a), int(b)) for a, b in zip(np.flatnonzero(edges == 1), np.flatnonzero(edges == -1), strict=True)]


def first_run(mask: NDArray[np.bool_], least: int) -> int | None:
    """Where the mask first holds for ``least`` samples in a row; None where it never does."""
    return next((a for a, b in runs(mask) if b - a >= least), None)


def smoothed(values: Samples, width: int) -> Samples:
    """Moving mean over ``width`` samples; the ends use what is there."""
    if width < 2:
        return values
    sums = np.concatenate(([0.0], np.cumsum(values)))
    left = np.clip(np.arange(len(values)) - width // 2, 0, None)
    right = np.clip(left + width, None, len(values))
    means: Samples = (sums[right] - sums[left]) / (right - left)
    return means


def robust_sd(values: Samples) -> float:
    """Standard deviation from the median absolute deviation; the plain one where most values are equal."""
    spread = float(np.median(np.abs(values - np.median(values)))) * 1.4826
    return spread if spread > 0 else float(np.std(values))


def fast_noise(values: Samples) -> float:
    """Standard deviation of what changes from sample to sample."""
    return robust_sd(np.diff(values)) / float(np.sqrt(2.0))


def width_against(noise: float, wanted: float) -> int:
    """Over how many samples a mean is taken so that ``noise`` of each is ``wanted`` in it."""
    return max(1, int(np.ceil((noise / wanted) ** 2))) if wanted > 0 else 1


def integral(values: Samples, rate_Hz: float) -> Samples:
    """Cumulative trapezoid, 0 at the first sample."""
    steps = (values[1:] + values[:-1]) / (2.0 * rate_Hz)
    total: Samples = np.concatenate(([0.0], np.cumsum(steps)))
    return total


def window_sd(values: Samples, length: int) -> tuple[Samples, Samples]:
    """Mean and standard deviation of every window of ``length`` samples, by its first sample."""
    centred = values - np.mean(values)
    sums = np.concatenate(([0.0], np.cumsum(centred)))
    squares = np.concatenate(([0.0], np.cumsum(centred**2)))
    means = (sums[length:] - sums[:-length]) / length
    variance = (squares[length:] - squares[:-length]) / length - means**2
    return means + np.mean(values), np.sqrt(np.clip(variance, 0.0, None))


def error_of_mean(values: Samples, block: int) -> float:
    """Standard error of the mean of samples that sway together: of block means, and at least the plain one."""
    plain = float(np.std(values)) / float(np.sqrt(len(values)))
    count = len(values) // block if block else 0
    if count < 4:
        # Too short to see the sway: as if every block's length of samples were one reading.
        readings = max(1.0, len(values) / max(1, block // 4))
        return max(plain, float(np.std(values)) / float(np.sqrt(readings)))
    means = values[: count * block].reshape(count, block).mean(axis=1)
    return max(plain, float(np.std(means, ddof=1)) / float(np.sqrt(count)))
