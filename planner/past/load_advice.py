"""The load on the next card, from what the last sessions of a lift left in reserve. The block itself is not touched."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from planner.domain.block import Block, Item, Week
from planner.domain.follow_up import LoadSteps
from planner.domain.movement_library import Library
from planner.domain.terms import LOAD_ROLES
from planner.domain.training_log import LoggedItem, LoggedSession
from planner.past.done import DoneSession
from planner.past.lift_filter import EPLEY_reps

Move = Literal["raise", "one-rep-more", "hold", "drop", "found"]
# Every load that the gym can make for an item, lightest first; None where any load will do.
LoadsOf = Callable[[Item], Sequence[float] | None]


@dataclass(frozen=True)
class LiftDay:
    """A lift as it was done in one session. ``planned``: the card's item; ``done``: its first set speaks."""

    entry: LoggedSession
    date: datetime.date
    planned: Item
    done: Item
    logged: LoggedItem | None

    @property
    def left(self) -> int | None:
        """Reps left after the first set, as stated; as planned where the item was done as planned."""
        if self.logged is None:
            return self.planned.reps_in_reserve
        return self.logged.reps_in_reserve[0] if self.logged.reps_in_reserve else None

    @property
    def reps_missed(self) -> int:
        """Reps short of the plan in a set that was taken as far as it went: nothing left, or nothing said."""
        if self.logged is None or not self.planned.reps:
            return 0
        left = [*self.logged.reps_in_reserve, *[0] * len(self.logged.reps)]
        short = [self.planned.reps - reps for reps, rest in zip(self.logged.reps, left, strict=False) if not rest]
        return max([0, *short])


@dataclass(frozen=True)
class LoadAdvice:
    """Advice for one item of a coming session. ``load_kg``: as the gym makes it; ``last``: the session it rests on."""

    session: str
    item: Item
    move: Move
    load_kg: float
    last: LiftDay
    why_held: str = ""

    @property
    def changes_load(self) -> bool:
        return self.item.load_kg is None or abs(self.load_kg - self.item.load_kg) > 1e-6


@dataclass(frozen=True)
class Advisor:
    """``guarded``: young or a novice, who always keep some reps. ``body_kg``: body mass, for one-leg lifts."""

    rule: LoadSteps
    library: Library
    body_kg: float
    guarded: bool
    loads: LoadsOf

    def for_session(self, block: Block, session_id: str, done: Sequence[DoneSession]) -> list[LoadAdvice]:
        """Advice for every lift of a coming session that was done before with a load."""
        week = next(week for week in block.weeks if any(session.id == session_id for session in week.sessions))
        session = next(session for session in week.sessions if session.id == session_id)
        days = lift_days(done)
        found = []
        for item in session.items:
            history = days.get(item.movement, [])
            if item.sets and item.reps and history and (advice := self._for_item(session_id, week, item, history)):
                found.append(advice)
        return found

    def _for_item(self, session: str, week: Week, item: Item, days: Sequence[LiftDay]) -> LoadAdvice | None:
        last = days[-1]
        if not last.done.load_kg or (item.load_kg is None and last.planned.load_kg is not None):
            return None
        percent, held = self._step(days)
        if week.role not in LOAD_ROLES and percent > 0:
            percent, held = 0.0, f"a {week.role} week raises no load"
        body_kg = self.library[item.movement].dose.body_mass_share * self.body_kg
        usual = self._as_before(item, last, body_kg)
        wanted = (usual + body_kg) * (1 + percent / 100) - body_kg
        before, after = self._rounded(item, usual), self._rounded(item, wanted)
        if item.load_kg is None:
            return LoadAdvice(session, item, "found", after, last, held)
        move: Move = "raise" if percent > 0 else "drop" if percent < 0 else "hold"
        if move == "raise" and after <= before:
            move = "one-rep-more"
        return LoadAdvice(session, item, move, after, last, held)

    def _as_before(self, item: Item, last: LiftDay, body_kg: float) -> float:
        """The coming load with last time's distance from its plan; a load that was found, for the coming reps."""
        done_kg = (last.done.load_kg or 0.0) + body_kg
        if item.load_kg is not None and last.planned.load_kg is not None:
            return (item.load_kg + body_kg) * done_kg / (last.planned.load_kg + body_kg) - body_kg
        before, now = (1 + ((i.reps or 0) + (i.reps_in_reserve or 0)) / EPLEY_reps for i in (last.planned, item))
        return done_kg * before / now - body_kg

    def _step(self, days: Sequence[LiftDay]) -> tuple[float, str]:
        """Percent of change, and why none where a raise was near."""
        rule, last = self.rule, days[-1]
        more = self._left_more(last)
        if last.reps_missed or (more is not None and more <= -rule.drop_if_left_less):
            fewer = max(-(more or 0), last.reps_missed + (last.planned.reps_in_reserve or 0) if last.reps_missed else 0)
            return -min(rule.most_drop_percent, rule.rep_percent * fewer), ""
        if more is None or more < rule.raise_if_left_more:
            return 0.0, ""
        if last.entry.written == "later":
            return 0.0, "written from memory"
        if _pain_rose(last.entry, self.library, last.done.movement):
            return 0.0, "pain rose"
        before = self._left_more(days[-2]) if len(days) > 1 else None
        twice = before is not None and before >= rule.raise_if_left_more
        if more >= rule.raise_at_once or twice:
            return min(rule.most_raise_percent, rule.rep_percent * rule.raise_share * more), ""
        return 0.0, "once is not yet a reason to raise"

    def _left_more(self, day: LiftDay) -> int | None:
        """Reps left beyond the plan, and beyond what the athlete always keeps."""
        if day.left is None or day.planned.reps_in_reserve is None:
            return None
        wanted = day.planned.reps_in_reserve
        if self.guarded and day.left > wanted:
            wanted = min(day.left, max(wanted, self.rule.least_left_guarded))
        return day.left - wanted

    def _rounded(self, item: Item, wanted_kg: float) -> float:
        """Down to what the gym can make; its lightest where all is heavier."""
        loads = self.loads(item)
        if not loads:
            return round(wanted_kg, 2)
        return max((load for load in loads if load <= wanted_kg + 1e-6), default=loads[0])


def lift_days(done: Sequence[DoneSession]) -> dict[str, list[LiftDay]]:
    """Each movement's sessions with sets done, in order of date; not the test, nor what was done in another's place."""
    found: dict[str, list[LiftDay]] = {}
    for one in done:
        logged = {line.item: line for line in one.entry.items}
        for planned, item in zip(one.planned.items, one.session.items, strict=True):
            if item.sets and planned.movement == item.movement and item.part != "test":
                day = LiftDay(one.entry, one.date, planned, item, logged.get(planned.id))
                found.setdefault(item.movement, []).append(day)
    return found


def _pain_rose(entry: LoggedSession, library: Library, movement: str) -> bool:
    """Whether a joint that the movement loads hurt more in the session or the next morning than before it."""
    loaded = library[movement].stress
    return any(
        pain.joint in loaded and max(pain.worst or 0, pain.next_morning or 0) > (pain.before or 0)
        for pain in entry.pain
    )
