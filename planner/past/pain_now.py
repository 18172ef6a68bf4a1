"""The pain that the rest of a block is planned with, from the course of each joint."""

from __future__ import annotations

from collections.abc import Sequence

from planner.domain.athlete import JointState
from planner.domain.follow_up import PainWatch
from planner.past.done import DoneSession
from planner.past.pain_course import PainCourse, pain_courses


def pain_now(done: Sequence[DoneSession], watch: PainWatch) -> tuple[JointState, ...]:
    """Each joint and side that the log tells of, in the order of its first mention.

    Red: the pain itself, over which nothing is planned. Amber, or green with steps of the ladder still to climb: at
    least the least that counts as amber, so that the hardest work stays closed until then.
    """
    return tuple(_state(course, watch) for course in pain_courses(done, watch))


def _state(course: PainCourse, watch: PainWatch) -> JointState:
    last = course.days[-1]
    if course.state == "red":
        by_morning = last.worst <= watch.amber_up_to
        pain = max(last.worst, 1)
        return JointState(joint=course.joint, side=course.side, pain=pain, worse_next_morning=by_morning)
    open_again = course.state == "green" and course.step == len(watch.steps) - 1
    pain = last.worst if open_again else max(last.worst, watch.green_up_to + 1)
    return JointState(joint=course.joint, side=course.side, pain=pain)
