"""Which qualities are surely short; none whose joint hurts, since then no band or rule asks for more of its lifts."""

from __future__ import annotations

from collections.abc import Mapping

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import EmphasisRule
from planner.domain.terms import LIFT_QUALITIES, Joint, Quality
from planner.estimate.qualities import QualityResult

JOINT_OF: Mapping[Quality, Joint] = {"calf-ankle": "achilles-ankle", "knee-dominant": "patellar-knee"}


def hurts(athlete: Athlete, quality: Quality) -> bool:
    return any(state.pain > 0 and state.joint == JOINT_OF.get(quality) for state in athlete.joints)


def surely_short(athlete: Athlete, results: Mapping[Quality, QualityResult], rule: EmphasisRule) -> tuple[Quality, ...]:
    """Lift qualities that are short beyond the errors of their tests, and that train no sore joint."""
    tested = {quality: results[quality] for quality in LIFT_QUALITIES if quality in results and results[quality].tested}
    sure = [q for q, one in tested.items() if rule.sure and one.deficit > rule.sure.errors * one.deficit_se]
    return tuple(quality for quality in sure if not hurts(athlete, quality))
