"""The pain that the rest of a block is planned with: what the last sessions say of each joint."""

from __future__ import annotations

from collections.abc import Sequence

from planner.domain.athlete import JointState
from planner.domain.follow_up import PainWatch
from planner.domain.terms import Joint, Leg
from planner.domain.training_log import LoggedPain
from planner.past.done import DoneSession


def pain_now(done: Sequence[DoneSession], watch: PainWatch) -> tuple[JointState, ...]:
    """Each joint and side that the log tells of, in the order of its first mention.

    Red in its last entry: the pain itself, over which nothing is planned. Else the most that its
    last entries say, since pain goes down only after so many of them; a morning that is worse counts as amber.
    """
    told: dict[tuple[Joint, Leg | None], list[LoggedPain]] = {}
    for session in done:
        for pain in session.entry.pain:
            told.setdefault((pain.joint, pain.side), []).append(pain)
    return tuple(_state(pains, watch) for pains in told.values())


def _state(pains: list[LoggedPain], watch: PainWatch) -> JointState:
    last = pains[-1]
    if _is_red(last, watch):
        worse = bool(last.signs) or _rise(last) > watch.morning_red_above
        return JointState(joint=last.joint, side=last.side, pain=max(_worst(last), 1), worse_next_morning=worse)
    recent = [min(_level(pain, watch), watch.amber_up_to) for pain in pains[-watch.green_to_step_up :]]
    return JointState(joint=last.joint, side=last.side, pain=max(recent))


def _worst(pain: LoggedPain) -> int:
    return max(pain.before or 0, pain.worst or 0, pain.next_morning or 0)


def _rise(pain: LoggedPain) -> int:
    return 0 if pain.next_morning is None or pain.before is None else pain.next_morning - pain.before


def _is_red(pain: LoggedPain, watch: PainWatch) -> bool:
    return bool(pain.signs) or _worst(pain) > watch.amber_up_to or _rise(pain) > watch.morning_red_above


def _level(pain: LoggedPain, watch: PainWatch) -> int:
    return max(_worst(pain), watch.green_up_to + 1) if _rise(pain) > 0 else _worst(pain)
