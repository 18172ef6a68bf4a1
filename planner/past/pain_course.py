"""Pain of each joint from session to session, and the step of the ladder that it leaves open. It clears nobody."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from planner.domain.follow_up import PainWatch
from planner.domain.terms import Joint, Leg
from planner.domain.training_log import LoggedPain
from planner.past.done import DoneSession

State = Literal["green", "amber", "red"]
_WEEK = datetime.timedelta(days=7)


@dataclass(frozen=True)
class PainDay:
    date: datetime.date
    session: str
    pain: LoggedPain
    state: State
    why: str

    @property
    def worst(self) -> int:
        return self.pain.highest


@dataclass(frozen=True)
class PainCourse:
    """All entries of a joint and side. ``step``: of the rule's steps, from 0; the last restricts nothing."""

    joint: Joint
    side: Leg | None
    days: tuple[PainDay, ...]
    step: int
    green_since: int  # green sessions in a row that count towards the next step

    @property
    def state(self) -> State:
        return self.days[-1].state


def pain_courses(done: Sequence[DoneSession], rule: PainWatch) -> list[PainCourse]:
    """One course a joint and side, in the order in which they first come.

    A session whose entry does not mention a joint that hurt before counts as one without pain.
    """
    keys = list(dict.fromkeys((pain.joint, pain.side) for one in done for pain in one.entry.pain))
    return [_course(joint, side, done, rule) for joint, side in keys]


def _course(joint: Joint, side: Leg | None, done: Sequence[DoneSession], rule: PainWatch) -> PainCourse:
    top = len(rule.steps) - 1
    days: list[PainDay] = []
    step, green, last_high = top, 0, None
    for one in done:
        told = next((pain for pain in one.entry.pain if (pain.joint, pain.side) == (joint, side)), None)
        if one.missed or (told is None and not days):
            continue
        pain = told or LoggedPain.model_construct(joint=joint, side=side, before=0, worst=0, next_morning=None)
        state, why = _state(pain, _rising(days, pain, one.date, rule), rule)
        days.append(PainDay(one.date, one.planned.id, pain, state, why))
        if state != "green":
            step, green = (0 if state == "red" else max(0, step - 1)), 0
            continue
        has_high = any(item.tier == "high" and item.contacts for item in one.session.items)
        if has_high and last_high is not None and (one.date - last_high).days <= rule.days_between_high:
            continue  # too near to the one before to count
        last_high = one.date if has_high else last_high
        green += 1
        if green >= rule.green_to_step_up and step < top:
            step, green = step + 1, 0
    return PainCourse(joint, side, tuple(days), step, green)


def _state(pain: LoggedPain, rising: bool, rule: PainWatch) -> tuple[State, str]:
    worst = pain.highest
    up = 0 if pain.next_morning is None else pain.next_morning - (pain.before or 0)
    if pain.signs:
        return "red", ", ".join(sign.replace("-", " ") for sign in pain.signs)
    if worst > rule.amber_up_to:
        return "red", f"{worst} of 10"
    if up > rule.morning_red_above:
        return "red", f"the morning up by {up}"
    if worst > rule.green_up_to:
        return "amber", f"{worst} of 10"
    if up > 0:
        return "amber", f"the morning up by {up}"
    if rising:
        return "amber", "the week's mean is rising"
    return "green", f"{worst} of 10"


def _rising(days: Sequence[PainDay], pain: LoggedPain, date: datetime.date, rule: PainWatch) -> bool:
    """Whether the mean of the last seven days is above that of the seven before by the rule's amount."""
    this = [pain.highest, *(day.worst for day in days if day.date > date - _WEEK)]
    before = [day.worst for day in days if date - 2 * _WEEK < day.date <= date - _WEEK]
    return bool(before) and sum(this) / len(this) - sum(before) / len(before) >= rule.rising_week
