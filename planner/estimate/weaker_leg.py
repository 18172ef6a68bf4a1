"""Which leg gets an extra set, for the coach who asks for it: one that tests weaker beyond its error, and by enough."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import WeakerLegRule
from planner.domain.gap import SideDifference
from planner.domain.terms import Leg, Quality
from planner.estimate.findings import Notebook


def weaker_legs(sides: Sequence[SideDifference], rule: WeakerLegRule) -> dict[Quality, Leg]:
    """The weaker leg of each quality; none where its tests say nothing, too little, or point to both legs."""
    found: dict[Quality, set[Leg]] = {}
    for one in sides:
        enough = abs(one.difference_percent) >= rule.least_difference_percent
        if one.quality is not None and one.weaker is not None and enough:
            found.setdefault(one.quality, set()).add(one.weaker)
    return {quality: next(iter(legs)) for quality, legs in found.items() if len(legs) == 1}


def legs_with_extra_sets(
    athlete: Athlete, sides: Sequence[SideDifference], rule: WeakerLegRule, notes: Notebook
) -> Mapping[Quality, Leg]:
    """What the athlete's file asks for; a request that no test bears out is told, not granted."""
    if athlete.weaker_leg != "extra-set":
        return {}
    found = weaker_legs(sides, rule)
    if not found:
        notes.add(
            "note",
            "no-weaker-leg",
            "an extra set is asked for the weaker leg, but no test of a quality that lifts train finds one leg weaker "
            f"beyond the error and by {rule.least_difference_percent:g} % or more: both legs get the same",
            hint="test both legs by the same lift or by strict heel raises, or write weaker_leg: same",
            at=("weaker_leg",),
        )
    return found
