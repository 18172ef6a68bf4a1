"""The audit's own arithmetic: a finished block counted from its printed items and the library's tags alone.

Points, sets and contacts are plain numbers here, as a coach counts them, not the solver's whole units.
"""

from __future__ import annotations

import datetime
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from planner.domain.address import Address
from planner.domain.block import Block, Item, Session, Week
from planner.domain.movement import Movement
from planner.domain.template_limits import Counting
from planner.domain.terms import LEGS, LOAD_ROLES, Joint, Leg, Quality, Role, Tier
from planner.problem.model import RETEST, Problem


@dataclass(frozen=True)
class CountedItem:
    item: Item
    movement: Movement
    counting: Counting

    @property
    def name(self) -> str:
        return self.item.name

    @property
    def is_test(self) -> bool:
        return self.movement.id == RETEST

    @property
    def works(self) -> bool:
        return self.item.sets > 0

    @property
    def working_sets(self) -> int:
        return self.item.sets if self.movement.kind in ("lift", "hold") else 0

    def quality_sets(self, quality: Quality) -> float:
        tag = self.movement.qualities.get(quality, 0)
        return self.working_sets * self.counting.quality_quarters[tag - 1] / 4 if tag else 0.0

    def trains(self, leg: Leg) -> bool:
        return self.item.side in ("both", "each", leg)

    def leg_contacts(self, leg: Leg) -> float:
        """Landings on this leg: all of a two-leg jump's, half of one done on each leg in turn."""
        if not self.trains(leg):
            return 0.0
        return self.item.contacts / 2 if self.item.side == "each" else float(self.item.contacts)

    @property
    def sprint_efforts(self) -> int:
        return self.item.sets if self.movement.sprint is not None else 0

    @property
    def sprint_m(self) -> float:
        return self.sprint_efforts * (self.item.distance_m or 0.0)

    def stress(self, joint: Joint, leg: Leg) -> float:
        """Points: the tag's weight x doses of contacts, working sets, holding or sprinting."""
        tag = self.movement.stress.get(joint, 0)
        if not tag or not self.trains(leg):
            return 0.0
        return self.counting.stress_weights[tag - 1] * self._doses(leg)

    def _doses(self, leg: Leg) -> float:
        sets = self.item.sets + (self.item.extra_set == leg)
        if self.movement.sprint is not None:
            return self.sprint_m / self.counting.sprint_m_per_dose
        if self.movement.jump is not None:
            return self.leg_contacts(leg) / self.counting.contacts_per_dose
        if self.item.hold_s is not None:
            return sets * self.item.hold_s / self.counting.hold_s_per_dose
        return 0.0 if self.movement.kind == "skill" else float(sets)

    def tag3_contacts(self, joint: Joint, leg: Leg) -> float:
        return self.leg_contacts(leg) if self.movement.stress.get(joint, 0) == 3 else 0.0


class Sums:
    """What the items of a session or of a week add up to."""

    items: Sequence[CountedItem]

    @property
    def working_sets(self) -> int:
        return sum(item.working_sets for item in self.items)

    def quality_sets(self, quality: Quality) -> float:
        return sum(item.quality_sets(quality) for item in self.items)

    @property
    def contacts(self) -> int:
        return sum(item.item.contacts for item in self.items)

    def tier_contacts(self, tier: Tier) -> int:
        return sum(item.item.contacts for item in self.items if item.item.tier == tier)

    def leg_tier_contacts(self, tier: Tier, leg: Leg) -> float:
        return sum(item.leg_contacts(leg) for item in self.items if item.item.tier == tier)

    def tag3_contacts(self, joint: Joint, leg: Leg) -> float:
        return sum(item.tag3_contacts(joint, leg) for item in self.items)

    @property
    def approach_contacts(self) -> int:
        maximal = (one for one in self.items if one.movement.part == "approach-jump" and one.item.tier == "high")
        return sum(one.item.contacts for one in maximal)

    @property
    def sprint_efforts(self) -> int:
        return sum(item.sprint_efforts for item in self.items)

    @property
    def sprint_m(self) -> float:
        return sum(item.sprint_m for item in self.items)

    def fast_sprints(self, speed_percent: int) -> int:
        sprints = ((item, item.movement.sprint) for item in self.items)
        return sum(item.sprint_efforts for item, sprint in sprints if sprint and sprint.speed_percent >= speed_percent)

    def stress(self, joint: Joint, leg: Leg) -> float:
        return sum(item.stress(joint, leg) for item in self.items)


