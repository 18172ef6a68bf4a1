"""The block's calendar: phases and their pieces, weekly routines, dates, days away, the test day and sport."""

from __future__ import annotations

import datetime
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, partial

from planner.domain.address import Address
from planner.domain.athlete import Athlete, Training
from planner.domain.findings import Finding, UserError
from planner.domain.template import Template
from planner.domain.terms import DAYS, LOAD_ROLES, Role
from planner.problem.by_hand import ByHand
from planner.problem.revised import Since, free_from, week_of
from planner.problem.training_days import Phase, Slot, SportDay, routine, sport_days


@dataclass(frozen=True)
class Piece:
    """A cut in the phase that runs in ``week``, from which on the routine is ``training``, if given."""

    week: int
    training: Training | None = None


@dataclass(frozen=True)
class BlockCalendar:
    start: datetime.date
    phases: tuple[Phase, ...]
    slots: tuple[Slot, ...]
    dates: dict[tuple[int, int], datetime.date]  # (week, slot)
    away: frozenset[tuple[int, int]]
    test_slot: int  # of the last week
    sport: dict[datetime.date, SportDay]
    first_day: datetime.date  # still to be planned: the start, or a later one in a block that is revised
    missed: frozenset[tuple[int, int]]  # of the days away: sessions that were planned and not done

    @cached_property
    def _phase_by_week(self) -> dict[int, Phase]:
        return {week: phase for phase in self.phases for week in phase.weeks}

    @property
    def weeks(self) -> range:
        return range(1, self.last_week + 1)

    @property
    def last_week(self) -> int:
        return self.phases[-1].weeks[-1]

    def role(self, week: int) -> Role:
        phase = self._phase_by_week[week]
        return phase.roles[phase.weeks.index(week)]

    def phase_of(self, week: int) -> str:
        return self._phase_by_week[week].id

    def phase_name(self, week: int) -> str:
        """The phase's name on paper."""
        return self._phase_by_week[week].name

    def slots_of(self, week: int) -> tuple[int, ...]:
        """The training days of the week's routine."""
        return self._phase_by_week[week].slots

    def slot_on(self, week: int, date: datetime.date) -> int | None:
        """The week's training day on ``date`` or on its weekday, if there is one."""
        if week not in self.weeks:
            return None
        days = {slot.number: slot.day for slot in self.slots}
        moved_here = (slot for slot in self.slots_of(week) if self.dates[week, slot] == date)
        usual = (slot for slot in self.slots_of(week) if days[slot] == DAYS[date.weekday()])
        return next(moved_here, next(usual, None))

    @property
    def load_phases(self) -> list[Phase]:
        """The phases that hold a load week, pieces of one phase apart."""
        return [phase for phase in self.phases if any(role in LOAD_ROLES for role in phase.roles)]

    def load_phase_number(self, week: int) -> int:
        """0 for a week of the first load phase, 1 for the second, and so on; pieces of a phase count as one."""
        return list(dict.fromkeys(phase.name for phase in self.load_phases)).index(self.phase_name(week))

    @cached_property
    def load_weeks(self) -> list[int]:
        return [week for week in self.weeks if self.role(week) in LOAD_ROLES]

    @cached_property
    def full_load_weeks(self) -> list[int]:
        """The load weeks that lose no training day."""
        return [week for week in self.load_weeks if not self.lost_days(week)]

    @property
    def routines(self) -> list[tuple[int, ...]]:
        """The weekly routines of the block in order."""
        return list(dict.fromkeys(phase.slots for phase in self.phases))

    def day_offset(self, slot: int) -> int:
        """Days from the start of a block's week to this training day."""
        day = next(s.day for s in self.slots if s.number == slot)
        return (DAYS.index(day) - self.start.weekday()) % 7

    def lost_days(self, week: int) -> bool:
        """Whether an away date takes a training day out of the week; later weeks are then not compared with it."""
        return any((week, slot) in self.away for slot in self.slots_of(week))

    def last_load_week_before(self, week: int) -> int | None:
        """The last load week before this one that lost no day."""
        return max((one for one in self.full_load_weeks if one < week), default=None)

    def compared(self, roles: Collection[Role]) -> Iterator[tuple[int, int]]:
        """Each week of these roles with the last load week before it, where there is one."""
        for week in self.weeks:
            before = self.last_load_week_before(week)
            if before is not None and self.role(week) in roles:
                yield week, before

    @property
    def test_date(self) -> datetime.date:
        return self.dates[self.last_week, self.test_slot]

    def is_test_day(self, week: int, slot: int) -> bool:
        return week == self.last_week and slot == self.test_slot

    def training_days(self, week: int) -> list[int]:
        """The week's days on which the athlete can train, including the test day but none after it."""
        free = [slot for slot in self.slots_of(week) if (week, slot) not in self.away]
        return [slot for slot in free if week < self.last_week or slot <= self.test_slot]

    def is_past(self, week: int, slot: int) -> bool:
        """Whether the training date is before what is planned."""
        return self.dates[week, slot] < self.first_day

    def is_over(self, at: Address) -> bool:
        """Whether a day, a week or a phase is before what is planned; False for an address that names none of them."""
        if at.week is not None:
            return self.is_past(at.week, at.slot) if at.slot is not None else at.week < self.first_week
        weeks = next((phase.weeks for phase in self.phases if phase.id == at.phase), ())
        return bool(weeks) and weeks[-1] < self.first_week

    @cached_property
    def first_week(self) -> int:
        """The first week with a training day still to come."""
        return min((week for (week, _), date in self.dates.items() if date >= self.first_day), default=self.last_week)

    @property
    def as_planned(self) -> BlockCalendar:
        """The calendar without what was missed: what a week aims at is not less for it."""
        return replace(self, away=self.away - self.missed)

    def week_start(self, week: int) -> datetime.date:
        return self.start + datetime.timedelta(days=7 * (week - 1))

    def working_days(self, week: int) -> list[int]:
        """The training days of the week without the test day."""
        return [slot for slot in self.training_days(week) if not self.is_test_day(week, slot)]

    def day_share(self, week: int) -> float:
        """The share of the routine's training days that away dates leave."""
        return len(self.training_days(week)) / len(self.slots_of(week))

    def all_close_to_the_test(self, days_apart: int) -> bool:
        """Whether every training day before the test in its week is fewer than ``days_apart`` days before it."""
        last = self.last_week
        test = self.test_date
        return all((test - self.dates[last, slot]).days < days_apart for slot in self.working_days(last))

    def programmed_days(self) -> list[tuple[int, int]]:
        """(week, slot) of all training days in order, without the closing test."""
        return [(week, slot) for week in self.weeks for slot in self.working_days(week)]

    def sport_contacts(self) -> dict[int, int]:
        """Landings of practices and matches, by week."""
        found = dict.fromkeys(self.weeks, 0)
        for date, day in self.sport.items():
            week = week_of(date, self.start)
            if week in found:
                found[week] += day.contacts
        return found


