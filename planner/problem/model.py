"""The Problem: all that rules, solver and audit need to know of one athlete, one library and one template.

Whole numbers throughout, so that the solver's arithmetic is exact:
working sets are counted in quarter sets (a tag of 1 gives a quarter), joint stress in 1/120 point (so that a contact,
a set, a second of a hold and a metre of a sprint all come out whole), time in seconds, distance in metres.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from planner.domain.athlete import Athlete
from planner.domain.library import Library
from planner.domain.movement import Movement
from planner.domain.template import LevelPlan, Shape, Template
from planner.domain.terms import DAYS, JOINTS, LEGS, LOAD_ROLES, Day, Joint, Leg, Quality, Role, Side, Tier
from planner.problem.variable import Term, Variable, in_key, sets_key

STRESS_UNITS_PER_POINT = 120
RETEST = "retest"  # the test that closes the block, as a movement of its own


@dataclass(frozen=True)
class Slot:
    """A training day of a weekly routine; ``number`` counts in order of date within the block's week, and on from one
    routine to the next."""

    number: int
    day: Day
    gym_minutes: int  # own work already taken off


@dataclass(frozen=True)
class SportDay:
    """Practices and matches of one date."""

    minutes: int = 0
    contacts: int = 0
    match_minutes: int = 0
    match: bool = False
    hard: bool = False


@dataclass(frozen=True)
class Phase:
    """Weeks in which what is chosen stays: a phase of the template, or a piece of one that was cut.

    ``name`` is the template's; ``id`` tells the pieces apart. ``slots``: the training days of its weekly routine.
    """

    id: str
    name: str
    weeks: tuple[int, ...]
    roles: tuple[Role, ...]
    slots: tuple[int, ...]


@dataclass(frozen=True)
class ExtraSet:
    """One set more on one leg, once a session: what it takes beside the sets of both legs."""

    leg: Leg
    seconds: int  # work of the one side, and rest
    stress: dict[Joint, int]


@dataclass(frozen=True)
class Dosage:
    """What one set of a movement is in one week, and how many sets a session may hold. All per set, whole numbers."""

    low_sets: int
    high_sets: int
    reps: int | None
    percent: float | None
    reserve: int | None
    hold_s: int | None
    set_seconds: int  # work of all sides, and rest
    ramp_seconds: int  # once a session, before the first set
    is_working_set: bool
    quarter_sets: dict[Quality, int]
    contacts: int
    leg_contacts: dict[Leg, int]
    tier: Tier | None
    approach_contacts: int
    sprints: int
    fast_sprints: int  # those at or over the speed that makes a day hard
    sprint_m: int
    stress: dict[tuple[Joint, Leg], int]
    tag3_contacts: dict[tuple[Joint, Leg], int]
    extra: ExtraSet | None = None  # for the weaker leg


@dataclass(frozen=True)
class Range:
    low: int
    high: int


@dataclass(frozen=True)
class WeekBands:
    """The week's bands in counting units, and the hard floors under them."""

    quarter_sets: dict[Quality, Range]
    contacts: Range
    tiers: dict[Tier, Range]
    approach: Range
    sprints: Range
    floor_quarter_sets: dict[Quality, int]
    floor_contacts: int


@dataclass(frozen=True)
class StartLimits:
    """The most that week 1 may hold, from the recent load."""

    sets: int
    contacts: int
    high: int
    sprints: int


@dataclass(frozen=True)
class Ceilings:
    """Joint-stress ceilings of one joint and leg, in stress units, pain and growth spurts already taken in."""

    session: int
    two_days: int
    week: int
    tag3_session: int
    tag3_week: int


@dataclass(frozen=True)
class Entry:
    """One movement on one training date: the variable that holds its sets, and what a set of it is."""

    week: int
    slot: int
    movement: Movement
    dosage: Dosage
    barred: str | None  # why the date allows no set of it

    @cached_property
    def key(self) -> Variable:
        return sets_key(self.week, self.slot, self.movement.id)