@dataclass(frozen=True)
class CountedSession(Sums):
    session: Session
    items: tuple[CountedItem, ...]

    @property
    def at(self) -> Address:
        return Address(session=self.session.id)

    def at_item(self, item: CountedItem) -> Address:
        return Address(session=self.session.id, item=item.item.id, movement=item.movement.id)

    @property
    def where(self) -> str:
        return f"{self.session.id} ({self.session.date:%a %d %b})"

    @property
    def date(self) -> datetime.date:
        return self.session.date

    @property
    def is_test(self) -> bool:
        return any(item.is_test for item in self.items)

    def is_hard(self, problem: Problem) -> bool:
        rule = problem.template.hard_day
        high = max(self.leg_tier_contacts("high", leg) for leg in LEGS)
        return high >= rule.high_contacts_leg or self.fast_sprints(rule.sprint_speed_percent) >= rule.sprints


@dataclass(frozen=True)
class CountedWeek(Sums):
    week: Week
    sessions: tuple[CountedSession, ...]
    items: tuple[CountedItem, ...]  # of all sessions

    @property
    def number(self) -> int:
        return self.week.number

    @property
    def at(self) -> Address:
        return Address(week=self.week.number)

    @property
    def is_load(self) -> bool:
        return self.week.role in LOAD_ROLES


@dataclass(frozen=True)
class Plan:
    """A block as the audit sees it: counted items, and the problem for its limits, dates and library."""

    problem: Problem
    weeks: tuple[CountedWeek, ...]

    @property
    def sessions(self) -> Iterator[CountedSession]:
        return (session for week in self.weeks for session in week.sessions)

    def working_items(self) -> Iterator[tuple[CountedWeek, CountedSession, CountedItem]]:
        """Every item with sets, except the closing test."""
        for week in self.weeks:
            for session in week.sessions:
                for item in session.items:
                    if item.works and not item.is_test:
                        yield week, session, item

    def week(self, number: int) -> CountedWeek:
        return next(week for week in self.weeks if week.number == number)

    def lost_days(self, number: int) -> bool:
        """Whether an away date takes a training day out of the week; later weeks are then not compared with it."""
        away = {self.problem.dates[key] for key in self.problem.away}
        start = self.week(number).week.start
        return any(0 <= (date - start).days < 7 for date in away)

    def last_load_week_before(self, number: int) -> CountedWeek | None:
        """The last load week before this one that lost no day."""
        earlier = [w for w in self.weeks if w.number < number and w.is_load and not self.lost_days(w.number)]
        return earlier[-1] if earlier else None

    def compared(self, roles: Collection[Role]) -> Iterator[tuple[CountedWeek, CountedWeek]]:
        """Each week of these roles with the last load week before it, where there is one."""
        for week in self.weeks:
            before = self.last_load_week_before(week.number)
            if before is not None and week.week.role in roles:
                yield week, before


def count_session(session: Session, problem: Problem) -> CountedSession:
    """Pair every item with its movement. Raises KeyError for a movement that the library does not have."""
    counted = []
    for item in session.items:
        movement = problem.retest if item.movement == RETEST else problem.library[item.movement]
        counted.append(CountedItem(item, movement, problem.template.counting))
    return CountedSession(session, tuple(counted))


def count_week(week: Week, problem: Problem) -> CountedWeek:
    """As ``count_session``."""
    sessions = tuple(count_session(session, problem) for session in week.sessions)
    return CountedWeek(week, sessions, tuple(item for session in sessions for item in session.items))


def count_block(block: Block, problem: Problem) -> Plan:
    """As ``count_session``."""
    return Plan(problem, tuple(count_week(week, problem) for week in block.weeks))