def calendar_of(
    athlete: Athlete,
    template: Template,
    start: datetime.date,
    later: Sequence[Piece] = (),
    since: Since | None = None,
    by_hand: ByHand | None = None,
) -> BlockCalendar:
    """The template's phases on this athlete's days. Raises UserError if the last week has no day for the test."""
    before = {} if since is None else since.trainings_before(athlete.training, start)
    first = routine(athlete.model_copy(update={"training": before.pop(1)}) if 1 in before else athlete, start)
    if since is not None:
        easy = since.easy_weeks(template, start)
        later = pieces_since(since, athlete.training, start, before, easy)
    if by_hand is not None:
        cut = {piece.week for piece in later}
        later = sorted([*later, *(Piece(w) for w in by_hand.cuts if w not in cut)], key=lambda piece: piece.week)
    phases, slots = _phases(template, first), list(first)
    for piece in later:
        if piece.training is not None:
            moved = athlete.model_copy(update={"training": piece.training})
            slots += [replace(slot, number=len(slots) + slot.number) for slot in routine(moved, start)]
        phases = _cut(phases, piece, slots)
    days = {slot.number: (DAYS.index(slot.day) - start.weekday()) % 7 for slot in slots}
    dates = {
        (week, slot): start + datetime.timedelta(days=7 * (week - 1) + days[slot])
        for phase in phases
        for week in phase.weeks
        for slot in phase.slots
    }
    usual, by_hand = dates, by_hand or ByHand({})
    dates = {key: by_hand.moved.get(date, date) for key, date in usual.items()}
    is_lost = partial(_is_away if since is None else since.is_lost, athlete.training)
    away = frozenset(k for k, date in dates.items() if usual[k] in by_hand.dropped or is_lost(usual[k], date))
    missed = frozenset(key for key, date in dates.items() if since is not None and date in since.missed)
    weeks = phases[-1].weeks[-1]
    first_day = start if since is None else since.first_day
    gone = frozenset(key for key, date in dates.items() if date < first_day)
    test_slot = closing_test_slot([slot for slot in slots if slot.number in phases[-1].slots], weeks, away, gone)
    sport = sport_days(athlete, start, weeks, () if since is None else since.extra)
    if since is not None:  # rules about days apart ask for the days on which it was done
        dates = {key: since.trained.get(date, date) for key, date in dates.items()}
    return BlockCalendar(start, phases, tuple(slots), dates, away, test_slot, sport, first_day, missed)


