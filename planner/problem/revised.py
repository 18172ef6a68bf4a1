"""A running block planned anew from a day on: where its phases are cut, and which of its days are lost."""

from __future__ import annotations

import datetime
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

from planner.domain.athlete import JointState, Training, TrainingDay
from planner.domain.base import LONGEST_DAY_minutes
from planner.domain.block import Block, Routine
from planner.domain.template import Template
from planner.domain.terms import DAYS, LOAD_ROLES, Day
from planner.domain.training_log import OtherWork


@dataclass(frozen=True)
class Since:
    """From when on a block is planned anew, on which days it trained before, and what became of them.

    ``routines``: weekly training days in order, each with the day from which they hold.
    ``trained``: dates of sessions before ``first_day``, each with the day on which it was done. ``missed``: likewise.
    """

    first_day: datetime.date
    routines: tuple[Routine, ...]
    trained: Mapping[datetime.date, datetime.date]
    missed: frozenset[datetime.date]
    pain: tuple[JointState, ...] = ()
    maxima: Mapping[str, float] = field(default_factory=dict)  # by lift, as shares of those tested
    extra: tuple[OtherWork, ...] = ()

    @property
    def days_lost(self) -> int:
        """Days from the first session missed since the last one done, up to the first day; 0 where none was."""
        last = max(self.trained.values(), default=datetime.date.min)
        lost = [date for date in self.missed if date > last]
        return (self.first_day - min(lost)).days if lost else 0

    def easy_weeks(self, template: Template, start: datetime.date) -> tuple[int, ...]:
        """The load weeks up to the first whole one that is easy after days lost; none where fewer were or more."""
        limits = template.coming_back
        if limits is None or not limits.light_up_to_days < self.days_lost <= limits.easy_up_to_days:
            return ()
        whole = week_of(free_from(self.first_day, start, self.routines), start)
        to_come = range(week_of(self.first_day, start), len(template.weeks) + 1)
        load = [week for week in to_come if template.weeks[week - 1].role in LOAD_ROLES]
        last = next((week for week in load if week >= whole), 0)
        return tuple(week for week in load if week <= last)

    def trainings_before(self, training: Training, start: datetime.date) -> dict[int, Training]:
        """The routines before the file's own, by first week; minutes are the file's where it still has the day."""
        known = {one.day: one for one in training.days}
        found = {}
        for one in self.routines:
            if one.since < free_from(self.first_day, start, self.routines):
                days = tuple(known.get(day, TrainingDay(day=day, minutes=LONGEST_DAY_minutes)) for day in one.days)
                found[week_of(one.since, start)] = training.model_copy(update={"days": days})
        return found

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
    past = [s for s in block.sessions if s.date < block.revision.first_day]
    missed = frozenset(s.date for s in past if s.id in told and told[s.id].missed is not None)
    done_on = {s.date: told[s.id].date if s.id in told else None for s in past if s.date not in missed}
    return Since(
        first_day=block.revision.first_day,
        routines=block.revision.routines,
        trained={planned: done or planned for planned, done in done_on.items()},
        missed=missed,
        pain=block.revision.pain,
        maxima=block.revision.maxima,
        extra=block.revision.extra,
    )


def routines_of(block: Block, first_day: datetime.date, training: Training) -> tuple[Routine, ...]:
    """The routines of a running block that is planned anew from a day on, the last as the athlete's file has it.

    It is one of its own even on the days of before, since its days may have other kinds of session.
    """
    begun = block.weeks[0].start
    known = block.revision.routines if block.revision is not None else (Routine(since=begun, days=_days_held(block)),)
    now = Routine(since=free_from(first_day, begun, known), days=_in_order({one.day for one in training.days}))
    before = [one for one in known if one.since < now.since]
    return (*before, now)


def free_from(first_day: datetime.date, start: datetime.date, routines: Sequence[Routine]) -> datetime.date:
    """The first day of the first week that can have other training days: one of which no training day is gone."""
    week = week_of(first_day, start)
    first = _start_of(week, start)
    days = [one.days for one in routines if one.since <= first][-1]
    gone = (first + datetime.timedelta(days=later) for later in range((first_day - first).days))
    return _start_of(week + 1, start) if any(DAYS[date.weekday()] in days for date in gone) else first


def week_of(date: datetime.date, start: datetime.date) -> int:
    """The week of a block from ``start`` that a date is in, counted from 1."""
    return (date - start).days // 7 + 1


def _start_of(week: int, start: datetime.date) -> datetime.date:
    return start + datetime.timedelta(days=7 * (week - 1))


def _days_held(block: Block) -> tuple[Day, ...]:
    """The weekdays with sessions of a block planned as a whole."""
    return _in_order({DAYS[session.date.weekday()] for session in block.sessions})


def _in_order(days: Collection[Day]) -> tuple[Day, ...]:
    return tuple(day for day in DAYS if day in days)
