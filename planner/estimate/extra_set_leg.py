"""Which leg gets an extra set if the coach asks for it: one that tests weaker by enough and beyond its error."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import WeakerLegRule
from planner.domain.gap_record import SideDifference
from planner.domain.terms import JOINT_NAMES, LEGS, QUALITY_NAMES, Leg, Quality
from planner.estimate.notebook import Notebook

HINT = "test both legs by the same lift or by strict heel raises, or write weaker_leg: same"


def weaker_legs(sides: Sequence[SideDifference], rule: WeakerLegRule) -> dict[Quality, set[Leg]]:
    """The legs that the latest tests of each quality find weaker: one, or both if its tests disagree."""
    found: dict[Quality, set[Leg]] = {}
    for one in sides:
        enough = abs(one.difference_percent) >= rule.least_difference_percent
        if one.quality is not None and one.weaker is not None and enough and not one.superseded:
            found.setdefault(one.quality, set()).add(one.weaker)
    return found


def legs_with_extra_sets(
    athlete: Athlete, sides: Sequence[SideDifference], rule: WeakerLegRule, notes: Notebook
) -> Mapping[Quality, Leg]:
    """What the athlete's file asks for and the tests support; each decision is explained.

    A leg that hurts gets no extra set: it may test weak because it hurts.
    """
    if athlete.weaker_leg != "extra-set":
        return {}
    found, granted = weaker_legs(sides, rule), {}
    for quality, legs in found.items():
        leg, refused = min(legs), list(_against(athlete, quality, legs))
        if not refused:
            granted[quality] = leg
            refused = [f"the {leg} leg tests weaker in {QUALITY_NAMES[quality]}: an extra set of one-leg work for it"]
        for message in refused:
            notes.add("note", "weaker-leg", message, at=("weaker_leg",))
    if not found:
        message = (
            "an extra set is asked for the weaker leg, but no test of a quality that lifts train finds one leg weaker "
            f"beyond the error and by {rule.least_difference_percent:g} % or more: both legs get the same"
        )
        notes.add("note", "no-weaker-leg", message, hint=HINT, at=("weaker_leg",))
    return granted


def _against(athlete: Athlete, quality: Quality, legs: set[Leg]) -> Iterator[str]:
    if set(LEGS) == legs:
        yield f"no extra set: the tests of {QUALITY_NAMES[quality]} point to both legs; repeat them on one day"
        return
    for state in athlete.joints:
        if state.pain and state.side in (None, *legs):
            pain = f"{JOINT_NAMES[state.joint]} pain ({state.pain} of 10) may be why it tests weak"
            yield f"no extra set for the {min(legs)} leg in {QUALITY_NAMES[quality]}: {pain}"