def _is_away(training: Training, usual: datetime.date, date: datetime.date) -> bool:
    return date in training.away


def pieces_since(
    since: Since, training: Training, start: datetime.date, before: Mapping[int, Training], easy: Sequence[int]
) -> list[Piece]:
    """The running phase is cut at the week of the first day and at the next; days are free from the first whole week.

    The first week is a piece of its own, so that what changes in it need not change later. ``before``: weeks of the
    past at which the routine became another. ``easy``: weeks after days lost, each a piece of its own likewise.
    """
    week = week_of(since.first_day, start)
    free_week = week_of(free_from(since.first_day, start, since.routines), start)
    routines = {**before, free_week: training}
    cuts = {*before, week, week + 1, *easy, *(one + 1 for one in easy)}
    return [Piece(one, routines.get(one)) for one in sorted(cuts)]


def _phases(template: Template, slots: Sequence[Slot]) -> tuple[Phase, ...]:
    numbers = tuple(slot.number for slot in slots)
    weeks: dict[str, list[int]] = {}
    for number, week in enumerate(template.weeks, start=1):
        weeks.setdefault(week.phase, []).append(number)
    return tuple(
        Phase(name, name, tuple(held), tuple(template.weeks[week - 1].role for week in held), numbers)
        for name, held in weeks.items()
    )


def _cut(phases: Sequence[Phase], piece: Piece, slots: Sequence[Slot]) -> tuple[Phase, ...]:
    """The phases, with the one that runs in the piece's week cut before it and the new routine from there on."""
    found: list[Phase] = []
    for phase in phases:
        before = tuple(week for week in phase.weeks if week < piece.week)
        after = tuple(week for week in phase.weeks if week >= piece.week)
        if before:
            found.append(replace(phase, weeks=before, roles=phase.roles[: len(before)]))
        if after:
            numbers = phase.slots if piece.training is None else tuple(_last_routine(slots, piece.training))
            name = f"{phase.name}-from-week-{piece.week}" if before else phase.id
            found.append(Phase(name, phase.name, after, phase.roles[len(before) :], numbers))
    return tuple(found)


def _last_routine(slots: Sequence[Slot], training: Training) -> list[int]:
    return [slot.number for slot in slots[len(slots) - len(training.days) :]]


def closing_test_slot(
    slots: Sequence[Slot],
    weeks: int,
    away: frozenset[tuple[int, int]],
    gone: frozenset[tuple[int, int]] = frozenset(),
) -> int:
    """The last free training day of the block. Raises UserError if the last week has none.

    ``gone``: training days, as (week, slot), that are over when the rest of a block is planned anew.
    """
    free = [slot.number for slot in slots if (weeks, slot.number) not in away]
    to_come = [slot for slot in free if (weeks, slot) not in gone]
    if to_come:
        return to_come[-1]
    if free:
        message = "no training day is left in the last week, so the block has no day for its test"
        hint = "keep the weekday of the test among the training days until the block ends"
        raise UserError([Finding("", 0, 0, "test-day", message, hint, keys=("training", "days"))])
    message = "every training day of the last week is an away date, so the block has no day for its test"
    hint = "move the start with --start, or free a day"
    raise UserError([Finding("", 0, 0, "test-day", message, hint, keys=("training", "away"))])
