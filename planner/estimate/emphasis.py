"""From deficits to emphasis: a tilt for each quality, and the week's working sets distributed by the tilts.

Tilts move shares within a fixed budget. Growth, level ceilings, joint stress, minutes and pain are applied afterwards,
in that order, and never give way to a tilt. The rule's numbers are in the benchmarks file.
"""

from __future__ import annotations

from collections.abc import Mapping

from planner.domain.benchmarks import EmphasisRule
from planner.domain.terms import LIFT_QUALITIES, QUALITIES, Quality


def tilt(quality: Quality, *, deficit: float, confidence: float, rule: EmphasisRule) -> float:
    """Factor on the template's share of a quality: clamp(1 + gain x confidence x deficit), 1 inside the dead zone."""
    push = confidence * deficit
    if abs(push) < rule.dead_zone:
        return 1.0
    low, high = rule.speed_range if quality == "speed-exposure" else rule.lift_range
    return min(max(1.0 + rule.gain * push, low), high)


def tilt_se(quality: Quality, *, deficit: float, deficit_se: float, confidence: float, rule: EmphasisRule) -> float:
    """Half the change of the tilt when the deficit moves by its error either way; includes clamp and dead zone."""
    low, high = (
        tilt(quality, deficit=deficit + sign * deficit_se, confidence=confidence, rule=rule) for sign in (-1.0, 1.0)
    )
    return (high - low) / 2.0


def tilts(
    *, deficits: Mapping[Quality, float], confidences: Mapping[Quality, float], rule: EmphasisRule
) -> dict[Quality, float]:
    """A tilt for each of the five qualities; an untested one has no deficit and keeps its share."""
    return {
        quality: tilt(quality, deficit=deficits.get(quality, 0.0), confidence=confidences.get(quality, 0.0), rule=rule)
        for quality in QUALITIES
    }


def emphasised_sets(base_sets: Mapping[Quality, float], tilts: Mapping[Quality, float]) -> dict[Quality, float]:
    """The four qualities' working sets, tilted and scaled so that they sum to the base sum: gym time is fixed."""
    tilted = {quality: base_sets.get(quality, 0.0) * tilts.get(quality, 1.0) for quality in LIFT_QUALITIES}
    total, base_total = sum(tilted.values()), sum(base_sets.get(quality, 0.0) for quality in LIFT_QUALITIES)
    scale = base_total / total if total > 0 else 1.0
    return {quality: sets * scale for quality, sets in tilted.items()}


def strong_and_sure(*, deficit: float, confidence: float, rule: EmphasisRule) -> bool:
    """Whether maximal strength exceeds its need surely enough to only maintain it from the intensify phase on."""
    return confidence * deficit < rule.strong_and_sure
