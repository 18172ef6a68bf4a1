"""A running block planned anew from a day on: where its phases are cut, and which of its days are lost."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, field

from planner.domain.athlete import Athlete, JointState, Training, TrainingDay
from planner.domain.base import LONGEST_DAY_minutes
from planner.domain.block import Block
from planner.domain.terms import DAYS, Day


@dataclass(frozen=True)
class Since:
    """From when on a block is planned anew, on which days it trained before, and what became of them.

    ``trained``: dates of sessions before ``first_day``, each with the day on which it was done. ``missed``: likewise.
    """

    first_day: datetime.date
    days: tuple[Day, ...]
    trained: Mapping[datetime.date, datetime.date]
    missed: frozenset[datetime.date]
    pain: tuple[JointState, ...] = ()
    maxima: Mapping[str, float] = field(default_factory=dict)  # by lift, as shares of those tested

    @property
    def days_lost(self) -> int:
        """Days from the first session missed since the last one done, up to the first day; 0 where none was."""
        last = max(self.trained.values(), default=datetime.date.min)
        lost = [date for date in self.missed if date > last]
        return (self.first_day - min(lost)).days if lost else 0

    def with_pain(self, athlete: Athlete) -> Athlete:
        """The athlete with the pain of the log, which is newer than the file's, joint by joint."""
        newer = {(state.joint, state.side): state for state in self.pain}
        known = {(state.joint, state.side): state for state in athlete.joints}
        joints = {
            at: state.model_copy(update={"history": known[at].history if at in known else None})
            for at, state in newer.items()
        }
        return athlete.model_copy(update={"joints": tuple((known | joints).values())}) if self.pain else athlete

    def days_before(self, athlete: Athlete) -> Athlete:
        """The athlete on the training days of before; minutes are the file's where it still has the day."""
        now = {one.day: one for one in athlete.training.days}
        days = tuple(now.get(day, TrainingDay(day=day, minutes=LONGEST_DAY_minutes)) for day in self.days)
        return athlete.model_copy(update={"training": athlete.training.model_copy(update={"days": days})})

    def is_lost(self, training: Training, usual: datetime.date, date: datetime.date) -> bool:
        """Whether a training date has no session by no choice of the plan: missed, away, or a weekday given up.

        ``usual``: the date on the weekly routine, where a coach moved it.
        """
        if date < self.first_day:
            return date in self.missed or (date in training.away and date not in self.trained)
        return date in training.away or DAYS[usual.weekday()] not in {one.day for one in training.days}


def since_of(block: Block) -> Since | None:
    """From when on the block was planned anew; None for a block planned as a whole."""
    if block.revision is None:
        return None
    told = {one.session: one for one in block.revision.done}
    past = [s for week in block.weeks for s in week.sessions if s.date < block.revision.first_day]
    missed = frozenset(s.date for s in past if s.id in told and told[s.id].missed is not None)
    done_on = {s.date: told[s.id].date if s.id in told else None for s in past if s.date not in missed}
    return Since(
        first_day=block.revision.first_day,
        days=block.revision.days,
        trained={planned: done or planned for planned, done in done_on.items()},
        missed=missed,
        pain=block.revision.pain,
        maxima=block.revision.maxima,
    )


def training_days_of(block: Block) -> tuple[Day, ...]:
    """The weekdays with sessions, of a block that was revised those since its first whole week after that."""
    before = block.revision.first_day if block.revision is not None else block.weeks[0].start
    weeks = [week for week in block.weeks if week.start >= before] or block.weeks
    found = {session.date.weekday() for week in weeks for session in week.sessions}
    return tuple(day for number, day in enumerate(DAYS) if number in found)
