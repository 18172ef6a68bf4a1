"""Force-velocity profile from loaded jumps (Samozino et al. 2008, J Biomech 41:2940; 2012, MSSE 44:313)."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from planner.units import STANDARD_GRAVITY_m_s2 as g

# Bounds of the search for the best slope, N s/m per kg: far outside anyone's jump (5 to 20); numerical only.
STEEPEST, FLATTEST = 200.0, 0.5
SEARCH_STEPS = 120


@dataclass(frozen=True)
class LoadPoint:
    """Mean force (N per kg of body mass) and mean speed (m/s) of the push-off with one load."""

    load_kg: float
    force_N_kg: float
    speed_m_s: float


@dataclass(frozen=True)
class Profile:
    """F = f0 + slope x v, per kg of body mass; ``slope`` is negative."""

    f0_N_kg: float
    v0_m_s: float
    slope: float
    power_W_kg: float
    best_slope: float

    @property
    def imbalance(self) -> float:
        """Slope over best slope: below 1 too little force, above 1 too little velocity."""
        return self.slope / self.best_slope


def load_point(*, load_kg: float, rise_m: float, body_mass_kg: float, push_off_m: float) -> LoadPoint:
    """Mean force (m + load) g (h/d + 1) and mean speed sqrt(g h / 2) (Samozino et al. 2008)."""
    force = (body_mass_kg + load_kg) * g * (rise_m / push_off_m + 1.0)
    return LoadPoint(load_kg, force / body_mass_kg, math.sqrt(g * rise_m / 2.0))


def take_off_speed_on_profile(*, power_W_kg: float, slope: float, push_off_m: float) -> float:
    """v = d (sqrt(S^2/4 + (2/d)(2 sqrt(-P S) - g)) + S/2) (Samozino et al. 2012, eq. 6); 0 if there is no take-off."""
    inside = slope**2 / 4.0 + 2.0 / push_off_m * (2.0 * math.sqrt(-power_W_kg * slope) - g)
    return max(0.0, push_off_m * (math.sqrt(inside) + slope / 2.0)) if inside > 0 else 0.0


def best_slope(*, power_W_kg: float, push_off_m: float) -> float:
    """The slope with the fastest take-off at the same maximal power, by golden-section search on its logarithm."""

    def speed(log_slope: float) -> float:
        return take_off_speed_on_profile(power_W_kg=power_W_kg, slope=-math.exp(log_slope), push_off_m=push_off_m)

    low, high = math.log(FLATTEST), math.log(STEEPEST)
    grid = [low + (high - low) * step / SEARCH_STEPS for step in range(SEARCH_STEPS + 1)]
    top = max(range(len(grid)), key=lambda place: speed(grid[place]))
    low, high = grid[max(0, top - 1)], grid[min(SEARCH_STEPS, top + 1)]
    ratio = (math.sqrt(5.0) - 1.0) / 2.0
    for _ in range(80):
        left, right = high - ratio * (high - low), low + ratio * (high - low)
        if speed(left) < speed(right):
            low = left
        else:
            high = right
    return -math.exp((low + high) / 2.0)


def profile_of(points: Sequence[LoadPoint], *, push_off_m: float) -> Profile | None:
    """Least-squares line through the points; None if it does not fall, or its f0 does not exceed gravity."""
    count = len(points)
    mean_v = sum(point.speed_m_s for point in points) / count
    mean_f = sum(point.force_N_kg for point in points) / count
    spread = sum((point.speed_m_s - mean_v) ** 2 for point in points)
    if spread < 1e-9:
        return None
    slope = sum((point.speed_m_s - mean_v) * (point.force_N_kg - mean_f) for point in points) / spread
    f0 = mean_f - slope * mean_v
    if slope > -1e-6 or f0 <= g:
        return None
    v0 = -f0 / slope
    power = f0 * v0 / 4.0
    return Profile(f0, v0, slope, power, best_slope(power_W_kg=power, push_off_m=push_off_m))
