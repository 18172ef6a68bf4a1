"""Values with standard errors: from trials to one value, from inputs to one error, from an error to a confidence.

An input that enters two results is one error, not two (body mass, heel rise and contact time enter the force both now
and at the target). Results therefore carry their sensitivity to each input by name; a difference subtracts
sensitivities first and squares afterwards.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Estimate:
    """A value and its standard error (one standard deviation), both in the unit that the field's name gives."""

    value: float
    se: float

    def __str__(self) -> str:
        return f"{self.value:.4g} ± {self.se:.2g}"


@dataclass(frozen=True)
class Sensitive:
    """A value with its partial derivative to each named input."""

    value: float
    by_input: Mapping[str, float]

    def __sub__(self, other: Sensitive) -> Sensitive:
        names = sorted({*self.by_input, *other.by_input})
        return Sensitive(
            self.value - other.value,
            {name: self.by_input.get(name, 0.0) - other.by_input.get(name, 0.0) for name in names},
        )

    def with_errors(self, input_se: Mapping[str, float]) -> Estimate:
        """First-order propagation; inputs are independent of each other, and a shared input has one name."""
        variance = sum((slope * input_se.get(name, 0.0)) ** 2 for name, slope in self.by_input.items())
        return Estimate(self.value, math.sqrt(variance))


def single_trial_se(*, typical_error: float, resolution: float) -> float:
    """Standard error of one trial: its typical error and its scale's step combined (uniform: step / sqrt 12)."""
    return math.hypot(typical_error, resolution / math.sqrt(12.0))


def frame_se_s(frames_per_second: float) -> float:
    """Standard error of a time between two video frames: each end is within one frame, so a triangle of ± one frame."""
    return 1.0 / (frames_per_second * math.sqrt(6.0))


def confidence(*, relative_se: float, scatter: float) -> float:
    """How far a deficit is believed, 0 to 1: scatter^2 / (scatter^2 + SE^2).

    It shrinks a reading towards "no deficit" when deficits scatter by ``scatter`` between athletes and the test errs by
    ``relative_se`` (both fractions). Using it here: common practice, no source.
    """
    return scatter**2 / (scatter**2 + relative_se**2)


def inside_noise(estimate: Estimate, *, noise_multiple: float) -> bool:
    """Whether the value is smaller than ``noise_multiple`` of its own standard errors."""
    return abs(estimate.value) < noise_multiple * estimate.se
