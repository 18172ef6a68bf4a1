"""The Problem: all that rules, solver and audit need to know about one athlete, library and template.

Whole numbers throughout, so that the solver's arithmetic is exact: working sets in quarter sets (a tag of 1 gives a
quarter), joint stress in 1/120 point (so that a contact, a set, a second of a hold and a metre of a sprint are all
whole), time in seconds, distance in metres.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from planner.domain.athlete import Athlete
from planner.domain.block_before import BlockBefore
from planner.domain.movement import Movement
from planner.domain.movement_library import Library
from planner.domain.template import LevelPlan, Shape, Template
from planner.domain.terms import JOINTS, LEGS, LIFT_QUALITIES, Joint, Leg, Quality, Side, Tier
from planner.estimate.athlete_emphasis import hurts
from planner.problem.block_calendar import BlockCalendar
from planner.problem.high_tier import Gate
from planner.problem.training_days import Phase
from planner.problem.variable import Term, Variable, in_key, sets_key

STRESS_UNITS_PER_POINT = 120
SORE_TENDONS: tuple[Joint, ...] = ("achilles-ankle", "patellar-knee")
RETEST = "retest"  # the id of the test that closes the block, as a movement


@dataclass(frozen=True)
class ExtraSet:
    """An extra set on one leg, once a session: what it takes on top of the sets of both legs."""

    leg: Leg
    seconds: int  # work on one side, and rest
    stress: dict[Joint, int]


@dataclass(frozen=True)
class Dosage:
    """One set of a movement in one week, in whole numbers, and how many sets a session may hold."""

    low_sets: int
    high_sets: int
    reps: int | None
    percent: float | None
    reserve: int | None
    hold_s: int | None
    set_seconds: int  # work on all sides, and rest
    ramp_seconds: int  # once a session, before the first set
    is_working_set: bool
    quarter_sets: dict[Quality, int]
    contacts: int
    leg_contacts: dict[Leg, int]
    tier: Tier | None
    approach_contacts: int
    sprints: int
    fast_sprints: int  # at or above the speed that makes a day hard
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
    """The week's bands in the solver's units, and the hard floors under them."""

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
class Deficit:
    """What a tested quality is short of, as a share of the need; below 0 a surplus. ``se``: its standard error."""

    deficit: float
    se: float
    confidence: float


@dataclass(frozen=True)
class Ceilings:
    """Joint-stress ceilings of one joint and leg, in stress units, lowered for pain and growth spurts."""

    session: int
    two_days: int
    week: int
    tag3_session: int
    tag3_week: int


@dataclass(frozen=True)
class Entry:
    """One movement on one training date: the variable for its sets, and what one set is."""

    week: int
    slot: int
    movement: Movement
    dosage: Dosage
    barred: str | None  # why the date allows no set of it

    @cached_property
    def key(self) -> Variable:
        return sets_key(self.week, self.slot, self.movement.id)


@dataclass(frozen=True)
class Problem(BlockCalendar):
    athlete: Athlete
    library: Library
    template: Template
    level: LevelPlan
    youth: bool  # under the template's age, or a novice
    shapes: tuple[Shape, ...]  # of an ordinary week, one for each slot, in no particular order
    test_week_shapes: dict[int, Shape]  # slot -> shape, without the test day
    movements: tuple[Movement, ...]  # sorted by id
    retest: Movement
    entries: dict[tuple[int, int], tuple[Entry, ...]]  # (week, slot), sorted by movement
    bands: dict[int, WeekBands]
    start_limits: StartLimits
    ceilings: dict[tuple[Joint, Leg], Ceilings]
    sport_stress: dict[datetime.date, dict[Joint, int]]
    one_rm_kg: dict[tuple[str, Side], float]
    gate: Gate  # to high-tier jumps
    tilts: dict[Quality, float]
    deficits: dict[Quality, Deficit]  # of the tested qualities alone
    weaker_legs: dict[Quality, Leg]  # that get an extra set
    load_table: Mapping[int, float]  # repetitions to failure -> percent of the maximum, of the benchmarks
    # Of a block that is revised, as values of variables: what was done and what was planned, and whether rows give way.
    past: Mapping[Variable, int] = field(default_factory=dict)
    past_plan: Mapping[Variable, int] = field(default_factory=dict)
    past_gives: bool = False
    light: tuple[int, int] | None = None  # (week, slot) of a first session back after days lost
    easy_weeks: tuple[int, ...] = ()  # after more days lost
    gained: Mapping[str, float] = field(default_factory=dict)  # maxima now, as shares of those tested, by lift
    before: BlockBefore | None = None  # the block that this one follows
    kept: Mapping[Variable, int] = field(default_factory=dict)  # what a coach changed by hand, in what is still to come

    @cached_property
    def choices(self) -> list[tuple[str, int, str]]:
        """Every (phase, slot, movement) that the solver may choose, in canonical order."""
        days = [(phase, slot) for phase in self.phases for slot in phase.slots]
        return [(phase.id, slot, m.id) for phase, slot in days for m in self.movements_on(phase, slot)]

    def movements_on(self, phase: Phase, slot: int) -> list[Movement]:
        """The movements that the solver may choose for this day of the phase."""
        return [e.movement for e in self.entries[phase.weeks[0], slot] if e.movement.id != self.retest.id]

    @property
    def has_sore_tendon(self) -> bool:
        """Whether the Achilles tendon or the knee of either leg hurts."""
        return any(state.pain and state.joint in SORE_TENDONS for state in self.athlete.joints)

    @property
    def short_qualities(self) -> list[Quality]:
        """Lift qualities that the emphasis raises because they test short, where no joint of theirs hurts."""
        raised = [quality for quality in LIFT_QUALITIES if quality in self.deficits and self.tilts.get(quality, 1) > 1]
        return [quality for quality in raised if not hurts(self.athlete, quality)]

    @property
    def aiming_weeks(self) -> list[int]:
        """The full load weeks whose aims are the template's: not those that are easy after days lost."""
        return [week for week in self.full_load_weeks if week not in self.easy_weeks]

    @property
    def later_aiming_weeks(self) -> list[int]:
        """Those after the first load phase."""
        return [week for week in self.aiming_weeks if self.load_phase_number(week)]

    @property
    def reference_week(self) -> int:
        """The template's reference week; if it lost days, the last load week before it that did not."""
        named = self.template.reference_week
        return (self.last_load_week_before(named) or named) if self.lost_days(named) else named

    def only_the_test_jumps(self, week: int) -> bool:
        """Whether the closing test is the week's only jump day, for youth and novices."""
        return self.youth and week == self.last_week and self.all_close_to_the_test(self.template.youth.days_apart)

    def sport_units(self, start: datetime.date, days: int, joint: Joint) -> int:
        """Joint stress of the sport on these days, on each leg, in stress units."""
        dates = (start + datetime.timedelta(days=later) for later in range(days))
        return sum(self.sport_stress.get(date, {}).get(joint, 0) for date in dates)

    def session_terms(self, week: int, slot: int, per_set: Callable[[Entry], int]) -> list[Term]:
        """Linear terms of a quantity summed over one session."""
        return [(c, e.key) for e in self.entries[week, slot] if (c := per_set(e))]

    def once_terms(self, week: int, slot: int, once: Callable[[Entry], int]) -> list[Term]:
        """Linear terms of what a movement takes once a session, whatever its sets."""
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
