"""Whether the joint that a quality's lifts load first of all hurts: then no band or rule asks for more of them."""

from __future__ import annotations

from collections.abc import Mapping

from planner.domain.athlete import Athlete
from planner.domain.terms import Joint, Quality

JOINT_OF: Mapping[Quality, Joint] = {"calf-ankle": "achilles-ankle", "knee-dominant": "patellar-knee"}


def hurts(athlete: Athlete, quality: Quality) -> bool:
    return any(state.pain > 0 and state.joint == JOINT_OF.get(quality) for state in athlete.joints)
