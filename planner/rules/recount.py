"""Counting a finished block again, from its printed items and the library's tags alone; the audit's own arithmetic.

Points, sets and contacts here are plain numbers as a coach counts them, not the solver's whole units.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import dataclass

from planner.domain.address import Address
from planner.domain.block import Block, Item, Session, Week
from planner.domain.movement import Movement
from planner.domain.template_limits import Counting
from planner.domain.terms import JOINTS, LEGS, LIFT_QUALITIES, LOAD_ROLES, Joint, Leg, Quality, Tier
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


@dataclass(frozen=True)
class CountedSession:
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

    @property
    def contacts(self) -> int:
        return sum(item.item.contacts for item in self.items)

    @property
    def jumps(self) -> bool:
        return any(item.item.contacts for item in self.items)

    def tier_contacts(self, tier: Tier) -> int:
        return sum(item.item.contacts for item in self.items if item.item.tier == tier)

    def leg_tier_contacts(self, tier: Tier, leg: Leg) -> float:
        return sum(item.leg_contacts(leg) for item in self.items if item.item.tier == tier)

    @property
    def sprint_efforts(self) -> int:
        return sum(item.sprint_efforts for item in self.items)

    def fast_sprints(self, speed_percent: int) -> int:
        return sum(
            item.sprint_efforts
            for item in self.items
            if item.movement.sprint is not None and item.movement.sprint.speed_percent >= speed_percent
        )

    def stress(self, joint: Joint, leg: Leg) -> float:
        return sum(item.stress(joint, leg) for item in self.items)

    def tag3_contacts(self, joint: Joint, leg: Leg) -> float:
        return sum(item.tag3_contacts(joint, leg) for item in self.items)

    def is_hard(self, problem: Problem) -> bool:
        rule = problem.template.hard_day
        high = max(self.leg_tier_contacts("high", leg) for leg in LEGS)
        return high >= rule.high_contacts_leg or self.fast_sprints(rule.sprint_speed_percent) >= rule.sprints


@dataclass(frozen=True)
class CountedWeek:
    week: Week
    sessions: tuple[CountedSession, ...]

    @property
    def number(self) -> int:
        return self.week.number

    @property
    def at(self) -> Address:
        return Address(week=self.week.number)

    @property
    def is_load(self) -> bool:
        return self.week.role in LOAD_ROLES

    @property
    def items(self) -> Iterator[CountedItem]:
        for session in self.sessions:
            yield from session.items

    @property
    def working_sets(self) -> int:
        return sum(item.working_sets for item in self.items)

    def quality_sets(self, quality: Quality) -> float:
        return sum(item.quality_sets(quality) for item in self.items)

    @property
    def contacts(self) -> int:
        return sum(session.contacts for session in self.sessions)

    def tier_contacts(self, tier: Tier) -> int:
        return sum(session.tier_contacts(tier) for session in self.sessions)

    def leg_tier_contacts(self, tier: Tier, leg: Leg) -> float:
        return sum(session.leg_tier_contacts(tier, leg) for session in self.sessions)

    @property
    def sprint_efforts(self) -> int:
        return sum(session.sprint_efforts for session in self.sessions)

    @property
    def sprint_m(self) -> float:
        return sum(item.sprint_m for item in self.items)

    def stress(self, joint: Joint, leg: Leg) -> float:
        return sum(session.stress(joint, leg) for session in self.sessions)

    @property
    def approach_contacts(self) -> int:
        return sum(
            item.item.contacts
            for item in self.items
            if item.movement.part == "approach-jump" and item.item.tier == "high"
        )


@dataclass(frozen=True)
class Plan:
    """A block as the audit sees it: counted items, and the problem for its limits, dates and library."""

    problem: Problem
    weeks: tuple[CountedWeek, ...]

    def working_items(self) -> Iterator[tuple[CountedWeek, CountedSession, CountedItem]]:
        """Every item that is done (more than 0 sets), the closing test left out."""
        for week in self.weeks:
            for session in week.sessions:
                for item in session.items:
                    if item.works and not item.is_test:
                        yield week, session, item

    def week(self, number: int) -> CountedWeek:
        return next(week for week in self.weeks if week.number == number)

    def lost_days(self, number: int) -> bool:
        """Whether an away date takes a training day out of the week: later weeks are not measured against it then."""
        away = {self.problem.dates[key] for key in self.problem.away}
        start = self.week(number).week.start
        return any(0 <= (date - start).days < 7 for date in away)

    def last_load_week_before(self, number: int) -> CountedWeek | None:
        """The last load week that lost no day."""
        earlier = [w for w in self.weeks if w.number < number and w.is_load and not self.lost_days(w.number)]
        return earlier[-1] if earlier else None


def count_block(block: Block, problem: Problem) -> Plan:
    """Pair every item with its movement. Raises KeyError for a movement that the library does not have."""
    library, counting = problem.library, problem.template.counting
    return Plan(
        problem,
        tuple(
            CountedWeek(
                week,
                tuple(
                    CountedSession(
                        session,
                        tuple(
                            CountedItem(i, problem.retest if i.movement == RETEST else library[i.movement], counting)
                            for i in session.items
                        ),
                    )
                    for session in week.sessions
                ),
            )
            for week in block.weeks
        ),
    )


__all__ = ["JOINTS", "LEGS", "LIFT_QUALITIES", "CountedItem", "CountedSession", "CountedWeek", "Plan", "count_block"]
