"""The block before, as a new one takes it up: the athlete's recent load and pain, and what the outcome asks for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planner.domain.athlete import Athlete, JointState, RecentLoad
from planner.domain.block_before import BlockBefore
from planner.estimate.emphasis import Freed


def as_left(athlete: Athlete, before: BlockBefore) -> Athlete:
    """The athlete with the recent load and the pain that the block before left."""
    recent = RecentLoad(**{name: getattr(before.usual_week, name) for name in RecentLoad.model_fields})
    return with_pain(athlete.model_copy(update={"recent_load": recent}), before.pain)


def with_pain(athlete: Athlete, pain: Sequence[JointState]) -> Athlete:
    """The athlete with the pain of a log, which is newer than the file's, joint by joint."""
    newer = {(state.joint, state.side): state for state in pain}
    known = {(state.joint, state.side): state for state in athlete.joints}
    joints = {
        at: state.model_copy(update={"history": known[at].history if at in known else None})
        for at, state in newer.items()
    }
    return athlete.model_copy(update={"joints": tuple((known | joints).values())}) if pain else athlete


def asked_after(freed: Freed, before: BlockBefore | None) -> Freed:
    """What the outcome of the block before takes from the lifts and gives to jumps, on top of what tests free.

    Sprints and high jumps get no more than either alone gives.
    """
    if before is None:
        return freed
    return replace(
        freed,
        lifts=freed.lifts * before.lifts,
        fast=max(freed.fast, before.jumps),
        medium=max(freed.medium, before.jumps),
    )
