"""The block's calendar: phases and their pieces, weekly routines, dates, days away, the test day and sport."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass, replace

from planner.domain.athlete import Athlete, Training
from planner.domain.template import Template
from planner.domain.terms import DAYS
from planner.problem.calendar import routine, sport_days
from planner.problem.last_week import closing_test_slot
from planner.problem.model import Phase, Slot, SportDay


@dataclass(frozen=True)
class Piece:
    """From ``week`` on the running phase is another piece of itself; with ``training``, in another weekly routine."""

    week: int
    training: Training | None = None


@dataclass(frozen=True)
class BlockCalendar:
    start: datetime.date
    phases: tuple[Phase, ...]
    slots: tuple[Slot, ...]
    dates: dict[tuple[int, int], datetime.date]  # (week, slot)
    away: frozenset[tuple[int, int]]
    test_slot: int
    sport: dict[datetime.date, SportDay]

    @property
    def weeks(self) -> int:
        return self.phases[-1].weeks[-1]

    def routine(self, week: int) -> tuple[int, ...]:
        return next(phase.slots for phase in self.phases if week in phase.weeks)

    def free(self, week: int) -> list[int]:
        """Training days of the week that no away date takes."""
        return [slot for slot in self.routine(week) if (week, slot) not in self.away]

    def free_for_work(self, week: int) -> list[int]:
        """The same without the test day and what is after it."""
        return [slot for slot in self.free(week) if week < self.weeks or slot < self.test_slot]

    def day_share(self, week: int) -> float:
        """Of the routine's training days, those that no away date takes."""
        return len(self.free(week)) / len(self.routine(week))

    def sport_contacts(self) -> dict[int, int]:
        """Landings of practices and matches, by week."""
        found = dict.fromkeys(range(1, self.weeks + 1), 0)
        for date, day in self.sport.items():
            week = (date - self.start).days // 7 + 1
            if week in found:
                found[week] += day.contacts
        return found


def calendar_of(
    athlete: Athlete, template: Template, start: datetime.date, later: Sequence[Piece] = ()
) -> BlockCalendar:
    """The template's phases on this athlete's days. Raises UserError where the last week has no day for the test."""
    phases, slots = _phases(template, routine(athlete, start)), list(routine(athlete, start))
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
    away = frozenset(key for key, date in dates.items() if date in set(athlete.training.away))
    weeks = phases[-1].weeks[-1]
    test_slot = closing_test_slot([slot for slot in slots if slot.number in phases[-1].slots], weeks, away)
    sport = sport_days(athlete, start, weeks)
    return BlockCalendar(start, phases, tuple(slots), dates, away, test_slot, sport)


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
    """The phases with the one that runs in the piece's week cut before it, and the new routine from there on."""
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