@dataclass(frozen=True)
class Problem:
    athlete: Athlete
    library: Library
    template: Template
    level: LevelPlan
    youth: bool  # under the template's age, or a novice
    start: datetime.date
    phases: tuple[Phase, ...]
    slots: tuple[Slot, ...]
    dates: dict[tuple[int, int], datetime.date]  # (week, slot)
    away: frozenset[tuple[int, int]]
    test_slot: int  # of the last week
    sport: dict[datetime.date, SportDay]
    shapes: tuple[Shape, ...]  # of an ordinary week, one for each slot, in no order of days
    test_week_shapes: dict[int, Shape]  # slot -> shape, the test day left out
    movements: tuple[Movement, ...]  # sorted by id
    retest: Movement
    entries: dict[tuple[int, int], tuple[Entry, ...]]  # (week, slot), sorted by movement
    bands: dict[int, WeekBands]
    start_limits: StartLimits
    ceilings: dict[tuple[Joint, Leg], Ceilings]
    sport_stress: dict[datetime.date, dict[Joint, int]]
    one_rm_kg: dict[tuple[str, Side], float]
    tilts: dict[Quality, float]
    weaker_legs: dict[Quality, Leg]  # that get an extra set
    load_table: Mapping[int, float]  # repetitions to failure -> percent of the maximum, of the benchmarks

    @cached_property
    def choices(self) -> list[tuple[str, int, str]]:
        """Every (phase, slot, movement) that the solver may choose, in canonical order."""
        days = [(phase, slot) for phase in self.phases for slot in phase.slots]
        return [(phase.id, slot, m.id) for phase, slot in days for m in self.movements_on(phase, slot)]

    def movements_on(self, phase: Phase, slot: int) -> list[Movement]:
        """The movements that the solver may choose for this day of the phase."""
        return [e.movement for e in self.entries[phase.weeks[0], slot] if e.movement.id != self.retest.id]

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
        """What the phase is called on paper."""
        return self._phase_by_week[week].name

    def slots_of(self, week: int) -> tuple[int, ...]:
        """The training days of the week's routine."""
        return self._phase_by_week[week].slots

    def slot_on(self, week: int, date: datetime.date) -> int | None:
        """The training day of the week's routine on the weekday of ``date``; None where it has none."""
        if week not in self.weeks:
            return None
        days = {slot.number: slot.day for slot in self.slots}
        return next((slot for slot in self.slots_of(week) if days[slot] == DAYS[date.weekday()]), None)

    @property
    def routines(self) -> list[tuple[int, ...]]:
        """The weekly routines of the block, one after the other."""
        return list(dict.fromkeys(phase.slots for phase in self.phases))

    def day_offset(self, slot: int) -> int:
        """Days from the start of a block's week to this training day."""
        day = next(s.day for s in self.slots if s.number == slot)
        return (DAYS.index(day) - self.start.weekday()) % 7

    def lost_days(self, week: int) -> bool:
        """Whether an away date takes a training day out of the week: then later weeks are not measured against it."""
        return any((week, slot) in self.away for slot in self.slots_of(week))

    def last_load_week_before(self, week: int) -> int | None:
        """The last load week that lost no day, before ``week``."""
        earlier = [w for w in range(1, week) if self.role(w) in LOAD_ROLES and not self.lost_days(w)]
        return earlier[-1] if earlier else None

    def compared(self, roles: Collection[Role]) -> Iterator[tuple[int, int]]:
        """Each week of these roles with the last load week before it, where there is one."""
        for week in self.weeks:
            before = self.last_load_week_before(week)
            if before is not None and self.role(week) in roles:
                yield week, before

    @property
    def reference_week(self) -> int:
        """The template's reference week; where that lost days, the last load week before it that did not."""
        named = self.template.reference_week
        return (self.last_load_week_before(named) or named) if self.lost_days(named) else named

    def only_the_test_jumps(self, week: int) -> bool:
        """Whether the closing test is the week's one jump day: for youth and novices, where no day lies far enough
        before it."""
        test = self.dates[self.last_week, self.test_slot]
        before = [self.dates[week, slot] for slot in self.training_days(week) if self.dates[week, slot] < test]
        close = all((test - date).days < self.template.youth.days_apart for date in before)
        return self.youth and week == self.last_week and close

    def is_test_day(self, week: int, slot: int) -> bool:
        return week == self.last_week and slot == self.test_slot

    def training_days(self, week: int) -> list[int]:
        """Slot numbers of the week on which the athlete can train, the test day included."""
        free = [slot for slot in self.slots_of(week) if (week, slot) not in self.away]
        return [slot for slot in free if week < self.last_week or slot <= self.test_slot]

    def sport_units(self, start: datetime.date, days: int, joint: Joint) -> int:
        """Joint stress of the sport on these days, on each leg, in stress units."""
        dates = (start + datetime.timedelta(days=later) for later in range(days))
        return sum(self.sport_stress.get(date, {}).get(joint, 0) for date in dates)

    def week_start(self, week: int) -> datetime.date:
        return self.start + datetime.timedelta(days=7 * (week - 1))

    def programmed_days(self) -> list[tuple[int, int]]:
        """(week, slot) of the training days in order, without the closing test."""
        days = [(week, slot) for week in self.weeks for slot in self.training_days(week)]
        return [day for day in days if not self.is_test_day(*day)]

    def session_terms(self, week: int, slot: int, per_set: Callable[[Entry], int]) -> list[Term]:
        """Linear terms (coefficient, variable) of a quantity summed over one session."""
        return [(c, e.key) for e in self.entries[week, slot] if (c := per_set(e))]

    def once_terms(self, week: int, slot: int, once: Callable[[Entry], int]) -> list[Term]:
        """Linear terms of what a movement takes once a session, however many sets it has there."""
        phase = self.phase_of(week)
        return [
            (c, in_key(phase, slot, e.movement.id))
            for e in self.entries[week, slot]
            if e.dosage.high_sets and e.barred is None and (c := once(e))
        ]

    def week_terms(self, week: int, per_set: Callable[[Entry], int]) -> list[Term]:
        """Linear terms of a quantity summed over one week."""
        return [term for slot in self.slots_of(week) for term in self.session_terms(week, slot, per_set)]

    def week_entries(self, week: int) -> Iterator[Entry]:
        for slot in self.slots_of(week):
            yield from self.entries[week, slot]


def joint_legs() -> list[tuple[Joint, Leg]]:
    return [(joint, leg) for joint in JOINTS for leg in LEGS]


def scaled(terms: list[Term], factor: int) -> list[Term]:
    return [(factor * coefficient, key) for coefficient, key in terms]
