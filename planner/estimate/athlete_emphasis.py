"""What the judged qualities mean for an athlete's week: tilts with their errors, and what is surely short or strong."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.emphasis_rule import EmphasisRule
from planner.domain.terms import LIFT_QUALITIES, Joint, Quality
from planner.estimate.emphasis import Freed, freed_by_surplus, strong_and_sure, tilt_se, tilts
from planner.estimate.qualities import QualityResult

JOINT_OF: Mapping[Quality, Joint] = {"calf-ankle": "achilles-ankle", "knee-dominant": "patellar-knee"}


@dataclass(frozen=True)
class AthleteEmphasis:
    """``surely_short``: lift qualities short beyond their errors, none of a sore joint. ``strong_and_sure``: of maximal
    strength, which is then only maintained."""

    tilts: Mapping[Quality, float]
    tilts_se: Mapping[Quality, float]
    freed: Freed
    surely_short: tuple[Quality, ...]
    strong_and_sure: bool


def emphasis_of(athlete: Athlete, results: Mapping[Quality, QualityResult], rule: EmphasisRule) -> AthleteEmphasis:
    deficits = {quality: result.deficit for quality, result in results.items()}
    confidences = {quality: result.confidence for quality, result in results.items()}
    errors = {quality: result.deficit_se for quality, result in results.items()}
    tested = {quality: error for quality, error in errors.items() if results[quality].tested}
    strength: Quality = "maximal-strength"
    return AthleteEmphasis(
        tilts=tilts(deficits=deficits, confidences=confidences, rule=rule, errors=tested),
        tilts_se={
            quality: tilt_se(quality, deficit=deficits[quality], deficit_se=error, confidence=sure, rule=rule)
            for (quality, error), sure in zip(errors.items(), confidences.values(), strict=True)
        },
        freed=freed_by_surplus(deficits=deficits, confidences=confidences, rule=rule),
        surely_short=surely_short(athlete, results, rule),
        strong_and_sure=strong_and_sure(deficit=deficits[strength], confidence=confidences[strength], rule=rule),
    )


def hurts(athlete: Athlete, quality: Quality) -> bool:
    return any(state.pain > 0 and state.joint == JOINT_OF.get(quality) for state in athlete.joints)


def surely_short(athlete: Athlete, results: Mapping[Quality, QualityResult], rule: EmphasisRule) -> tuple[Quality, ...]:
    """Lift qualities that are short beyond the errors of their tests.

    None whose joint hurts, since then no band or rule asks for more of its lifts.
    """
    tested = {quality: results[quality] for quality in LIFT_QUALITIES if quality in results and results[quality].tested}
    sure = [q for q, one in tested.items() if rule.sure and one.deficit > rule.sure.errors * one.deficit_se]
    return tuple(quality for quality in sure if not hurts(athlete, quality))
