"""Simulated force-platform records with known truth: shapes drawn at random, sampled, shifted, drifting and noisy.

The force is drawn on a fine grid; take-off speed is its own integral, flight is ballistic, and the landing is as hard
as it must be to end in quiet standing. Sampling takes every so many points with a random start, as a clock that knows
nothing of the jump would.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from planner.force_platform.force_record import ForceRecord
from planner.units import STANDARD_GRAVITY_m_s2 as g

FINE_Hz = 40_000


@dataclass(frozen=True)
class Shape:
    """Durations (s) and sizes (body weights) of one jump; ``fall``: how the push ends, 1 a straight line to zero.

    Recorded jumps leave and meet the ground less smoothly: under ``tail`` the push ends so many times slower
    (``tail_slower``), the forefoot carries ``toe`` for a moment, at the end ``toe_kept`` of it, before the heel, and
    one foot leaves or lands ``off_apart_s`` or ``on_apart_s`` after the other. Nor does anyone stand still:
    ``sway`` is the force of a slow rise and fall about no speed on the whole.
    """

    quiet_s: float = 1.5
    dip_s: float = 0.35
    dip: float = 0.6
    hold_s: float = 0.0  # a slow squat: braking softly at ``hold`` body weights, as quiet as standing
    hold: float = 1.1
    brake_s: float = 0.20
    brake: float = 2.0
    push_s: float = 0.22
    push: float = 2.3
    end_s: float = 0.07
    fall: float = 1.5
    tail: float = 0.0
    tail_slower: float = 1.0
    toe: float = 0.0
    toe_s: float = 0.0
    toe_softer: float = 1.0
    toe_kept: float = 1.0
    impact_s: float = 0.05
    settle_s: float = 0.25
    after_s: float = 1.2
    off_apart_s: float = 0.0
    on_apart_s: float = 0.0
    sway: float = 0.0
    sway_Hz: float = 1.0
    sway_from: float = 0.0  # part of its period


SHAPES = {
    "one hump": Shape(),
    "deep and slow": Shape(dip_s=0.5, dip=0.5, brake_s=0.3, brake=1.7, push_s=0.35, push=1.9, end_s=0.09),
    "quick": Shape(dip_s=0.22, dip=0.8, brake_s=0.14, brake=2.6, push_s=0.15, push=2.4, end_s=0.05, fall=2.0),
    "two humps": Shape(brake=2.4, push=1.9, push_s=0.25),
    "squat jump": Shape(dip_s=0.0, dip=0.0, brake_s=0.15, brake=1.5, push_s=0.25, push=2.2, end_s=0.06),
}


SMOOTH = {
    "tail": 0.0, "toe": 0.0, "toe_s": 0.0, "off_apart_s": 0.0, "on_apart_s": 0.0, "sway": 0.0,
}  # fmt: skip


@dataclass(frozen=True)
class Truth:
    rise_m: float
    take_off_m_s: float
    flight_s: float
    take_off_s: float
    landing_s: float
    body_weight_N: float
    push_end_N: float
    under_s: dict[float, float]  # time under a threshold on the ground, before take-off and after landing


@dataclass(frozen=True)
class Simulated:
    record: ForceRecord
    truth: Truth


def simulate(
    shape: Shape,
    *,
    rate_Hz: float = 1000.0,
    mass_kg: float = 75.0,
    offset_N: float = 0.0,
    drift_N_s: float = 0.0,
    noise_N: float = 0.0,
    seed: int = 0,
    two_platforms: bool = False,
    left_share: float = 0.52,
) -> Simulated:
    """One jump from quiet standing to standing again."""
    random = np.random.default_rng(seed)
    weight = mass_kg * g
    pushed = _push(shape)
    sway, before_m_s = _sway(shape, len(pushed), shape.sway_from)
    ground = weight * (pushed + sway * (pushed > shape.sway))
    leaving = before_m_s + float(np.sum((ground / weight - 1.0) * g)) / FINE_Hz
    flight_s = 2.0 * leaving / g
    landing = _landing(shape, leaving)
    landing = weight * (landing + _sway(shape, len(landing), 0.0)[0] * (landing > shape.sway))
    force = np.concatenate([ground, np.zeros(round(flight_s * FINE_Hz)), landing])
    take_off_s = len(ground) / FINE_Hz
    under = {
        threshold: float(np.count_nonzero(ground[-FINE_Hz // 5 :] < threshold) + _first_over(landing, threshold))
        / FINE_Hz
        for threshold in (10.0, 20.0, 25.0, 30.0)
    }
    start = random.uniform(0, FINE_Hz / rate_Hz)
    places = np.arange(start, len(force) - 1, FINE_Hz / rate_Hz)
    sampled = np.interp(places, np.arange(len(force)), force)
    times = np.arange(len(sampled)) / rate_Hz
    shift = start / FINE_Hz
    truth = Truth(
        leaving**2 / (2 * g), leaving, flight_s, take_off_s - shift, take_off_s + flight_s - shift, weight,
        float(ground[-1]), under,
    )  # fmt: skip
    if not two_platforms:
        read = sampled + offset_N + drift_N_s * times + random.normal(0, noise_N, len(sampled))
        return Simulated(ForceRecord("simulated", rate_Hz, read.tolist()), truth)
    each = noise_N / 2**0.5
    sides = [
        share * sampled + part * offset_N + drift_N_s * times / 2 + random.normal(0, each, len(sampled))
        for share, part in ((left_share, 0.8), (1 - left_share, 0.2))
    ]
    total = (sides[0] + sides[1]).tolist()
    return Simulated(
        ForceRecord("simulated", rate_Hz, total, (("left", sides[0].tolist()), ("right", sides[1].tolist()))), truth
    )


def drawn_shape(random: np.random.Generator) -> Shape:
    """A shape between the extremes of those above, with ends as rough as in recordings of slow squat jumps, whose feet
    left up to 12 ms apart and landed up to 12 ms apart."""
    u = random.uniform
    return Shape(
        quiet_s=u(1.2, 2.5), dip_s=u(0.22, 0.5), dip=u(0.3, 0.8), brake_s=u(0.14, 0.3), brake=u(1.7, 2.6),
        push_s=u(0.15, 0.35), push=u(1.9, 2.5), end_s=u(0.04, 0.09), fall=u(1.0, 2.0), impact_s=u(0.03, 0.08),
        settle_s=u(0.12, 0.3), tail=u(0.05, 0.2), tail_slower=u(1.0, 2.0), toe=u(0.3, 2.1), toe_s=u(0.006, 0.02),
        toe_kept=u(0.35, 1.05), toe_softer=u(1.0, 1.3), sway=u(0.0005, 0.005), sway_Hz=u(0.5, 1.5), sway_from=u(0, 1),
        off_apart_s=u(0, 0.012), on_apart_s=u(0, 0.012),
    )  # fmt: skip


def drawn_record(
    random: np.random.Generator,
    *,
    rate_Hz: float,
    noise_N: float,
    drift_N_s: float,
    rises_m: tuple[float, float],
    **changes: float,
) -> Simulated:
    """A shape, a body and a platform drawn, again until the rise lies in ``rises_m``; ``changes``: of the shape."""
    while True:
        one = simulate(
            replace(drawn_shape(random), **changes), rate_Hz=rate_Hz, mass_kg=random.uniform(45, 110),
            noise_N=noise_N, offset_N=random.uniform(-50, 50), drift_N_s=random.normal(0, drift_N_s),
            seed=int(random.integers(2**31)), two_platforms=bool(random.integers(2)),
        )  # fmt: skip
        if rises_m[0] < one.truth.rise_m < rises_m[1]:
            return one


def _push(shape: Shape) -> np.ndarray:
    """Body weights from quiet standing to the last instant on the ground."""
    parts = [np.ones(round(shape.quiet_s * FINE_Hz))]
    if shape.dip_s:
        parts += [_ease(1.0, 1 - shape.dip, shape.dip_s * 0.5), _ease(1 - shape.dip, 1.0, shape.dip_s * 0.5)]
    level = 1.0
    if shape.hold_s:
        level = shape.hold
        parts += [_ease(1.0, level, 0.1), np.full(round(shape.hold_s * FINE_Hz), level)]
    parts += [_ease(level, shape.brake, shape.brake_s), _ease(shape.brake, shape.push, shape.push_s)]
    s = np.linspace(0, 1, round(shape.end_s * FINE_Hz), endpoint=False)
    end = shape.push * (1 - s**shape.fall)
    tail = end[end < shape.tail]
    slowly = np.interp(np.arange(0, len(tail), 1 / shape.tail_slower), np.arange(len(tail) + 1), [*tail, 0.0])
    one_foot = np.concatenate([*parts, end[end >= shape.tail], slowly])
    apart = round(shape.off_apart_s * FINE_Hz)
    return (np.concatenate([one_foot, np.zeros(apart)]) + np.concatenate([np.ones(apart), one_foot])) / 2


def _sway(shape: Shape, count: int, part: float) -> tuple[np.ndarray, float]:
    """Its force (body weights), and the speed (m/s) that it gave the body before."""
    omega = 2 * np.pi * shape.sway_Hz
    phases = omega * np.arange(count) / FINE_Hz + 2 * np.pi * part
    return shape.sway * np.cos(phases), float(shape.sway * g / omega * np.sin(2 * np.pi * part))


def _landing(shape: Shape, falling_m_s: float) -> np.ndarray:
    """Body weights from touch-down to standing: an impact, a dip to 0.8 and back, whose impulse stops the fall."""
    rest_s, low = 0.3, 0.8
    kept = shape.toe * shape.toe_kept
    forefoot = np.concatenate(
        [_sine(0.0, shape.toe, shape.toe_s, shape.toe_softer), _ease(shape.toe, kept, shape.toe_s)]
    )
    others_s = low * shape.settle_s / 2 + (low + 1) / 2 * rest_s - (shape.impact_s + shape.settle_s + rest_s)
    others_s += kept * (1 - 2 / np.pi) * shape.impact_s + float(np.sum(forefoot - 1)) / FINE_Hz
    impact = (falling_m_s / g + shape.on_apart_s / 2 - others_s) / (2 / np.pi * shape.impact_s + shape.settle_s / 2)
    heel = [_sine(kept, impact, shape.impact_s), _ease(impact, low, shape.settle_s)]
    one_foot = np.concatenate([forefoot, *heel, _ease(low, 1.0, rest_s), np.ones(round(shape.after_s * FINE_Hz))])
    apart = round(shape.on_apart_s * FINE_Hz)
    return (np.concatenate([one_foot, np.ones(apart)]) + np.concatenate([np.zeros(apart), one_foot])) / 2


def _sine(start: float, end: float, seconds: float, softer: float = 1.0) -> np.ndarray:
    s = np.linspace(0, 1, round(seconds * FINE_Hz), endpoint=False)
    return start + (end - start) * np.sin(np.pi / 2 * s**softer)


def _ease(start: float, end: float, seconds: float) -> np.ndarray:
    s = np.linspace(0, 1, max(1, round(seconds * FINE_Hz)), endpoint=False)
    return start + (end - start) * (1 - np.cos(np.pi * s)) / 2


def _first_over(values: np.ndarray, threshold: float) -> int:
    return int(np.argmax(values >= threshold))
